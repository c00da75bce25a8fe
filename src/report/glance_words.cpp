#include "glance_words.hpp"

#include "count_in.hpp"
#include "words.hpp"

#include <fmt/format.h>

namespace compline::report {

using roadmap::PlayedPlace;

std::string chord_words(const std::optional<harmony::Chord>& chord) {
    return chord ? chord->symbol() : "N.C.";
}

std::string when_words(const ChordToCome& next, const roadmap::RoadMap& map,
                       const PlayedPlace& place) {
    if (next.bars_ahead > 1) return fmt::format("in {} bars", next.bars_ahead);
    const auto meter = map.bar(place.number + next.bars_ahead).meter();
    const auto beat = plain(meter.beat_of_bar(next.in_bar).number());
    if (next.bars_ahead == 0) return "on " + beat;
    return next.in_bar == time::Ticks(0) ? "next bar" : "next bar, on " + beat;
}

std::string glance_words(const Playing& playing, const PlayedPlace& place, time::Ticks position) {
    const auto due = due_chords(playing.map, place, playing.decided.paused);
    const auto next = due.next ? chord_words(due.next->chord) : "";
    if (place.before) {
        const auto count = count_in(playing.map, place, position);
        return fmt::format("count-in {}, then {}", fmt::join(count.words, " "), next);
    }
    if (place.over) return next.empty() ? "" : "pause, then " + next;
    auto now = chord_words(due.now);
    if (next.empty()) return now;
    return fmt::format("{}, {} {}", now, next, when_words(*due.next, playing.map, place));
}

}  // namespace compline::report
