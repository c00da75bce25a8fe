#include "judge.hpp"

#include <algorithm>

namespace compline::assess {

using harmony::Palette;
using listen::Note;
using time::Seconds;

namespace {

bool is_open_string(const Note& note) { return note.fret == 0; }

/// Fretted notes of the old chord that are wrong here. Open strings that die away are nobody's
/// fault.
bool rings_wrongly(const Palette& palette, const std::vector<Note>& ringing) {
    const auto foreign = palette.foreign(pitch_classes_of(ringing));
    return std::any_of(ringing.begin(), ringing.end(), [&](const Note& note) {
        return !is_open_string(note) && foreign[static_cast<std::size_t>(note.note.pitch_class())];
    });
}

/// The strum, with tones that are foreign here, sounds beyond a moment.
bool sounds_wrongly(const SoundingStrum& strum, const Palette& palette, Seconds limit) {
    return palette.foreign(strum.struck).any() &&
           std::any_of(strum.strum.notes.begin(), strum.strum.notes.end(),
                       [&](const Note& note) { return note.off > limit; });
}

/// Fretted notes that rang until the new chord was struck and were let go then: two of them are the
/// old chord. What rings on through the landing belongs to both.
bool held_until(const std::vector<Note>& ringing, Seconds landing, Seconds a_hand_moves,
                Seconds ring_limit) {
    const auto let_go = [&](const Note& note) {
        return !is_open_string(note) && note.off > landing - a_hand_moves &&
               note.off <= landing + ring_limit;
    };
    return std::count_if(ringing.begin(), ringing.end(), let_go) >= 2;
}

/// The chord before goes on too long under this one: it rings until this one is struck, or with
/// tones that are foreign here, or is struck again.
bool rings_on(const Evidence& evidence, std::size_t i, Seconds until) {
    if (!evidence.targets.due[i].from) return false;
    const Seconds at = evidence.due(i);
    const Seconds ring_limit = evidence.pace(i).ring_limit;
    const Seconds limit = at + ring_limit;
    // At fast tempi an off-beat comes before any chord need be off: then the hand tells.
    if (until <= limit) {
        constexpr Seconds at_once{0.020};
        return held_until(ringing_at(evidence.notes, at, at), until, at_once, ring_limit);
    }
    constexpr Seconds a_hand_moves{0.050};
    const auto ringing = ringing_at(evidence.notes, limit, at);
    if (held_until(ringing, until, a_hand_moves, ring_limit)) return true;
    if (rings_wrongly(evidence.palette(i), ringing)) return true;
    for (std::size_t s = evidence.first_strum_from(at); s < evidence.strums().size(); ++s) {
        const SoundingStrum& strum = evidence.strums()[s];
        if (strum.first() >= until) break;
        if (strum.read_as == ReadAs::old && sounds_wrongly(strum, evidence.palette(i), limit)) {
            return true;
        }
    }
    return false;
}

/// Chords were struck in the time of this change that were read as `such`.
template <typename Such>
bool was_struck(const Evidence& evidence, std::size_t i, Such such) {
    Seconds to = evidence.end(i);
    const auto& landings = evidence.reading.landings;
    if (i + 1 < landings.size() && landings[i + 1]) to = std::min(to, landings[i + 1]->first);
    const auto& strums = evidence.strums();
    const Seconds from = evidence.due(i) - evidence.pace(i).tolerance;
    for (std::size_t s = evidence.first_strum_from(from); s < strums.size(); ++s) {
        if (strums[s].first() >= to) break;
        if (such(strums[s].read_as)) return true;
    }
    return false;
}

bool is_another_chord(ReadAs read_as) { return read_as == ReadAs::outside; }
bool is_not_it(ReadAs read_as) { return read_as == ReadAs::old || read_as == ReadAs::outside; }
bool is_the_one_before(ReadAs read_as) {
    return read_as == ReadAs::again || read_as == ReadAs::old;
}

/// The nearest of the points it is in time for.
std::optional<GridPoint> in_time_at(const std::vector<GridPoint>& points, const Landing& landing) {
    std::optional<GridPoint> best;
    for (const auto& point : points) {
        if (!point.takes(landing.first, landing.last)) continue;
        if (!best || point.distance(landing.first) < best->distance(landing.first)) best = point;
    }
    return best;
}

/// What an early chord is early for: a push that comes late is that, where it is nearer to the
/// push; what comes ahead of the push is early for the change.
GridPoint early_for(const std::vector<GridPoint>& points, Seconds first) {
    GridPoint best = points.front();
    for (const auto& point : points) {
        const bool late_push = point.kind == GridPoint::Kind::push && first > point.latest;
        if (late_push && point.distance(first) < best.distance(first)) best = point;
    }
    return best;
}

/// A little ahead of a beat where this player comes in again and again.
std::optional<GridPoint> habit_ahead(const Evidence& evidence, const std::vector<GridPoint>& points,
                                     Seconds first) {
    const auto& habits = evidence.own.habits;
    for (const auto& point : points) {
        const bool habit = std::any_of(habits.begin(), habits.end(), [&](int beats) {
            return point.beats_in == static_cast<double>(beats);
        });
        const Seconds ahead = point.due - first;
        const Seconds nearest = evidence.grid.pace_at(point.due).beat * 0.25;
        if (habit && ahead > Seconds(0) && ahead <= nearest) return point;
    }
    return std::nullopt;
}

/// Late: from the change itself within the first beat, then from the last beat or off-beat.
void measure_late(const Evidence& evidence, std::size_t i, const Landing& landing,
                  const GridPoint& own, Change& change) {
    change.verdict = Verdict::late;
    change.beats_in = own.beats_in;
    change.lateness = landing.first - own.due;
    const auto& target = evidence.targets.due[i];
    if (!evidence.grid.is_free(target) || *change.lateness < evidence.pace(i).beat) return;
    const auto in = evidence.grid.last_point_in(target, landing.first);
    change.beats_in = time::Beats(in).count();
    change.lateness = landing.first - evidence.grid.time_of(target.at + in);
}

void measure(const GridPoint& point, const Landing& landing, Verdict verdict, Change& change) {
    change.verdict = verdict;
    change.beats_in = point.beats_in;
    change.lateness = landing.first - point.due;
}

Verdict verdict_at(const GridPoint& point) {
    switch (point.kind) {
        case GridPoint::Kind::own:
            return Verdict::on_time;
        case GridPoint::Kind::push:
            return Verdict::pushed;
        case GridPoint::Kind::later:
            break;
    }
    return Verdict::placed;
}

void judge_time(const Evidence& evidence, std::size_t i, const Landing& landing, Change& change) {
    const auto points = evidence.grid.points(evidence.targets.due[i], evidence.own);
    const auto& own = points.front();
    auto point = in_time_at(points, landing);
    if (point && point->kind != GridPoint::Kind::later) {
        return measure(*point, landing, verdict_at(*point), change);
    }
    if (landing.first < own.due) {
        return measure(early_for(points, landing.first), landing, Verdict::early, change);
    }
    if (rings_on(evidence, i, landing.first)) {
        return measure(own, landing, Verdict::late, change);
    }
    if (!point) point = habit_ahead(evidence, points, landing.first);
    if (point) return measure(*point, landing, Verdict::placed, change);
    measure_late(evidence, i, landing, own, change);
}

/// What rings a moment into the change is it already, all of it.
bool rings_rightly(const Evidence& evidence, std::size_t i) {
    const Palette& palette = evidence.palette(i);
    const Seconds at = evidence.due(i);
    const auto ringing = ringing_at(evidence.notes, at + evidence.pace(i).ring_limit, at);
    const auto sounding = pitch_classes_of(ringing);
    return !ringing.empty() && palette.foreign(sounding).none() &&
           palette.missing(sounding).empty();
}

/// A chord that may be left out: only another one in its place misses it.
void judge_left_out(const Evidence& evidence, std::size_t i, Change& change) {
    if (was_struck(evidence, i, is_another_chord)) return;
    const Seconds at = evidence.due(i);
    const bool rings = !ringing_at(evidence.notes, at + evidence.pace(i).ring_limit, at).empty();
    const bool held = rings || was_struck(evidence, i, is_the_one_before);
    change.verdict = held ? Verdict::held : Verdict::laid_out;
    if (held) change.tones = Tones::right;
}

}  // namespace

std::size_t Evidence::first_strum_from(Seconds t) const {
    const auto it =
        std::lower_bound(strums().begin(), strums().end(), t,
                         [](const SoundingStrum& strum, Seconds at) { return strum.first() < at; });
    return static_cast<std::size_t>(it - strums().begin());
}

Seconds tones_due_by(const Target& target, const Grid& grid) {
    const time::Ticks half(std::min(target.length.count() / 2, 2 * time::quarter_note.count()));
    return grid.time_of(target.at + half);
}

void judge_landing(const Evidence& evidence, std::size_t i, Change& change) {
    const Landing& landing = *evidence.reading.landings[i];
    if (evidence.knows_tones()) change.spread = landing.last - landing.first;
    judge_time(evidence, i, landing, change);
    if (const auto meant = evidence.reading.meant[i]) {
        change.verdict = Verdict::astray;
        change.meant = evidence.targets.due[*meant].to;
    }
}

void judge_absence(const Evidence& evidence, std::size_t i, Change& change) {
    change.verdict = Verdict::missed;
    const Target& target = evidence.targets.due[i];
    if (!evidence.knows_tones()) {
        const bool may = target.optional || evidence.grid.may_lay_out(target);
        if (may) change.verdict = Verdict::laid_out;
        return;
    }
    if (target.optional) return judge_left_out(evidence, i, change);
    if (!evidence.grid.may_lay_out(target) || was_struck(evidence, i, is_not_it)) return;
    if (rings_rightly(evidence, i)) {
        change.verdict = Verdict::held;
        change.tones = Tones::right;
        return;
    }
    const Seconds at = evidence.due(i);
    const auto ringing = ringing_at(evidence.notes, at + evidence.pace(i).ring_limit, at);
    // Two strings of the old chord that happen to fit are still the old chord.
    const bool old = rings_wrongly(evidence.palette(i), ringing) || ringing.size() >= 2;
    if (!old) change.verdict = Verdict::laid_out;
}

bool was_held(const Evidence& evidence, std::size_t i) {
    const auto& landing = evidence.reading.landings[i];
    if (!landing || evidence.strums()[landing->strum].moves_grip) return false;
    const auto own = evidence.grid.points(evidence.targets.due[i], evidence.own).front();
    return landing->first > own.to && evidence.grid.may_lay_out(evidence.targets.due[i]) &&
           rings_rightly(evidence, i);
}

}  // namespace compline::assess
