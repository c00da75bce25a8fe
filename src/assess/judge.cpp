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

/// The nearest of the points it is in time for; where it is late or early for all, the nearest. The
/// room of an off-beat within the chord is for what comes in time: what does not is as far off as
/// it is from where the off-beat is due.
const GridPoint& judged_against(const std::vector<GridPoint>& points, const Landing& landing,
                                Seconds tolerance) {
    const auto distance = [&](const GridPoint& point) {
        const bool in_time = point.takes(landing.first, landing.last, tolerance);
        const bool room = in_time || point.push;
        return std::pair(
            !in_time, room ? point.distance(landing.first) : time::abs(landing.first - point.due));
    };
    return *std::min_element(
        points.begin(), points.end(),
        [&](const GridPoint& a, const GridPoint& b) { return distance(a) < distance(b); });
}

/// The chord before goes on too long under this one: it rings, or is struck again, with tones that
/// are foreign here.
bool rings_on(const Evidence& evidence, std::size_t i, Seconds until) {
    if (!evidence.targets.due[i].from) return false;
    const Seconds at = evidence.grid.time_of(evidence.targets.due[i].at);
    const Seconds limit = at + evidence.grid.ring_limit();
    if (until <= limit) return false;
    const auto ringing = ringing_at(evidence.notes, limit, at);
    if (rings_wrongly(evidence.targets.palettes[i], ringing)) return true;
    for (std::size_t s = evidence.finder.first_strum_from(at); s < evidence.strums.size(); ++s) {
        const SoundingStrum& strum = evidence.strums[s];
        if (strum.first() >= until) break;
        if (!strum.is_voiced()) continue;
        const bool old_chord =
            evidence.targets.palettes[i - 1].foreign(strum.pitch_classes).none() &&
            evidence.targets.palettes[i].foreign(strum.pitch_classes).any();
        const bool long_enough = std::any_of(strum.strum.notes.begin(), strum.strum.notes.end(),
                                             [&](const Note& note) { return note.off > limit; });
        if (old_chord && long_enough) return true;
    }
    return false;
}

/// Chords were struck in the time of this change, though none of them is it.
bool was_struck(const Evidence& evidence, std::size_t i) {
    const Seconds from =
        evidence.grid.time_of(evidence.targets.due[i].at) - evidence.grid.tolerance();
    Seconds to = evidence.finder.window_end(i);
    if (i + 1 < evidence.landings.size() && evidence.landings[i + 1]) {
        to = std::min(to, evidence.strums[evidence.landings[i + 1]->strum].first());
    }
    for (std::size_t s = evidence.finder.first_strum_from(from); s < evidence.strums.size(); ++s) {
        if (evidence.strums[s].first() >= to) break;
        const bool landed_before =
            i > 0 && evidence.landings[i - 1] && evidence.landings[i - 1]->strum >= s;
        if (evidence.strums[s].is_voiced() && !landed_before) return true;
    }
    return false;
}

}  // namespace

void judge_landing(const Evidence& evidence, std::size_t i, Change& change) {
    const Landing& landing = *evidence.landings[i];
    const Grid& grid = evidence.grid;
    const auto points = grid.points(evidence.targets.due[i]);
    GridPoint point = judged_against(points, landing, grid.tolerance());
    bool overdue = false;
    if (point.beats_in > 0 && rings_on(evidence, i, landing.first)) {
        point = points.front();
        overdue = true;
    }
    const Seconds lateness = landing.first - point.due;
    change.lateness = lateness;
    change.beats_in = point.beats_in;
    change.spread = landing.last - landing.first;
    if (overdue) {
        change.verdict = Verdict::late;
    } else if (point.takes(landing.first, landing.last, grid.tolerance())) {
        change.verdict = point.push ? Verdict::pushed : Verdict::on_time;
    } else {
        change.verdict = lateness > Seconds(0) ? Verdict::late : Verdict::early;
    }
}

void judge_absence(const Evidence& evidence, std::size_t i, Change& change) {
    change.verdict = Verdict::missed;
    const Target& target = evidence.targets.due[i];
    if (!evidence.grid.may_lay_out(target) || was_struck(evidence, i)) return;
    const Palette& palette = evidence.targets.palettes[i];
    const Seconds at = evidence.grid.time_of(target.at);
    const auto ringing = ringing_at(evidence.notes, at + evidence.grid.ring_limit(), at);
    const auto sounding = pitch_classes_of(ringing);
    if (!ringing.empty() && palette.foreign(sounding).none() && palette.missing(sounding).empty()) {
        change.verdict = Verdict::held;
        change.tones = Tones::right;
        return;
    }
    // Two strings of the old chord that happen to fit are still the old chord.
    if (!rings_wrongly(palette, ringing) && ringing.size() < 2) change.verdict = Verdict::laid_out;
}

}  // namespace compline::assess
