#include "waits.hpp"

#include <algorithm>
#include <variant>
#include <vector>

namespace compline::assess {

using time::Seconds;
using time::Ticks;

namespace {

struct TimeOfWait {
    Seconds from;
    Seconds to;
};

std::vector<TimeOfWait> waits_of(const roadmap::RoadMap& map) {
    constexpr double leads_out = 1.5;  // quarter notes
    std::vector<TimeOfWait> waits;
    for (const auto& decision : map.decided()) {
        if (!std::holds_alternative<roadmap::Waited>(decision.what)) continue;
        const auto wait = map.bar(decision.from_bar);
        waits.push_back({map.tempi().time_of(wait.start),
                         map.tempi().time_of(wait.end()) - wait.tempo.beat() * leads_out});
    }
    return waits;
}

}  // namespace

bool has_waits(const roadmap::RoadMap& map) {
    const auto& decided = map.decided();
    return std::any_of(decided.begin(), decided.end(), [](const roadmap::Decision& decision) {
        return std::holds_alternative<roadmap::Waited>(decision.what);
    });
}

bool is_in_wait(Ticks at, const roadmap::RoadMap& map) {
    if (at < Ticks(0) || at >= map.end()) return false;
    return map.bar_at(at).waits;
}

Performance without_waits(Performance heard, const roadmap::RoadMap& map) {
    for (const auto& wait : waits_of(map)) {
        std::erase_if(heard.notes, [&](const listen::Note& note) {
            return note.on >= wait.from && note.on < wait.to;
        });
    }
    return heard;
}

}  // namespace compline::assess
