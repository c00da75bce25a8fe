#include "command.hpp"

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
    cli.description(
        "Drums and bass from a chart, and an honest ear for the guitarist who comps to them.");
    cli.set_version_flag("--version", "compline " COMPLINE_VERSION);
    cli.require_subcommand(1);
    cli.failure_message(CLI::FailureMessage::simple);
    compline::app::add_check(program);
    compline::app::add_render(program);
    compline::app::add_score(program);
    compline::app::add_demo(program);
    compline::app::add_devices(program);
}

int run(int argc, char** argv) {
    Program program;
    set_up(program);
    try {
        program.cli.parse(argc, argv);
    } catch (const CLI::ParseError& error) {
        return program.cli.exit(error) == 0 ? 0 : status(Status::bad_input);
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
