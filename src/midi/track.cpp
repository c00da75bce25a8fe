#include <compline/midi/smf.hpp>

#include <algorithm>
#include <utility>

namespace compline::midi {

void Track::add(std::int64_t tick, Event event) {
    events.push_back({tick, std::move(event)});
    end = std::max(end, tick);
}

}  // namespace compline::midi
