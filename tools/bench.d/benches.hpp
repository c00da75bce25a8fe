#pragma once

#include "table.hpp"

#include <compline/chart/form.hpp>

#include <vector>

namespace compline::bench {

// What is measured, a file each. Nothing here looks at a figure and judges it: machines differ, and
// a busy one must not fail anything.

/// The 32-bar chart that all of these play: three lamps, AABA, 160 bpm.
[[nodiscard]] chart::Form aaba();

/// All charts of the demo set, in order of their file names.
[[nodiscard]] std::vector<chart::Form> demo_forms();

/// The band to memory and to a WAV file, for many choruses; what comes before the first sound.
[[nodiscard]] std::vector<Row> rendering(Pace pace);

/// The program beside a general soft synthesizer that plays our MIDI file of the same music, where
/// there is one.
[[nodiscard]] std::vector<Row> soft_synth(Pace pace);

/// One block of 64 frames, as the audio callback renders it, against the time it has.
[[nodiscard]] std::vector<Row> blocks(Pace pace);

/// The bass line of one time through, with the next one in view.
[[nodiscard]] std::vector<Row> bass_lines(Pace pace);

/// Voicings of tunes by chance: 32 bars on some strings and on all, and longer and longer ones.
[[nodiscard]] std::vector<Row> voicing_plans(Pace pace);

/// `compline score` of a ten-minute take, whole and in its parts.
[[nodiscard]] std::vector<Row> scoring(Pace pace);

/// A minute of the most that a guitar can send (3,000 bends a second, strums among them).
[[nodiscard]] std::vector<Row> flood(Pace pace);

/// Charts and MIDI files from their text and bytes.
[[nodiscard]] std::vector<Row> reading(Pace pace);

/// Chord symbols, and the same ones by a library of music theory in Node where
/// COMPLINE_TONAL_RATE names the script that does it (tools/bench sees to that).
[[nodiscard]] std::vector<Row> symbols(Pace pace);

/// Written positions to seconds, and the longest road map asked at random.
[[nodiscard]] std::vector<Row> time_line(Pace pace);

/// What is drawn a hundred times a second in the largest window.
[[nodiscard]] std::vector<Row> large_view(Pace pace);

/// What a history of years takes to be thought about, once it is read.
[[nodiscard]] std::vector<Row> weeks_of_practice(Pace pace);

}  // namespace compline::bench
