#include "command_line.hpp"

#include <fmt/format.h>

#include <cstdio>
#include <exception>

namespace {

using namespace compline::app;

int status(Status s) { return static_cast<int>(s); }

std::vector<Command> commands() {
    return {practice_command(), show_command(),  check_command(), plan_command(),
            render_command(),   score_command(), demo_command(),  devices_command()};
}

int run(int argc, char** argv) {
    try {
        return status(run_command_line(commands(), argc, argv));
    } catch (const compline::chart::ChartError& error) {
        say(error.what());
    } catch (const BadInput& error) {
        say(error.what());
    }
    return status(Status::bad_input);
}

}  // namespace

int main(int argc, char** argv) {
    try {
        const int result = run(argc, argv);
        // A full disk behind a redirected stdout shows here, if anywhere.
        if (std::fflush(stdout) == 0 && std::ferror(stdout) == 0) return result;
        say("the results could not be written to the standard output");
    } catch (const std::exception& error) {
        say(error.what());
    }
    return status(Status::could_not);
}
