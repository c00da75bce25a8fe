#pragma once
// Every chord that a symbol may be read as, for what is to hold of them all.

#include <compline/harmony/chord.hpp>
#include <compline/harmony/quality.hpp>

#include <bitset>
#include <cstddef>

namespace compline::tests {

/// The alterations whose bits are set, in the order of the table.
inline harmony::Alterations alterations_of(std::size_t set) {
    harmony::Alterations alterations;
    for (const auto& row : harmony::alteration_table()) {
        if (set % 2 != 0) alterations.insert(row.alteration);
        set /= 2;
    }
    return alterations;
}

/// Each set of at most so many alterations, as bits.
template <typename Visit>
void each_set_to(std::size_t most, Visit visit) {
    for (std::size_t set = 0; set < 1U << harmony::Alterations::kinds; ++set) {
        if (std::bitset<harmony::Alterations::kinds>(set).count() <= most) visit(set);
    }
}

/// Every quality on C with each such set, if it is at its simplest: no symbol is read as another.
/// `set` goes with it.
template <typename Visit>
void each_chord_to(std::size_t most, Visit visit) {
    for (const auto& row : harmony::quality_table()) {
        each_set_to(most, [&](std::size_t set) {
            const harmony::Chord chord{{}, row.quality, alterations_of(set), {}};
            // alt names no alteration, and none is named beside it.
            const bool alone = row.quality != harmony::Quality::altered || set == 0;
            if (alone && harmony::simplest(chord) == chord) visit(chord, set);
        });
    }
}

}  // namespace compline::tests
