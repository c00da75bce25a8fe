#pragma once

#include <compline/chart/chart.hpp>
#include <compline/harmony/pitch.hpp>
#include <compline/time/meter.hpp>

#include <optional>
#include <vector>

namespace compline::band {

/// What a bass player adds to a line between its beats: see bass.hpp.
enum class Seasoning { none, dead_notes, skips_and_dead_notes };

/// A bar as the bass player reads it.
struct BassBar {
    std::vector<chart::Slot> chords;  ///< fill the bar without a gap, in order
    chart::Bass bass = chart::Bass::walking;
    chart::Feel feel = chart::Feel::swing;
    std::vector<time::Ticks> kicks;  ///< to be marked; from the bar line, ascending
    Seasoning seasoning = Seasoning::none;
    bool phrase_ends = false;  ///< with this bar
    bool fast = false;         ///< a chord of two beats is over before one could lead out of it
    std::optional<harmony::MidiNote> guitar_lowest = {};  ///< of the band's guitar in this bar
    time::Meter meter{4};
    time::Ticks hold = {};  ///< a fermata at its end

    [[nodiscard]] time::Ticks length() const { return meter.bar() + hold; }
};

}  // namespace compline::band
