#include "due_chords.hpp"

namespace compline::report {

namespace {

using roadmap::PlayedBar;
using time::Ticks;

ChordToCome first_of(const chart::Form& form, int bar) {
    const auto& span = form.spans_in(bar).front();
    return {span.chord, 0, span.start - form.bar(bar).start};
}

/// The first chord in a bar, after a place in it, that is another one.
std::optional<ChordToCome> other_chord(const PlayedBar& bar, std::optional<Ticks> after,
                                       const std::optional<harmony::Chord>& than) {
    for (const auto& span : bar.chords) {
        const Ticks in_bar = span.start - bar.written->start;
        if (after && in_bar <= *after) continue;
        if (span.chord != than) return ChordToCome{span.chord, 0, in_bar};
    }
    return std::nullopt;
}

std::optional<ChordToCome> next_chord(const roadmap::RoadMap& map, const PlayedBar& bar, Ticks now,
                                      const std::optional<harmony::Chord>& than) {
    if (auto here = other_chord(bar, now, than)) return here;
    const auto bars = map.bars();
    for (std::int64_t ahead = 1; ahead <= most_bars_ahead; ++ahead) {
        if (bars && bar.number + ahead > *bars) break;
        const auto later = map.bar(bar.number + ahead);
        if (later.in_form() == 0) continue;  // it waits
        if (auto there = other_chord(later, std::nullopt, than)) {
            there->bars_ahead = ahead;
            return there;
        }
    }
    return std::nullopt;
}

}  // namespace

DueChords due_chords(const roadmap::RoadMap& map, const roadmap::PlayedPlace& place, bool paused) {
    DueChords due;
    if (place.before || (place.over && paused)) {
        due.next = first_of(map.form(), place.bar);
        due.next->bars_ahead = 1;
    }
    if (place.before || place.over) return due;
    const auto bar = map.bar(place.number);
    due.sounds = true;
    for (const auto& span : bar.chords) {
        if (span.start - bar.written->start <= place.in_bar) due.now = span.chord;
    }
    due.next = next_chord(map, bar, place.in_bar, due.now);
    return due;
}

}  // namespace compline::report
