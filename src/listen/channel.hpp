#pragma once

#include <compline/midi/message.hpp>
#include <compline/time/units.hpp>

#include <optional>

namespace compline::listen {

/// The pitch bend of a channel, followed from fret to fret.
///
/// A slide is a fret when the string stays there: the bend must come within 0.35 of a semitone of
/// it, and stay so for 40 ms. Frets passed on the way are none, nor are vibrato and quarter-tones,
/// which do not come that near or do not stay. It began when the bend crossed half-way into it.
class BendPath {
  public:
    /// The bend is `semitones` from now on.
    void move(double semitones, time::Seconds at);

    struct Arrival {
        int semitones = 0;   ///< from where the bend is at rest
        time::Seconds when;  ///< half-way into it
    };
    /// The fret that the bend has come to and stayed at until `at`; the same one again and again.
    [[nodiscard]] std::optional<Arrival> arrived(time::Seconds at) const;

    /// The nearest fret to where the bend is now.
    [[nodiscard]] int nearest() const;

  private:
    double semitones_ = 0;
    time::Seconds moved_;    ///< when that was last sent
    time::Seconds crossed_;  ///< half-way into the nearest fret
    std::optional<time::Seconds> near_since_;
};

/// Reads the bend range out of a channel's control changes: registered parameter 0, in semitones
/// and cents, by data entry, increment and decrement (MIDI 1.0 Detailed Specification; RP-018 for
/// what increments it by; both from memory).
class BendRange {
  public:
    explicit BendRange(double semitones) : semitones_(semitones) {}
    void control(int controller, int value);
    [[nodiscard]] double semitones() const { return semitones_; }

  private:
    void enter(int controller, int value);

    static constexpr int none = 0x3FFF;  // RPN null
    double semitones_;
    int parameter_ = none;
};

}  // namespace compline::listen
