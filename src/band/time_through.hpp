#pragma once

#include <compline/band/band.hpp>
#include <compline/chart/form.hpp>

#include <cstdint>
#include <vector>

namespace compline::band {

/// What is decided by chance, each with a chance of its own.
enum class Matter : std::uint64_t { phrase = 101, figure, comping };

/// One time through, as the players ask about it: which bars, how each is played, and what follows.
/// Bars are those of the form, from 1. Map and players must outlive it.
struct TimeThrough {
    const roadmap::RoadMap& map;
    const Players& players;
    int number = 1;  ///< from 1

    [[nodiscard]] const chart::Form& form() const { return map.form(); }
    [[nodiscard]] const chart::Stretch& stretch() const { return map.way().stretch(number); }
    [[nodiscard]] chart::Passage passage() const { return stretch().passage; }
    [[nodiscard]] time::Ticks start() const { return map.start(number); }
    /// A bar as it is played.
    [[nodiscard]] roadmap::PlayedBar played(int bar) const {
        return map.bar(map.first_bar(number) + bar - passage().from);
    }
    [[nodiscard]] time::Meter meter() const { return form().bar(passage().from).meter; }
    /// What tempo does to manners is settled once a time through, where it begins.
    [[nodiscard]] time::Bpm tempo() const { return map.tempo_at(start()); }

    [[nodiscard]] bool is_last() const;
    [[nodiscard]] Manner manner(int bar) const;
    [[nodiscard]] bool ends_section(int bar) const;
    /// Nothing follows, not even a held chord.
    [[nodiscard]] bool stops_after(int bar) const;
    /// A key for chance: of a matter, this time through, in a bar (0: the whole of it).
    [[nodiscard]] std::uint64_t key(Matter matter, int bar = 0) const;
};

}  // namespace compline::band
