#include "intent.hpp"

#include <algorithm>

namespace compline::simulate {

namespace {

using time::Ticks;

constexpr std::uint64_t fewest = 2;
constexpr std::uint64_t most = 6;

/// What the player plays who is so far ahead in the form (or behind, where negative).
std::vector<Intent> played_elsewhere(const std::vector<Intent>& chords, Ticks from, Ticks until,
                                     Ticks ahead) {
    std::vector<Intent> played;
    for (const auto& chord : chords) {
        Intent piece = chord;
        auto& area = piece.area;
        area.start = std::max(from, area.start - ahead);
        area.until = std::min(until, area.until - ahead);
        if (area.start >= area.until) continue;
        const auto moved = [&](Ticks& start) { start -= ahead; };
        std::for_each(area.pieces.begin(), area.pieces.end(), moved);
        std::erase_if(area.pieces,
                      [&](Ticks start) { return start <= area.start || start >= area.until; });
        area.pieces.insert(area.pieces.begin(), area.start);
        played.push_back(piece);
    }
    return played;
}

/// No hole in it: nobody gets lost into N.C. or off the end.
bool is_whole(const std::vector<Intent>& played, Ticks from, Ticks until) {
    for (const auto& chord : played) {
        if (chord.area.start != from) return false;
        from = chord.area.until;
    }
    return from == until;
}

/// Whatever sounds while a chord is due is plainly another one.
bool is_plain(const std::vector<Intent>& chords, const Stray& stray) {
    for (std::size_t i = stray.first; i <= stray.last; ++i) {
        const auto here = spot_of(chords, i).now;
        for (const auto& played : stray.played) {
            const bool meets = played.area.start < chords[i].area.until &&
                               chords[i].area.start < played.area.until;
            if (meets && !(played.grip && clashes(*played.grip, here))) return false;
        }
    }
    return true;
}

}  // namespace

std::optional<Stray> stray_from(const std::vector<Intent>& chords, std::size_t i, const Road& road,
                                const Habits& habits, Chance& chance) {
    Stray stray{i, i + fewest + chance.below(most - fewest + 1) - 1, 0, {}};
    if (stray.last + 1 >= chords.size()) return std::nullopt;
    for (std::size_t n = i - 1; n <= stray.last + 1; ++n) {
        if (!chords[n].plain() || (n >= i && chords[n].area.after_nothing)) return std::nullopt;
    }
    const auto from = chords[i].area.start;
    const auto until = chords[stray.last].area.until;
    const std::int64_t bars = 1 + static_cast<std::int64_t>(chance.below(2));
    const auto ahead = road.meter_of(chords[i].area).bar() * (chance.below(2) == 0 ? bars : -bars);
    stray.bars =
        time::Beats(ahead).count() / time::Beats(road.meter_of(chords[i].area).bar()).count();
    stray.played = played_elsewhere(chords, from, until, ahead);
    if (!is_whole(stray.played, from, until)) return std::nullopt;
    stray.played.front().area.beat = chords[i].area.beat;
    auto last = *chords[i - 1].grip;
    for (auto& chord : stray.played) {
        chord.grip =
            next_grip(chord.area.chord, last, false, habits.comping == Comping::bossa, chance);
        chord.deed.reset();
        chord.entry = entry_of(habits.comping, road.meter_of(chord.area), chord.area);
        chord.filled = false;
        if (!chord.grip) return std::nullopt;
        last = *chord.grip;
    }
    if (!is_plain(chords, stray)) return std::nullopt;
    return stray;
}

}  // namespace compline::simulate
