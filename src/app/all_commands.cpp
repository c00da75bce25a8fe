#include "command.hpp"

namespace compline::app {

std::vector<ProgramCommand> all_commands() {
    return {practice_command(), show_command(),     check_command(),     plan_command(),
            render_command(),   score_command(),    compare_command(),   history_command(),
            next_command(),     homework_command(), demo_command(),      devices_command(),
            settings_command(), setup_command(),    calibrate_command(), new_command()};
}

}  // namespace compline::app
