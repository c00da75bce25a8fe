#include <compline/roadmap/played_bar.hpp>

namespace compline::roadmap {

std::vector<chart::Slot> PlayedBar::slots() const {
    std::vector<chart::Slot> slots;
    slots.reserve(chords.size());
    for (const auto& span : chords) {
        slots.push_back({span.start - written->start, span.length, span.chord, span.optional});
    }
    return slots;
}

}  // namespace compline::roadmap
