#pragma once

#include <compline/guitar/fretboard.hpp>
#include <compline/listen/listener.hpp>
#include <compline/midi/message.hpp>

#include <optional>
#include <span>
#include <vector>

namespace compline::listen {

// What a MIDI pickup's unit sends when a string is tried: before anything is cleaned or corrected,
// to tell a player how his unit is set.

/// A note as it was sent.
struct NoteSeen {
    time::Seconds at;
    int channel = 1;
    harmony::MidiNote key{60};
    int velocity = 80;
    /// Beside the key, by the bends that came with it; the mean of what was sent while it sounded,
    /// without its first 100 ms, in which a pick pulls a string sharp.
    double cents = 0;
};

/// All notes of the messages, in order of time. bend_range: semitones, until an RPN 0 says
/// otherwise. What still sounds lasts until `end`.
[[nodiscard]] std::vector<NoteSeen> notes_seen(std::span<const midi::TimedMessage> messages,
                                               double bend_range, time::Seconds end);

/// The bend range that the unit told, in semitones (RPN 0); none: it told none.
[[nodiscard]] std::optional<double> bend_range_told(std::span<const midi::TimedMessage> messages);

/// The string that a note came from: by its channel, else the open string that it is. None: nobody
/// can tell.
[[nodiscard]] std::optional<int> string_seen(const NoteSeen& note,
                                             const std::optional<Strings>& strings,
                                             const guitar::Fretboard& fretboard);

/// The loudest note of each string, from string 1 on; 0: the string was not heard.
[[nodiscard]] std::vector<int> velocities_by_string(std::span<const NoteSeen> strum,
                                                    const std::optional<Strings>& strings,
                                                    const guitar::Fretboard& fretboard);

}  // namespace compline::listen
