#include "landing.hpp"

#include <algorithm>
#include <cstdlib>

namespace compline::assess {

using harmony::Palette;
using listen::Note;
using time::Seconds;
using time::Ticks;

namespace {

int fret_shift(const SoundingStrum& from, const SoundingStrum& to) {
    int shift = 0;
    for (const Note& note : from.strum.notes) {
        const auto& after = to.strum.notes;
        const auto moved = std::find_if(after.begin(), after.end(), [&](const Note& n) {
            return n.string && n.string == note.string;
        });
        if (moved == after.end()) return 0;
        const int step = moved->note.number() - note.note.number();
        if (step == 0 || (shift != 0 && step != shift)) return 0;
        shift = step;
    }
    return shift;
}

}  // namespace

Seconds tones_due_by(const Target& target, const Grid& grid) {
    const Ticks half(std::min(target.length.count() / 2, 2 * time::quarter_note.count()));
    return grid.time_of(target.at + half);
}

LandingFinder::LandingFinder(const Targets& targets, const std::vector<SoundingStrum>& strums,
                             const Grid& grid)
    : targets_(targets), strums_(strums), grid_(grid) {}

Seconds LandingFinder::due(std::size_t i) const { return grid_.time_of(targets_.due[i].at); }

Seconds LandingFinder::window_start(std::size_t i) const {
    return grid_.window_start(targets_.due[i], i > 0 ? targets_.due[i - 1].length : Ticks(0));
}

Seconds LandingFinder::window_end(std::size_t i) const {
    return grid_.time_of(targets_.due[i].at + targets_.due[i].length);
}

std::size_t LandingFinder::first_strum_from(Seconds t) const {
    const auto it =
        std::lower_bound(strums_.begin(), strums_.end(), t,
                         [](const SoundingStrum& strum, Seconds at) { return strum.first() < at; });
    return static_cast<std::size_t>(it - strums_.begin());
}

bool LandingFinder::suits(std::size_t s, std::size_t i) const {
    const SoundingStrum& strum = strums_[s];
    if (strum.strum.is_chunk() || strum.strum.is_bass()) return false;
    const Palette& palette = targets_.palettes[i];
    const auto accepted = palette.accepted(strum.pitch_classes);
    return accepted.count() >= 2 && (accepted & palette.telling()).any() &&
           fit(palette, strum.sounding) > 0;
}

bool LandingFinder::is_approach(std::size_t s, std::size_t i) const {
    if (s + 1 >= strums_.size() || !strums_[s].strum.is_chord()) return false;
    const SoundingStrum& grip = strums_[s];
    const SoundingStrum& arrival = strums_[s + 1];
    // Both are played by hand: each may be off by the tolerance.
    if (arrival.first() - grip.first() > grid_.beat() + grid_.tolerance() * 2) return false;
    const int shift = std::abs(fret_shift(grip, arrival));
    if (shift != 1 && shift != 2) return false;
    return targets_.palettes[i].foreign(grip.pitch_classes).any() && suits(s + 1, i);
}

/// Where two windows overlap, a strum that fits the next chord at least as well and lies nearer to
/// it is the next one's.
bool LandingFinder::belongs_to_next(std::size_t s, std::size_t i) const {
    if (i + 1 >= targets_.due.size()) return false;
    const Seconds t = strums_[s].first();
    if (t < window_start(i + 1) || !suits(s, i + 1)) return false;
    const int ours = fit(targets_.palettes[i], strums_[s].sounding);
    const int theirs = fit(targets_.palettes[i + 1], strums_[s].sounding);
    const bool nearer = time::abs(t - due(i + 1)) < time::abs(t - due(i));
    return theirs > ours || (theirs == ours && nearer);
}

bool LandingFinder::is_candidate(std::size_t s, std::size_t i) const {
    return suits(s, i) && !is_approach(s, i) && !belongs_to_next(s, i);
}

/// The strum brings a note that did not sound with the chord strum before it.
bool LandingFinder::changes_grip(std::size_t s) const {
    if (!strums_[s].voiced_before) return true;
    const auto& struck = strums_[s].strum.notes;
    const auto& before = strums_[*strums_[s].voiced_before].sounding;
    return std::any_of(struck.begin(), struck.end(), [&](const Note& note) {
        return std::none_of(before.begin(), before.end(), [&](const Note& n) {
            return n.note == note.note && n.string == note.string;
        });
    });
}

/// Where a landing on target i would be a push.
std::vector<GridPoint> LandingFinder::pushes(std::size_t i) const {
    auto points = grid_.points(targets_.due[i]);
    std::erase_if(points, [](const GridPoint& p) { return !p.push || p.beats_in != -0.5; });
    return points;
}

bool LandingFinder::is_push(std::size_t s, const std::vector<GridPoint>& pushes) const {
    return std::any_of(pushes.begin(), pushes.end(), [&](const GridPoint& point) {
        return point.takes(strums_[s].first(), strums_[s].last(), grid_.tolerance());
    });
}

Landing LandingFinder::landing_at(std::size_t s, std::size_t i) const {
    Landing landing{s, strums_[s].first(), strums_[s].last()};
    // Slid in: the pick on the frets before, or the arrival, whichever is nearer.
    if (s > free_from_ && strums_[s].strum.is_slide()) {
        const SoundingStrum& pick = strums_[s - 1];
        const bool nearer = time::abs(pick.first() - due(i)) < time::abs(landing.first - due(i));
        if (is_approach(s - 1, i) && nearer) {
            landing.first = pick.first();
            landing.last = pick.last();
        }
    }
    return landing;
}

Seconds LandingFinder::distance(std::size_t s, std::size_t i) const {
    return time::abs(strums_[s].first() - due(i));
}

/// How little a strum that fits old and new chord alike says of the change.
int LandingFinder::doubt(std::size_t s, std::size_t i) const {
    const SoundingStrum& strum = strums_[s];
    if (!strum.is_voiced()) {
        const auto note = static_cast<std::size_t>(strum.strum.notes.front().note.pitch_class());
        return targets_.palettes[i].telling()[note] ? 1 : 2;
    }
    const bool restruck = strum.first() < due(i) - grid_.tolerance() && !changes_grip(s);
    const bool far_in = strum.first() > due(i) + grid_.beat();
    return restruck || far_in ? 1 : 0;
}

/// Of strums that fit both chords equally the one that says most of the change, then the nearest
/// to it. A new grip that was pushed is not waited for on the beat, where it is struck again.
std::optional<std::size_t> LandingFinder::best_of_equals(const std::vector<std::size_t>& equals,
                                                         std::size_t i) const {
    const auto here = pushes(i);
    std::optional<std::size_t> best;
    bool pushed = false;
    for (const std::size_t s : equals) {
        const bool new_grip = strums_[s].is_voiced() && changes_grip(s);
        if (pushed && !new_grip) continue;
        pushed = pushed || (new_grip && is_push(s, here));
        const auto rank = [&](std::size_t n) { return std::pair(doubt(n, i), distance(n, i)); };
        if (!best || rank(s) < rank(*best)) best = s;
    }
    return best;
}

std::optional<Landing> LandingFinder::find_one(std::size_t i) const {
    const bool first_chord = !targets_.due[i].from.has_value();
    std::optional<std::size_t> better;
    std::vector<std::size_t> equals;
    for (std::size_t s = std::max(free_from_, first_strum_from(window_start(i)));
         s < strums_.size() && strums_[s].first() < window_end(i); ++s) {
        if (!is_candidate(s, i)) continue;
        const int ours = fit(targets_.palettes[i], strums_[s].sounding);
        const int theirs =
            first_chord ? ours - 1 : fit(targets_.palettes[i - 1], strums_[s].sounding);
        if (ours > theirs && !better) better = s;
        if (ours == theirs) equals.push_back(s);
    }
    const auto equal = best_of_equals(equals, i);
    if (!better && !equal) return std::nullopt;
    if (!better) return landing_at(*equal, i);
    const bool sooner =
        equal && doubt(*equal, i) == 0 && distance(*equal, i) < distance(*better, i);
    return landing_at(sooner ? *equal : *better, i);
}

std::vector<std::optional<Landing>> LandingFinder::find() {
    std::vector<std::optional<Landing>> landings;
    for (std::size_t i = 0; i < targets_.due.size(); ++i) {
        landings.push_back(find_one(i));
        if (landings.back()) free_from_ = landings.back()->strum + 1;
    }
    return landings;
}

void mark_fills(std::vector<SoundingStrum>& strums,
                const std::vector<std::optional<Landing>>& landings) {
    auto next = landings.begin();
    const SoundingStrum* grip = nullptr;  // the landing that the strum follows
    for (std::size_t s = 0; s < strums.size(); ++s) {
        while (next != landings.end() && !*next) ++next;
        if (next != landings.end() && (*next)->strum == s) {
            grip = &strums[s];
            ++next;
            continue;
        }
        const bool double_stop = strums[s].is_voiced() && strums[s].strum.notes.size() == 2;
        const auto struck = pitch_classes_of(strums[s].strum.notes);
        strums[s].fill = double_stop && grip != nullptr && (struck & ~grip->pitch_classes).any();
    }
}

}  // namespace compline::assess
