#include "road.hpp"

namespace compline::simulate {

namespace {

using time::Ticks;

Area area_of(const roadmap::PlayedBar& bar, const chart::Slot& slot) {
    Area area;
    const auto at = bar.start + slot.start;
    area.time_through = bar.time_through;
    area.bar = bar.in_form();
    area.beat = time::BeatOfBar(slot.start);
    area.start = at;
    area.until = at + slot.length;
    area.chord = *slot.chord;
    area.opens_section = slot.start == Ticks(0) && bar.written->bar_in_section == 1;
    area.pieces = {at};
    return area;
}

}  // namespace

std::vector<Area> areas_of(const roadmap::RoadMap& map) {
    std::vector<Area> areas;
    bool silent = true;
    for (std::int64_t number = 1; number <= map.bars().value(); ++number) {
        const auto bar = map.bar(number);
        for (const auto& slot : bar.slots()) {
            if (!slot.chord) {
                silent = true;
                continue;
            }
            const auto at = bar.start + slot.start;
            if (!silent && areas.back().chord.symbol() == slot.chord->symbol()) {
                areas.back().until = at + slot.length;
                areas.back().pieces.push_back(at);
                continue;
            }
            areas.push_back(area_of(bar, slot));
            areas.back().after_nothing = silent;
            silent = false;
        }
    }
    return areas;
}

}  // namespace compline::simulate
