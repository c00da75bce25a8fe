#include "stop_signals.hpp"

#include <atomic>

namespace compline::app {

namespace {

std::atomic<bool> asked{false};
static_assert(std::atomic<bool>::is_always_lock_free, "a signal handler may not lock");

void ask(int) { asked.store(true); }

}  // namespace

StopSignals::StopSignals() {
    asked.store(false);
    struct sigaction action {};
    action.sa_handler = &ask;
    action.sa_flags = static_cast<int>(SA_RESETHAND);
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
