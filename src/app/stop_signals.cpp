#include "stop_signals.hpp"

#include "fatal_signals.hpp"

#include <atomic>

namespace compline::app {

namespace {

std::atomic<bool> asked{false};
static_assert(std::atomic<bool>::is_always_lock_free, "a signal handler may not lock");

/// The second time it is no longer asked.
void ask(int signal) {
    asked.store(true);
    struct sigaction next {};
    next.sa_handler = &end_by;
    ::sigfillset(&next.sa_mask);
    ::sigaction(signal, &next, nullptr);
}

}  // namespace

StopSignals::StopSignals() {
    asked.store(false);
    struct sigaction action {};
    action.sa_handler = &ask;
    ::sigemptyset(&action.sa_mask);
    for (std::size_t i = 0; i < signals.size(); ++i) {
        ::sigaction(signals[i], &action, &before_[i]);
    }
}

StopSignals::~StopSignals() {
    for (std::size_t i = 0; i < signals.size(); ++i) {
        ::sigaction(signals[i], &before_[i], nullptr);
    }
}

bool stop_was_asked() { return asked.load(); }

}  // namespace compline::app
