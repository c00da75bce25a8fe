#include "fatal_signals.hpp"

#include "keys.hpp"
#include "terminal.hpp"

#include <compline/files/file_io.hpp>

#include <array>
#include <atomic>
#include <csignal>

namespace compline::app {

namespace {

/// All that end a program but SIGKILL, which nobody can handle, SIGPIPE and SIGXFSZ, which end
/// nothing here (see secure_standard_streams), and what only profilers and timers send.
constexpr std::array fatal{SIGHUP, SIGINT,  SIGQUIT, SIGTERM, SIGABRT, SIGSEGV, SIGBUS, SIGFPE,
                           SIGILL, SIGTRAP, SIGSYS,  SIGXCPU, SIGALRM, SIGUSR1, SIGUSR2};

std::atomic<Keys*> keys_in_use{nullptr};
std::atomic<Screen*> screen_in_use{nullptr};
static_assert(std::atomic<Keys*>::is_always_lock_free, "a signal handler may not lock");

/// A stack that has run over has no room for a handler. Far more than the handler needs.
std::array<char, std::size_t{64} << 10U> other_stack;

}  // namespace

void watch_fatal_signals() {
    stack_t stack{};
    stack_t before{};
    stack.ss_sp = other_stack.data();
    stack.ss_size = other_stack.size();
    ::sigaltstack(nullptr, &before);
    if ((before.ss_flags & SS_DISABLE) != 0) ::sigaltstack(&stack, nullptr);
    struct sigaction action {};
    action.sa_handler = &end_by;
    action.sa_flags = SA_ONSTACK;
    ::sigfillset(&action.sa_mask);  // one end at a time
    for (const int signal : fatal) {
        struct sigaction present {};
        ::sigaction(signal, nullptr, &present);
        if (present.sa_handler == SIG_DFL) ::sigaction(signal, &action, nullptr);
    }
}

void end_by(int signal) noexcept {
    // What cannot block comes first: the terminal may take nothing any more.
    if (Keys* keys = keys_in_use.exchange(nullptr)) keys->restore();
    files::remove_unfinished_files();
    if (Screen* screen = screen_in_use.exchange(nullptr)) screen->restore();
    struct sigaction by_default {};
    by_default.sa_handler = SIG_DFL;
    ::sigaction(signal, &by_default, nullptr);
    ::raise(signal);  // blocked until the handler returns
}

TerminalInUse::TerminalInUse(Keys& keys, Screen& screen) noexcept {
    keys_in_use = &keys;
    screen_in_use = &screen;
}

TerminalInUse::~TerminalInUse() {
    keys_in_use = nullptr;
    screen_in_use = nullptr;
}

}  // namespace compline::app
