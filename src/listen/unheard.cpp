#include <compline/listen/unheard.hpp>

#include <algorithm>
#include <optional>

namespace compline::listen {

using time::Seconds;

std::vector<Unheard> unheard_between(std::span<const CableEvent> events, Seconds end) {
    std::vector<Unheard> unheard;
    std::optional<Seconds> out;
    for (const auto& event : events) {
        if (event.out && !out) out = event.at;
        if (event.out || !out) continue;
        unheard.push_back({*out, event.at});
        out.reset();
    }
    if (out) unheard.push_back({*out, std::max(*out, end)});
    return unheard;
}

}  // namespace compline::listen
