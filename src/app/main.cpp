#include "command_line.hpp"
#include "fatal_signals.hpp"
#include "standard_streams.hpp"

#include <cstdio>
#include <exception>

namespace {

using namespace compline::app;

int status(Status s) { return static_cast<int>(s); }

int run(int argc, char** argv) {
    try {
        return status(run_command_line(all_commands(), argc, argv));
    } catch (const compline::yaml::BadFile& error) {
        say(error.what());
    } catch (const BadInput& error) {
        say(error.what());
    }
    return status(Status::bad_input);
}

int run_safely(int argc, char** argv) {
    try {
        return run(argc, argv);
    } catch (const std::exception& error) {
        // Of a stdout that fails, fmt says no more than we do below.
        if (std::ferror(stdout) == 0) say(error.what());
        return status(Status::could_not);
    }
}

}  // namespace

int main(int argc, char** argv) {
    secure_standard_streams();
    watch_fatal_signals();
    const int result = run_safely(argc, argv);
    // A full disk behind a redirected stdout shows here, if anywhere.
    if (std::fflush(stdout) == 0 && std::ferror(stdout) == 0) return result;
    say("the results could not be written to the standard output");
    return result == status(Status::done) ? status(Status::could_not) : result;
}
