#pragma once

#include "command.hpp"

#include <compline/chart/transpose.hpp>
#include <compline/guitar/fretboard.hpp>

#include <optional>
#include <string>
#include <vector>

namespace compline::app {

/// In which key a player wants a chart; at most one of the two.
struct KeyWish {
    std::string key;  ///< as typed: it needs the chart's to be read; empty: not asked
    std::optional<int> semitones;
    std::optional<int> each_time;  ///< semitones from one time through to the next
    [[nodiscard]] bool asked() const { return !key.empty() || semitones; }
    bool operator==(const KeyWish&) const = default;
};

/// As every command has them that plays, judges or shows a chart.
[[nodiscard]] std::vector<Option> options_of(KeyWish& wish);

/// A chart in the key that is wanted, for a guitar with so many frets. Throws BadInput.
[[nodiscard]] chart::Transposed in_key(chart::Chart chart, const KeyWish& wish, int last_fret);

/// A chart as it is wanted, unrolled.
struct WantedChart {
    chart::Form form;
    std::string text;                   ///< as it is written
    std::vector<std::string> left_out;  ///< see chart::Transposed
};

/// From a file or the standard input. Throws chart::ChartError, BadInput.
[[nodiscard]] WantedChart load_chart(const std::string& path, const KeyWish& wish,
                                     int last_fret = guitar::Fretboard::standard().frets());

/// The option by which a passage goes through the keys, as those commands have it that play.
[[nodiscard]] Option each_time_option(KeyWish& wish);

/// A chart of these bars (as typed; empty: the form) in one key after the other, so many times in
/// all. Throws BadInput.
[[nodiscard]] WantedChart through_keys(const WantedChart& chart, int step, const std::string& bars,
                                       std::optional<int> times);

/// To a player who is shown voicings.
void say_left_out(const std::string& path, const WantedChart& chart);

}  // namespace compline::app
