#pragma once

#include <compline/chart/form.hpp>
#include <compline/chart/manner.hpp>
#include <compline/roadmap/who_plays.hpp>
#include <compline/time/meter.hpp>
#include <compline/time/swing.hpp>
#include <compline/time/units.hpp>

#include <cstdint>
#include <span>
#include <vector>

namespace compline::roadmap {

/// A bar of a road map: all that anybody asks about it. What it points to lives as long as the road
/// map, or a copy of it, does.
struct PlayedBar {
    std::int64_t number = 1;                  ///< in order of playing, from 1
    int time_through = 1;                     ///< from 1
    const chart::FormBar* written = nullptr;  ///< the bar of the form; never null
    time::Ticks start;                        ///< from the first beat of bar 1
    time::Bpm tempo{120};                     ///< with which it begins
    time::Bpm tune_tempo{120};  ///< of the tune there: a section's own stands to it as in the chart
    time::Swing swing = time::Swing::straight();
    chart::AskedManner manner;            ///< by chart, section, stretch and, closest, the player
    std::span<const chart::Span> chords;  ///< `start` counted in the form; see slots()
    WhoPlays on;                          ///< who is there to play
    WhoPlays left_out;                    ///< whom the rule of silence leaves out, there or not
    WhoPlays decided_out;                 ///< who lays out because it was decided so, there or not
    bool seam = false;  ///< begins a time through that the tune does not lead into
    /// Out of time, and nobody judges: a pause that is over, which is no bar of the form (number
    /// 0), or a bar of a rubato, whose chords nobody plays.
    bool waits = false;

    [[nodiscard]] WhoPlays plays() const { return on.without(left_out).without(decided_out); }
    /// Nobody plays of those who are on, or nobody is. Rests within a part and tails that ring make
    /// no silence. There the player's time is his own. A wait is none: it is not music.
    [[nodiscard]] bool is_silent() const { return !waits && !plays().anybody(); }
    [[nodiscard]] int in_form() const { return written->number; }
    [[nodiscard]] time::Meter meter() const { return written->meter; }
    [[nodiscard]] time::Ticks end() const { return start + (written->end() - written->start); }
    /// At the tempo with which it begins.
    [[nodiscard]] time::Seconds lasts() const {
        return tempo.beat() * time::Beats(end() - start).count();
    }
    /// Its chords, from the bar line.
    [[nodiscard]] std::vector<chart::Slot> slots() const;
};

/// Where a moment stands. Before the beginning: the first bar; past the end of a road map that
/// ends: its last bar, `over`.
struct PlayedPlace {
    int time_through = 1;     ///< from 1
    int bar = 1;              ///< number in the form
    std::int64_t number = 1;  ///< of the bar, in order of playing, from 1
    time::Ticks in_bar;       ///< from the bar line; 0 before the beginning and past the end
    bool before = false;
    bool over = false;
};

}  // namespace compline::roadmap
