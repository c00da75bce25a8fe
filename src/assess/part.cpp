#include "part.hpp"

#include <algorithm>

namespace compline::assess {

namespace {

bool holds(chart::Passage part, int bar) { return bar >= part.from && bar <= part.to; }

/// A stretch that goes round the form is left to the part as it is.
void cut(chart::Passage part, Astray& stretch) {
    if (stretch.from_bar > stretch.to_bar) return;
    stretch.from_bar = std::max(stretch.from_bar, part.from);
    stretch.to_bar = std::min(stretch.to_bar, part.to);
}

bool lies_in(const Change& change, const Astray& stretch) {
    return change.verdict == Verdict::astray && change.time_through == stretch.time_through &&
           change.bar >= stretch.from_bar && change.bar <= stretch.to_bar;
}

}  // namespace

void keep_part(chart::Passage part, Assessment& assessment) {
    auto& changes = assessment.changes;
    const auto outside = [&](const auto& item) { return !holds(part, item.bar); };
    const auto settled = changes.begin() + static_cast<std::ptrdiff_t>(assessment.settled);
    assessment.settled -=
        static_cast<std::size_t>(std::count_if(changes.begin(), settled, outside));
    std::erase_if(changes, outside);
    std::erase_if(assessment.strums, outside);
    for (auto& stretch : assessment.astray) {
        cut(part, stretch);
        stretch.changes = static_cast<int>(
            std::count_if(changes.begin(), changes.end(),
                          [&](const Change& change) { return lies_in(change, stretch); }));
    }
    std::erase_if(assessment.astray, [](const Astray& stretch) { return stretch.changes == 0; });
}

void keep_part(chart::Passage part, const roadmap::RoadMap& map, std::vector<Asynchrony>& all) {
    std::erase_if(all, [&](const Asynchrony& a) {
        return !holds(part, map.place_at(time::eighth_note * a.eighth).bar);
    });
}

}  // namespace compline::assess
