#pragma once

#include <compline/guitar/fretboard.hpp>
#include <compline/guitar/grip.hpp>
#include <compline/harmony/pitch.hpp>

#include <optional>
#include <vector>

namespace compline::guitar {

// What the hand does from one grip to the next, and what is heard of it.

enum class Act {
    stays,   ///< on its string and fret
    slides,  ///< stays on its string: a guide finger
    moves,   ///< lifts and lands on another string
    lands,   ///< comes down, having been in the air
    lifts,   ///< is not needed any more
};

struct FingerMove {
    Finger finger = Finger::index;
    Act act = Act::stays;
    int from_string = 0;  ///< where it was, a barre's highest string; 0: nowhere
    int to_string = 0;    ///< where it is now
    int frets = 0;        ///< + towards the bridge; 0 for lands and lifts
    bool operator==(const FingerMove&) const = default;
};

/// One voice that goes on in another: voices are paired so that the sum of motion is least.
struct VoiceMove {
    harmony::MidiNote from{60};
    harmony::MidiNote to{60};
    [[nodiscard]] int semitones() const;  ///< 0 and up
    bool operator==(const VoiceMove&) const = default;
};

struct Move {
    std::vector<FingerMove> fingers;  ///< in the order of Finger
    std::vector<VoiceMove> voices;    ///< from the lowest up; the smaller grip has all its voices
    VoiceMove top;                    ///< the top voice, whether paired so or not
    int hand = 0;                     ///< frets that the hand shifts, + towards the bridge
    bool whole_grip = false;          ///< the same fingers on the same strings, all slid alike

    /// A finger stays or slides.
    [[nodiscard]] bool is_guided() const;
    /// Frets that fingers travel, on their string or to another.
    [[nodiscard]] int travel() const;
    /// Of all voices together.
    [[nodiscard]] int semitones() const;
};

/// Where the hand is: the fret under the index finger, were it down; none where nothing is fretted.
[[nodiscard]] std::optional<int> hand_position(const Grip& grip);
[[nodiscard]] std::optional<int> hand_position(const Grip::Holds& holds);
/// The same, be it behind the nut: 0 and below, where there is no index.
[[nodiscard]] std::optional<int> under_index(const Grip::Holds& holds);

/// The move from one grip to another of the same guitar.
[[nodiscard]] Move move_between(const Fretboard& fretboard, const Grip& from, const Grip& to);

/// The pairing of two sets of notes (each ascending) that moves the voices least.
[[nodiscard]] std::vector<VoiceMove> least_motion(const std::vector<harmony::MidiNote>& from,
                                                  const std::vector<harmony::MidiNote>& to);

}  // namespace compline::guitar
