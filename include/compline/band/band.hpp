#pragma once

#include <compline/chart/form.hpp>
#include <compline/harmony/pitch.hpp>
#include <compline/time/units.hpp>

#include <vector>

namespace compline::band {

// What the band plays, as musicians write it: drum strokes and bass notes at written positions
// (swing is applied where they are placed in time, by time::Groove). Positions count from bar 1
// beat 1 of the first time through; the count-in is negative.

enum class Drum { ride, hihat_foot, kick, stick };  ///< stick: the count-in's click

struct Stroke {
    time::Ticks at;
    Drum drum = Drum::ride;
    int velocity = 80;  ///< 1 to 127
    bool operator==(const Stroke&) const = default;
};

struct BassNote {
    time::Ticks at;
    time::Ticks length;
    harmony::MidiNote note{40};
    int velocity = 80;  ///< 1 to 127
    bool operator==(const BassNote&) const = default;
};

/// The band's part for a passage played some times through, each list in order of time.
struct Part {
    std::vector<Stroke> strokes;
    std::vector<BassNote> notes;
};

struct Request {
    chart::Passage passage;
    int times_through = 1;
    int count_in_bars = 2;
};

/// Drums and bass for a passage: see drums.hpp and bass.hpp for what is played. A PartWriter's
/// times through, joined.
[[nodiscard]] Part arrange(const chart::Form& form, const Request& request);

}  // namespace compline::band
