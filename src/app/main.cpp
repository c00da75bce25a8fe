#include "command.hpp"
#include "usage.hpp"

#include <compline/midi/smf.hpp>

#include <fmt/format.h>

#include <cstdio>
#include <exception>

namespace {

using compline::app::Program;
using compline::app::Status;

int status(Status s) { return static_cast<int>(s); }

void set_up(Program& program) {
    auto& cli = program.cli;
    cli.name("compline");
    cli.description(
        "Drums and bass from a chart, and an honest ear for the guitarist who comps to them.");
    cli.set_version_flag("--version", "compline " COMPLINE_VERSION, "Print the version and stop");
    cli.require_subcommand(0, 1);
    compline::app::word_help(cli);
    compline::app::add_practice(program);
    compline::app::add_show(program);
    compline::app::add_check(program);
    compline::app::add_plan(program);
    compline::app::add_render(program);
    compline::app::add_score(program);
    compline::app::add_demo(program);
    compline::app::add_devices(program);
    compline::app::settle_commands(cli);
    cli.footer("compline COMMAND --help says more about a command.");
}

int run(int argc, char** argv) {
    Program program;
    set_up(program);
    try {
        program.cli.parse(argc, argv);
        if (program.cli.get_subcommands().empty()) {
            fmt::print(stderr, "{}", program.cli.help());
            return status(Status::bad_input);
        }
    } catch (const CLI::ParseError& error) {
        if (error.get_exit_code() == 0) return program.cli.exit(error);
        compline::app::say(compline::app::usage_problem(program.cli, error));
        return status(Status::bad_input);
    } catch (const compline::chart::ChartError& error) {
        compline::app::say(error.what());
        return status(Status::bad_input);
    } catch (const compline::app::BadInput& error) {
        compline::app::say(error.what());
        return status(Status::bad_input);
    }
    return status(program.status);
}

}  // namespace

int main(int argc, char** argv) {
    try {
        const int result = run(argc, argv);
        // A full disk behind a redirected stdout shows here, if anywhere.
        if (std::fflush(stdout) == 0 && std::ferror(stdout) == 0) return result;
        compline::app::say("the results could not be written to the standard output");
    } catch (const std::exception& error) {
        compline::app::say(error.what());
    }
    return status(Status::could_not);
}
