#include <compline/listen/unheard.hpp>

#include <algorithm>

namespace compline::listen {

using time::Seconds;

std::vector<Unheard> unheard_between(std::span<const CableEvent> events, Seconds end) {
    std::vector<Unheard> unheard;
    bool is_out = false;
    Seconds since(0);
    for (const auto& event : events) {
        if (event.out && !is_out) since = event.at;
        if (!event.out && is_out) unheard.push_back({since, event.at});
        is_out = event.out;
    }
    if (is_out) unheard.push_back({since, std::max(since, end)});
    return unheard;
}

}  // namespace compline::listen
