#pragma once

#include <compline/time/units.hpp>

#include <span>
#include <vector>

namespace compline::listen {

/// The guitar's cable came out, or was in again: from the one to the other nothing can be known of
/// what was played.
struct CableEvent {
    time::Seconds at;
    bool out = false;  ///< else it was in again
    bool operator==(const CableEvent&) const = default;
};

/// From when to when the guitar was not heard.
struct Unheard {
    time::Seconds from;
    time::Seconds to;
    bool operator==(const Unheard&) const = default;
};

/// Events in order of time; a cable that stayed out was out until `end`.
[[nodiscard]] std::vector<Unheard> unheard_between(std::span<const CableEvent> events,
                                                   time::Seconds end);

}  // namespace compline::listen
