#pragma once

#include <compline/band/band.hpp>
#include <compline/chart/form.hpp>

#include <cstdint>
#include <vector>

namespace compline::band {

/// What is decided by chance, each with a chance of its own.
enum class Matter : std::uint64_t { phrase = 101, figure, comping };

/// One time through of a route, as the players ask about it: which bars, how each is played, and
/// what follows. Bars are those of the form, from 1. Form and setup must outlive it.
struct TimeThrough {
    const chart::Form& form;
    const Setup& setup;
    time::Bpm tempo;
    int number = 1;  ///< from 1

    [[nodiscard]] time::Meter meter() const { return form.chart.meter; }
    [[nodiscard]] const chart::Stretch& stretch() const { return setup.route.stretch(number); }
    [[nodiscard]] chart::Passage passage() const { return stretch().passage; }
    [[nodiscard]] time::Ticks start() const { return setup.route.start(number, meter()); }
    /// Counted over the whole route, from 0.
    [[nodiscard]] std::int64_t first_played() const { return setup.route.bars_before(number); }
    [[nodiscard]] std::int64_t played(int bar) const {
        return first_played() + bar - passage().from;
    }

    [[nodiscard]] bool is_last() const;
    [[nodiscard]] Manner manner(int bar) const;
    [[nodiscard]] bool ends_section(int bar) const;
    /// Nothing follows, not even a held chord.
    [[nodiscard]] bool stops_after(int bar) const;
    /// In a bar played (from 0); a silence of the drums alone is none of theirs.
    [[nodiscard]] bool bass_and_guitar_rest(std::int64_t bar_played) const;
    /// Chords of a bar, from its bar line.
    [[nodiscard]] std::vector<chart::Slot> slots(int bar) const;
    /// A key for chance: of a matter, this time through, in a bar (0: the whole of it).
    [[nodiscard]] std::uint64_t key(Matter matter, int bar = 0) const;
};

}  // namespace compline::band
