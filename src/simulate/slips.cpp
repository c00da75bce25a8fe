#include "hand.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace compline::simulate {

namespace {

using guitar::Shape;

bool has(const Intervals& set, std::optional<int> interval) {
    return interval && set.test(static_cast<std::size_t>(*interval));
}

/// The rest of a grip still says which chord it is: a guide tone and another of its tones.
bool speaks(const Spot& spot, const Shape& shape) {
    const auto frame = frame_of(spot.now.chord);
    const auto set = intervals_of(spot.now.chord, shape);
    const bool guided = has(set, frame.third) || has(set, frame.seventh);
    return guided && (set & sounds_of(spot.now.chord)).count() >= 2;
}

/// Its lowest note is the root, newly fretted.
bool is_rooted(const Spot& spot, const Shape& shape) {
    const auto lowest = shape.places().front();
    return above(spot.now.chord, board().note(lowest)) == 0 &&
           spot.old_grip.on(lowest.string) != lowest.fret;
}

/// The chord before does not explain it: it sounds wrong there too, or enough of the new chord is
/// heard that nobody thinks of the old one.
bool is_new(const Spot& spot, const Shape& shape) {
    if (would_do(shape, spot.before.chord)) return false;
    if (is_rooted(spot, shape)) return true;
    const auto right = intervals_of(spot.now.chord, shape) & sounds_of(spot.now.chord);
    return right.count() >= 3 || clashes(shape, spot.before);
}

std::string fret_words(const Spot& spot, const Shape& shape, const std::string& why) {
    return fmt::format("{} is played {}: {}", spot.now.chord.symbol(), shape.text(), why);
}

/// One hand reaches it.
bool is_in_reach(const Shape& shape) {
    int low = 24;
    int high = 0;
    for (const auto& place : shape.places()) {
        low = std::min(low, place.fret);
        high = std::max(high, place.fret);
    }
    return high - low <= 4;
}

/// A string of the grip moved to another fret, if that is plain to hear.
std::optional<Slip> slip_to(const Spot& spot, int string, int fret, const std::string& why) {
    if (fret < 1 || fret > 15) return std::nullopt;
    Slip slip{spot.grip, std::nullopt, std::nullopt, {}};
    slip.shape.on(string) = fret;
    if (!is_in_reach(slip.shape)) return std::nullopt;
    const auto note = board().note({string, fret});
    const auto wrong = static_cast<std::size_t>(above(spot.now.chord, note));
    if (!plainly_wrong(spot.now).test(wrong)) return std::nullopt;
    slip.wrong = note;
    slip.words = fret_words(spot, slip.shape, why);
    return slip;
}

}  // namespace

std::vector<Slip> wrong_thirds(const Spot& spot) {
    const int third = frame_of(spot.now.chord).third.value_or(0);
    if (third != 3 && third != 4) return {};
    Slip slip{spot.grip, std::nullopt, std::nullopt, {}};
    int moved = 0;
    for (const auto& place : spot.grip.places()) {
        if (above(spot.now.chord, board().note(place)) != third) continue;
        const int fret = place.fret + (third == 3 ? 1 : -1);
        const auto one = slip_to(spot, place.string, fret, "");
        if (!one) return {};
        slip.shape.on(place.string) = fret;
        slip.wrong = one->wrong;
        ++moved;
    }
    if (moved != 1 || !is_new(spot, slip.shape)) return {};
    // The seventh still says which chord was meant.
    const auto frame = frame_of(spot.now.chord);
    if (frame.seventh && !has(intervals_of(spot.now.chord, slip.shape), frame.seventh)) return {};
    slip.words =
        fret_words(spot, slip.shape, third == 3 ? "with a major third" : "with a minor third");
    return {slip};
}

std::vector<Slip> wrong_frets(const Spot& spot) {
    std::vector<Slip> slips;
    const auto lowest = spot.grip.places().front().string;
    for (const auto& place : spot.grip.places()) {
        if (place.string == lowest) continue;
        for (const int by : {-1, 1}) {
            const auto why =
                fmt::format("string {} a fret too {}", place.string, by > 0 ? "high" : "low");
            const auto slip = slip_to(spot, place.string, place.fret + by, why);
            if (!slip || !speaks(spot, slip->shape) || !is_new(spot, slip->shape)) continue;
            // A finger that had been there before would be a stuck one.
            if (spot.old_grip.on(place.string) == place.fret + by) continue;
            slips.push_back(*slip);
        }
    }
    return slips;
}

std::vector<Slip> stuck_fingers(const Spot& spot) {
    std::vector<Slip> slips;
    const auto lowest = spot.grip.places().front().string;
    for (const auto& place : spot.grip.places()) {
        const auto old = spot.old_grip.on(place.string);
        if (place.string == lowest || !old || *old == place.fret) continue;
        const auto why = fmt::format("a finger stays on string {} from {}", place.string,
                                     spot.before.chord.symbol());
        const auto slip = slip_to(spot, place.string, *old, why);
        if (!slip || !speaks(spot, slip->shape) || !is_new(spot, slip->shape)) continue;
        slips.push_back(*slip);
    }
    return slips;
}

std::vector<Slip> missing_sevenths(const Spot& spot) {
    const auto frame = frame_of(spot.now.chord);
    if (!frame.needs_seventh) return {};
    Slip slip{spot.grip, std::nullopt, frame.seventh, {}};
    for (const auto& place : spot.grip.places()) {
        if (above(spot.now.chord, board().note(place)) == *frame.seventh)
            slip.shape.on(place.string).reset();
    }
    const auto rest = intervals_of(spot.now.chord, slip.shape);
    // A sixth would stand in for a seventh.
    const bool enough = slip.shape.places().size() >= 2 && has(rest, frame.third) && !rest.test(9);
    if (!enough || slip.shape == spot.grip || !is_new(spot, slip.shape)) return {};
    slip.words = fret_words(spot, slip.shape,
                            *frame.seventh == 9 ? "without its sixth" : "without its seventh");
    return {slip};
}

}  // namespace compline::simulate
