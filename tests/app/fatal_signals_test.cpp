// Signals that end the program: how the terminal is left, and what is left in folders.

#include "../../src/app/fatal_signals.hpp"

#include "../../src/app/keys.hpp"
#include "../../src/app/stop_signals.hpp"
#include "../../src/app/terminal.hpp"
#include "../../tools/live.d/background_program.hpp"
#include "app/program.hpp"
#include "app/pseudo_terminal.hpp"

#include <sys/inotify.h>
#include <sys/resource.h>
#include <sys/wait.h>

#include <array>
#include <csignal>
#include <cstdlib>
#include <functional>
#include <initializer_list>

using namespace compline;
using namespace compline::tests;

namespace {

constexpr const char* show_cursor = "\x1B[?25h";

constexpr std::array every_signal{SIGHUP, SIGINT, SIGQUIT, SIGTERM, SIGABRT, SIGSEGV,
                                  SIGBUS, SIGFPE, SIGILL,  SIGUSR1, SIGALRM};

/// As the shell starts a program; the test's own runner handles some of them.
void handle_nothing() {
    for (const int signal : every_signal) std::signal(signal, SIG_DFL);
}

/// The signal that ends a process of its own, 0 when it ends by itself.
int signal_that_ends(const std::function<void()>& process) {
    const pid_t child = ::fork();
    REQUIRE(child >= 0);
    if (child == 0) {
        const rlimit no_core{0, 0};
        ::setrlimit(RLIMIT_CORE, &no_core);
        handle_nothing();
        process();
        ::_exit(0);
    }
    int status = 0;
    REQUIRE(::waitpid(child, &status, 0) == child);
    return WIFSIGNALED(status) ? WTERMSIG(status) : 0;
}

/// Draws, reads keys and writes a file when `ending` comes.
void play_until(const PseudoTerminal& terminal, const std::filesystem::path& file,
                const std::function<void()>& ending) {
    app::watch_fatal_signals();
    app::Screen screen(terminal.inside(), "xterm", nullptr);
    app::Keys keys(terminal.inside());
    const app::TerminalInUse in_use(keys, screen);
    const files::UnfinishedFile unfinished(file, files::Existing::keep);
    screen.draw({"one", "two"});
    ending();
}

/// Until the stack runs over.
int fall(int depth) {
    if (depth < 0) return 0;
    volatile char here[4096];
    here[0] = static_cast<char>(depth);
    const int below = fall(depth + 1);
    return below + here[0];  // read afterwards, or it would become a loop
}

void ends_well(const std::function<void()>& ending, int signal) {
    const TemporaryFolder folder;
    const PseudoTerminal terminal(40, 10);
    const auto before = terminal.mode();
    CAPTURE(signal);
    CHECK(signal_that_ends([&] { play_until(terminal, folder.file("x.wav"), ending); }) == signal);
    CHECK(same(terminal.mode(), before));
    CHECK(contains(terminal.received(), show_cursor));
    CHECK(std::filesystem::is_empty(folder.path()));
}

}  // namespace

TEST_CASE("whichever signal ends the program, the terminal is as it was and no half file stays") {
    for (const int signal : every_signal) {
        ends_well([=] { ::raise(signal); }, signal);
        ends_well([=] { ::kill(::getpid(), signal); }, signal);
    }
    ends_well([] { std::abort(); }, SIGABRT);
}

TEST_CASE("a stack that runs over leaves the terminal as it was") {
    const auto fall_deep = [] {
        const rlimit small{1U << 20U, 1U << 20U};
        ::setrlimit(RLIMIT_STACK, &small);
        (void)fall(0);
    };
    ends_well(fall_deep, SIGSEGV);
}

TEST_CASE("asked to stop a second time the program ends at once and leaves the terminal well") {
    for (const int signal : {SIGINT, SIGTERM, SIGHUP}) {
        const auto twice = [=] {
            const app::StopSignals stop;
            ::raise(signal);
            if (!app::stop_was_asked()) ::_exit(1);
            ::raise(signal);
        };
        ends_well(twice, signal);
    }
}

TEST_CASE("a signal that is ignored from outside goes on being ignored") {
    const auto hang_up = [] {
        std::signal(SIGHUP, SIG_IGN);
        app::watch_fatal_signals();
        ::raise(SIGHUP);
    };
    CHECK(signal_that_ends(hang_up) == 0);
}

TEST_CASE("a terminal that takes nothing any more does not keep the program from ending") {
    const TemporaryFolder folder;
    const PseudoTerminal terminal(40, 10);
    const auto before = terminal.mode();
    const auto fill_and_end = [&] {
        ::fcntl(terminal.inside(), F_SETFL, O_RDWR | O_NONBLOCK);
        while (::write(terminal.inside(), "x", 1) == 1) {
        }
        ::fcntl(terminal.inside(), F_SETFL, O_RDWR);
        ::raise(SIGTERM);
    };
    const auto file = folder.file("x.wav");
    CHECK(signal_that_ends([&] { play_until(terminal, file, fill_and_end); }) == SIGTERM);
    CHECK(same(terminal.mode(), before));
    CHECK(std::filesystem::is_empty(folder.path()));
}

TEST_CASE("a render that is stopped leaves nothing behind and ends by the signal", "[app]") {
    for (const int signal : {SIGTERM, SIGINT, SIGHUP}) {
        const TemporaryFolder folder;
        const TemporaryFolder said;
        const int watch = ::inotify_init1(IN_CLOEXEC);
        REQUIRE(::inotify_add_watch(watch, folder.path().c_str(), IN_MODIFY) >= 0);
        auto* const before = std::signal(signal, SIG_DFL);  // what is ignored here stays ignored
        outside::BackgroundProgram render(
            {COMPLINE_PROGRAM, "render", blues(), folder.file("x.wav").string(), "--times", "100"},
            {said.file("out"), said.file("err"), std::nullopt});
        std::signal(signal, before);
        std::array<char, 4096> events{};
        CHECK(::read(watch, events.data(), events.size()) > 0);  // something was written
        ::close(watch);
        render.signal(signal);
        CHECK(render.wait(10) == 128 + signal);
        CHECK(std::filesystem::is_empty(folder.path()));
    }
}
