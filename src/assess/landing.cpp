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
    if (arrival.first() - grip.first() > grid_.beat()) return false;
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

/// The strum brings something else than the chord strum before it.
bool LandingFinder::changes_grip(std::size_t s) const {
    while (s > 0) {
        const SoundingStrum& before = strums_[s - 1];
        if (before.is_voiced()) return before.pitch_classes != strums_[s].pitch_classes;
        --s;
    }
    return true;
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

std::optional<Landing> LandingFinder::find_one(std::size_t i) const {
    const Palette& next = targets_.palettes[i];
    const bool first_chord = !targets_.due[i].from.has_value();
    const auto distance = [&](std::size_t s) { return time::abs(strums_[s].first() - due(i)); };
    std::optional<std::size_t> better;
    std::optional<std::size_t> equal;
    std::optional<std::size_t> restruck;
    for (std::size_t s = std::max(free_from_, first_strum_from(window_start(i)));
         s < strums_.size() && strums_[s].first() < window_end(i); ++s) {
        if (!is_candidate(s, i)) continue;
        const int ours = fit(next, strums_[s].sounding);
        const int theirs =
            first_chord ? ours - 1 : fit(targets_.palettes[i - 1], strums_[s].sounding);
        if (ours > theirs && !better) better = s;
        if (ours != theirs) continue;
        const bool before = strums_[s].first() < due(i) - grid_.tolerance();
        auto& nearest = before && !changes_grip(s) ? restruck : equal;
        if (!nearest || distance(s) < distance(*nearest)) nearest = s;
    }
    // A single note that fits both chords is a fill when a voicing of the new one follows.
    const bool tied = equal && strums_[*equal].is_voiced();
    if (better && tied && distance(*equal) < distance(*better)) return landing_at(*equal, i);
    if (better) return landing_at(*better, i);
    if (restruck && (!equal || distance(*restruck) < distance(*equal))) equal = restruck;
    if (equal) return landing_at(*equal, i);
    return std::nullopt;
}

std::vector<std::optional<Landing>> LandingFinder::find() {
    std::vector<std::optional<Landing>> landings;
    for (std::size_t i = 0; i < targets_.due.size(); ++i) {
        landings.push_back(find_one(i));
        if (landings.back()) free_from_ = landings.back()->strum + 1;
    }
    return landings;
}

}  // namespace compline::assess
