#include "event_order.hpp"

#include <compline/text/bad_input.hpp>

#include <fmt/format.h>

#include <algorithm>

namespace compline::midi {

namespace {

constexpr std::size_t format_field = 8;  // where a file says its format

}  // namespace

std::vector<const TrackEvent*> in_order(const File& file) {
    if (file.format == 2 && file.tracks.size() > 1) {
        throw text::bad_byte(
            format_field,
            fmt::format("found format 2, {} patterns independent of each other",
                        file.tracks.size()),
            "expected format 0 or 1: save the pattern you mean as a file of its own");
    }
    std::vector<const TrackEvent*> events;
    for (const Track& track : file.tracks) {
        for (const TrackEvent& event : track.events) events.push_back(&event);
    }
    std::stable_sort(events.begin(), events.end(),
                     [](const auto* a, const auto* b) { return a->tick < b->tick; });
    return events;
}

}  // namespace compline::midi
