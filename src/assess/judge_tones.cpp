#include "judge.hpp"

#include <algorithm>
#include <cmath>

namespace compline::assess {

using harmony::Palette;
using harmony::PitchClasses;
using listen::Note;
using time::Seconds;

namespace {

/// The nearest fret on the string that gives an accepted tone; of two as near, the one that
/// tells the chord from others, then the lower.
std::optional<int> nearest_fret(const Evidence& evidence, const Palette& palette, int string,
                                int fret, const PitchClasses& rest) {
    const auto worth = [&](int candidate) -> int {
        const auto note = evidence.fretboard.note({string, candidate});
        PitchClasses with = rest;
        with.set(static_cast<std::size_t>(note.pitch_class()));
        if (!has(palette.accepted(with), note.pitch_class())) return -1;
        return has(palette.telling(), note.pitch_class()) ? 1 : 0;
    };
    for (int away = 1; away <= 12; ++away) {
        const int down = fret - away >= 0 ? worth(fret - away) : -1;
        const int up = fret + away <= evidence.fretboard.frets() ? worth(fret + away) : -1;
        if (down < 0 && up < 0) continue;
        return down >= up ? fret - away : fret + away;
    }
    return std::nullopt;
}

/// It was right for the chord before, on that string: it rings on, or was struck again there.
bool is_stuck_finger(const Evidence& evidence, std::size_t i, const Note& note,
                     const Landing& landing) {
    // Of an evening that goes on only the last times through are judged: what came before the first
    // change of these is not known.
    if (i == 0 || !evidence.targets.due[i].from || !note.string) return false;
    PitchClasses before;  // with the note among the tones it belonged to
    if (landing.strum > 0) before = evidence.strums()[landing.strum - 1].pitch_classes;
    before.set(static_cast<std::size_t>(note.note.pitch_class()));
    const auto accepted = evidence.palette(i - 1).accepted(before);
    if (!has(accepted, note.note.pitch_class())) return false;
    // No further back than the chord before, or than what rang on through it.
    std::size_t earlier_change = i - 1;
    while (earlier_change > 0 && !evidence.reading.landings[earlier_change]) --earlier_change;
    const std::size_t since = evidence.reading.landings[earlier_change]
                                  ? evidence.reading.landings[earlier_change]->strum
                                  : 0;
    for (std::size_t s = landing.strum; s > since; --s) {
        if (evidence.strums()[s - 1].read_as == ReadAs::up_stroke) continue;  // of this very chord
        for (const Note& earlier : evidence.strums()[s - 1].sounding) {
            if (earlier.string == note.string) return earlier.note == note.note;
        }
    }
    return false;
}

WrongTone describe(const Evidence& evidence, std::size_t i, const Note& note,
                   const Landing& landing) {
    const Palette& palette = evidence.palette(i);
    WrongTone wrong;
    wrong.note = note.note;
    wrong.spelling = palette.name(note.note.pitch_class());
    wrong.string = note.string;
    wrong.fret = note.fret;
    wrong.stuck_finger = is_stuck_finger(evidence, i, note, landing);
    if (note.string && note.fret) {
        PitchClasses rest = evidence.strums()[landing.strum].pitch_classes;
        rest.reset(static_cast<std::size_t>(note.note.pitch_class()));
        wrong.nearest_fret = nearest_fret(evidence, palette, *note.string, *note.fret, rest);
    }
    if (wrong.nearest_fret) {
        const auto nearest = evidence.fretboard.note({*note.string, *wrong.nearest_fret});
        wrong.nearest = palette.name(nearest.pitch_class());
    }
    return wrong;
}

/// The strums after a landing that still belong to its chord.
std::pair<std::size_t, std::size_t> later_strums(const Evidence& evidence, std::size_t i) {
    const std::size_t from = evidence.reading.landings[i]->strum + 1;
    std::size_t to = evidence.first_strum_from(evidence.end(i));
    if (i + 1 < evidence.reading.landings.size() && evidence.reading.landings[i + 1]) {
        to = std::min(to, evidence.reading.landings[i + 1]->strum);
    }
    return {from, std::max(from, to)};
}

/// What has sounded by half the chord's length, and with its next strum in any case.
PitchClasses heard_in_time(const Evidence& evidence, std::size_t i) {
    const Landing& landing = *evidence.reading.landings[i];
    const Seconds by =
        tones_due_by(evidence.targets.due[i], evidence.grid) + evidence.pace(i).tolerance;
    PitchClasses heard = evidence.strums()[landing.strum].pitch_classes;
    bool struck_again = false;
    const auto [from, to] = later_strums(evidence, i);
    for (std::size_t s = from; s < to; ++s) {
        const SoundingStrum& strum = evidence.strums()[s];
        if (strum.first() > by && struck_again) break;
        heard |= strum.pitch_classes;
        struck_again = struck_again || strum.read_as == ReadAs::again;
    }
    return heard;
}

/// On an off-beat, or on a beat without weight.
bool is_weak(const roadmap::RoadMap& map, Seconds t) {
    const auto eighths = std::llround(map.written_at(t).count() * 2);
    const auto at = time::eighth_note * eighths;
    if (is_off_beat(map, at)) return true;
    const auto bar = map.bar_at(at);
    // Before the beginning and past the end the bars go on as they are there.
    const auto length = bar.meter().bar();
    const auto in_bar = ((at - bar.start) % length + length) % length;
    return !bar.meter().is_strong(static_cast<int>(in_bar / bar.meter().beat()));
}

/// No tone that is foreign on a target's chord, if there is such a target.
bool is_inside(const Evidence& evidence, std::size_t s, std::size_t target) {
    return target < evidence.targets.size() &&
           evidence.palette(target).foreign(evidence.strums()[s].pitch_classes).none();
}

/// A chord of its own (two foreign tones, not a slip in one) that leads from this chord to the next
/// in the last two beats, struck as often as you like from `first` to before `next`.
bool leads_over(const Evidence& evidence, std::size_t i, std::size_t first, std::size_t next) {
    const bool lands = i + 1 < evidence.reading.landings.size() &&
                       evidence.reading.landings[i + 1] &&
                       evidence.reading.landings[i + 1]->strum == next;
    if (!lands || !is_inside(evidence, next, i + 1)) return false;
    const auto& passing = evidence.strums()[first];
    const std::size_t before = passing.voiced_before.value_or(0);
    return is_inside(evidence, before, i) &&
           evidence.palette(i).foreign(passing.pitch_classes).count() >= 2 &&
           evidence.strums()[next].first() - passing.first() <=
               evidence.grid.pace_at(passing.first()).by_hand(2);
}

/// Passing: foreign on a weak place for a beat at most, resolving into this chord or the next; or
/// a chord that leads over to the next.
bool is_passing(const Evidence& evidence, std::size_t i, std::size_t s) {
    const std::size_t first = evidence.strums()[s].first_of_grip;
    const std::size_t next = evidence.strums()[s].next_grip;
    if (next >= evidence.strums().size()) return false;
    if (leads_over(evidence, i, first, next)) return true;
    const Seconds from = evidence.strums()[first].first();
    return evidence.strums()[next].first() - from <= evidence.grid.pace_at(from).by_hand(1) &&
           is_weak(evidence.grid.map(), from) &&
           (is_inside(evidence, next, i) || is_inside(evidence, next, i + 1));
}

bool is_of_the_chord(const SoundingStrum& strum) {
    return strum.is_voiced() && strum.read_as != ReadAs::fill &&
           strum.read_as != ReadAs::up_stroke && strum.read_as != ReadAs::old;
}

void judge_later(const Evidence& evidence, std::size_t i, Change& change,
                 std::vector<ReadAs>& read_as) {
    const auto [from, to] = later_strums(evidence, i);
    for (std::size_t s = from; s < to; ++s) {
        const SoundingStrum& strum = evidence.strums()[s];
        if (!is_of_the_chord(strum)) continue;
        const bool inside = evidence.palette(i).foreign(strum.pitch_classes).none();
        const bool passing =
            !inside && (strum.read_as == ReadAs::approach || is_passing(evidence, i, s));
        ++(inside ? change.inside : passing ? change.passing : change.outside);
        if (strum.read_as == ReadAs::approach) continue;
        read_as[s] = inside ? ReadAs::again : passing ? ReadAs::passing : ReadAs::outside;
    }
}

/// `written` wants a slash bass lowest; anything else there counts as a missing tone.
void demand_bass(const Evidence& evidence, std::size_t i, Change& change) {
    const Palette& palette = evidence.palette(i);
    const auto bass = palette.required_bass();
    if (!bass) return;
    const auto& sounding = evidence.strums()[evidence.reading.landings[i]->strum].sounding;
    const auto lowest =
        std::min_element(sounding.begin(), sounding.end(),
                         [](const Note& a, const Note& b) { return a.note < b.note; });
    if (lowest->note.pitch_class() == *bass) return;
    const auto& chord = palette.chord();
    for (int number = 1; number <= 7; ++number) {
        for (int alteration = -1; alteration <= 1; ++alteration) {
            const harmony::Degree degree{number, alteration};
            if (harmony::spell(chord.root, degree) == *chord.bass) change.missing.push_back(degree);
        }
    }
}

/// Hammered on or slid, on its string and at once, into a tone of the chord.
bool is_grace_note(const Evidence& evidence, const Note& note, const Palette& palette) {
    if (!note.string) return false;
    const Seconds until = note.on + evidence.grid.pace_at(note.on).ring_limit;
    auto next = std::upper_bound(evidence.notes.begin(), evidence.notes.end(), note.on,
                                 [](Seconds at, const Note& n) { return at < n.on; });
    while (next != evidence.notes.end() && next->on <= until && next->string != note.string) ++next;
    if (next == evidence.notes.end() || next->on > until) return false;
    // A whole grip struck again is a mistake mended.
    const std::size_t s = evidence.first_strum_from(next->on);
    const bool alone = s < evidence.strums().size() && evidence.strums()[s].first() == next->on &&
                       !evidence.strums()[s].strum.is_chord();
    return alone && has(palette.accepted(pitch_classes_of({*next})), next->note.pitch_class());
}

/// A note of the thumb's own line that rings under the chord: it has its own time.
bool is_bass_line(const Evidence& evidence, const Note& note, const Landing& landing) {
    if (note.on >= landing.first) return false;
    const std::size_t s = evidence.first_strum_from(note.on);
    return s < landing.strum && evidence.strums()[s].first() == note.on &&
           evidence.strums()[s].read_as == ReadAs::bass;
}

}  // namespace

void judge_tones(const Evidence& evidence, std::size_t i, Change& change,
                 std::vector<ReadAs>& read_as) {
    const Landing& landing = *evidence.reading.landings[i];
    const SoundingStrum& strum = evidence.strums()[landing.strum];
    const Palette& palette = evidence.palette(i);
    const PitchClasses foreign = palette.foreign(strum.pitch_classes);
    for (const Note& note : strum.sounding) {
        const bool excused =
            is_grace_note(evidence, note, palette) || is_bass_line(evidence, note, landing);
        if (has(foreign, note.note.pitch_class()) && !excused) {
            change.wrong.push_back(describe(evidence, i, note, landing));
        }
    }
    std::sort(change.wrong.begin(), change.wrong.end(),
              [](const WrongTone& a, const WrongTone& b) { return a.note < b.note; });
    change.missing = palette.missing(heard_in_time(evidence, i));
    demand_bass(evidence, i, change);
    change.tones = !change.wrong.empty()    ? Tones::wrong
                   : change.missing.empty() ? Tones::right
                                            : Tones::incomplete;
    judge_later(evidence, i, change, read_as);
}

}  // namespace compline::assess
