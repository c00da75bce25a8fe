#pragma once

#include <compline/harmony/pitch.hpp>
#include <compline/time/units.hpp>

#include <optional>
#include <vector>

namespace compline::listen {

/// A note as it was heard: when it began and ended, and on which string where that is known.
struct Note {
    time::Seconds on;   ///< corrected onset
    time::Seconds off;  ///< when it stopped sounding; never before `on`
    harmony::MidiNote note{60};
    int velocity = 80;          ///< 1 to 127
    std::optional<int> string;  ///< 1 = high E ... 6 = low E; none without a channel per string
    std::optional<int> fret;    ///< with `string`
    bool slid = false;          ///< reached by a slide, not by a pick

    [[nodiscard]] time::Seconds length() const { return off - on; }
    [[nodiscard]] bool sounds_at(time::Seconds t) const { return on <= t && t < off; }
};

/// What the listener left out or mended, each counted and reported.
struct Cleaned {
    int ghosts = 0;           ///< too short and too soft to be played
    int double_triggers = 0;  ///< the same note of the same string, again at once
    int flickers = 0;         ///< an octave or a twelfth off for a moment at the attack
    int lift_offs = 0;        ///< an open string that sounds softly as a finger leaves it
    int frets_passed = 0;     ///< on the way of a slide, sent as notes of their own
    int unended = 0;          ///< no note-off came: ended with the strum they belong to
    int impossible = 0;       ///< bent beyond the notes that MIDI knows
    bool operator==(const Cleaned&) const = default;
};

}  // namespace compline::listen
