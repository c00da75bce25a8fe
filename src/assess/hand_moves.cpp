#include "hand_moves.hpp"

#include <algorithm>
#include <cstdlib>

namespace compline::assess {

using time::Seconds;

namespace {

constexpr int wide_frets = 4;
/// Before the beat on which the change is due: what fills a bar is over by then.
constexpr double fill_beats = 2;

/// Where the hand is: its lowest fretted note. None: open strings alone, or strings are not known.
std::optional<int> position_of(const listen::Strum& strum) {
    std::optional<int> lowest;
    for (const auto& note : strum.notes) {
        const bool fretted = note.fret && *note.fret > 0;
        if (fretted && (!lowest || *note.fret < *lowest)) lowest = *note.fret;
    }
    return lowest;
}

bool is_grip(const SoundingStrum& strum) {
    return strum.is_voiced() && strum.read_as != ReadAs::fill;
}

/// The position of the last grip before a strum.
std::optional<int> position_before(const std::vector<SoundingStrum>& strums, std::size_t s) {
    while (s-- > 0) {
        if (!is_grip(strums[s])) continue;
        if (const auto position = position_of(strums[s].strum)) return position;
    }
    return std::nullopt;
}

std::uint8_t strings_of(const listen::Strum& strum) {
    unsigned strings = 0;
    for (const auto& note : strum.notes) {
        if (note.string && *note.string <= 8) strings |= 1U << (*note.string - 1);
    }
    return static_cast<std::uint8_t>(strings);
}

/// All that rings with a strum. What rings on from before is older than its string's newest note.
std::optional<guitar::Shape> grip_of(const SoundingStrum& strum, int strings) {
    guitar::Shape shape;
    shape.strings = strings;
    for (const auto& note : strum.sounding) {
        if (!note.string || !note.fret || *note.string > strings) return std::nullopt;
        shape.on(*note.string) = note.fret;
    }
    return shape;
}

/// A line or two strings of one, up to the landing; late as it may be.
bool comes_from_fill(const Evidence& evidence, std::size_t i) {
    const Seconds due = evidence.due(i);
    const auto& landing = evidence.reading.landings[i];
    const Seconds to = landing ? landing->first : due;
    const auto& pace = evidence.pace(i);
    const auto& strums = evidence.strums();
    const Seconds from = due - pace.beat * fill_beats - pace.tolerance;
    for (auto s = evidence.first_strum_from(from); s < strums.size(); ++s) {
        if (strums[s].first() >= to) break;
        if (strums[s].read_as == ReadAs::fill) return true;
    }
    return false;
}

bool opens_section(const Evidence& evidence, const std::vector<Change>& changes, std::size_t i) {
    if (i == 0 || !changes[i].from) return false;
    const auto& before = changes[i - 1];
    const bool same_bar =
        before.bar == changes[i].bar && before.time_through == changes[i].time_through;
    return !same_bar && evidence.grid.map().form().bar(changes[i].bar).bar_in_section == 1;
}

}  // namespace

void tell_hand_moves(const Evidence& evidence, std::vector<Change>& changes) {
    const auto& strums = evidence.strums();
    for (std::size_t i = 0; i < changes.size(); ++i) {
        auto& change = changes[i];
        change.into_section = opens_section(evidence, changes, i);
        if (!evidence.knows_tones()) continue;
        change.after_fill = comes_from_fill(evidence, i);
        const auto& landing = evidence.reading.landings[i];
        if (!landing) continue;
        const auto& strum = strums[landing->strum].strum;
        change.strings = strings_of(strum);
        change.grip = grip_of(strums[landing->strum], evidence.fretboard.strings());
        const auto here = position_of(strum);
        const auto there = position_before(strums, landing->strum);
        change.wide_move = here && there && std::abs(*here - *there) > wide_frets;
    }
}

}  // namespace compline::assess
