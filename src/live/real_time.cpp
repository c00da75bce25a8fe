#include <compline/live/real_time.hpp>

#include <pthread.h>
#include <sys/resource.h>

#include <algorithm>
#include <thread>

namespace compline::live {

namespace {

constexpr int sensible = 70;

/// As far as the limit goes; of who needs none (root) it may be 0.
int within_limit() {
    rlimit limit{};
    const bool known = ::getrlimit(RLIMIT_RTPRIO, &limit) == 0 && limit.rlim_cur > 0;
    if (!known || limit.rlim_cur >= static_cast<rlim_t>(sensible)) return sensible;
    return static_cast<int>(limit.rlim_cur);
}

bool is_granted(int priority) {
    bool granted = false;
    std::thread tries([&] {
        sched_param wish{};
        wish.sched_priority = priority;
        granted = ::pthread_setschedparam(::pthread_self(), SCHED_RR, &wish) == 0;
    });
    tries.join();
    return granted;
}

}  // namespace

std::optional<int> real_time_priority() {
    const int priority = within_limit();
    if (!is_granted(priority)) return std::nullopt;
    return priority;
}

}  // namespace compline::live
