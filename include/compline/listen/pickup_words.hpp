#pragma once

#include <compline/listen/listener.hpp>

#include <string>
#include <string_view>
#include <vector>

namespace compline::listen {

/// Cycles of its wave that a MIDI pickup needs to find a pitch, until it is measured: one or two
/// (common practice, no source). Taken off live takes unless told otherwise (2026-11-26; cycles=0
/// for an instrument that is no pickup), and off no take that says nothing of its making.
inline constexpr double usual_cycles = 1.5;

/// How a player says what a MIDI pickup is set to, and what is to be left out of what it sends:
///
///     mono from=11 low-first bend=12 cycles=1 ghosts=60 ghost-loudness=0.4 lift-offs=off
///
/// mono: a channel for each string, from 1 on or from=1 to 11, string 1 first unless low-first;
/// poly: one channel for all (MIDI 1.0's modes 4 and 3). bend: semitones, 0 to 96. cycles: 0 to 20.
/// ghosts, double-triggers, flickers, lift-offs: milliseconds, 1 to 200, or off; ghost-loudness,
/// lift-off-loudness: 0 to 1 (see Cleaning). What is not said stays as it is. Throws
/// text::BadInput.
void read_pickup(std::string_view words, PickupSettings& settings);

/// The words with another value of one of them, at their end: "mono bend=12".
[[nodiscard]] std::string with_pickup_word(std::string_view words, std::string_view name,
                                           std::string_view value);

/// The delay of what is played live: the constant and what strings take besides are measured or
/// guessed; cycles are the usual ones unless the words say otherwise. Throws text::BadInput.
[[nodiscard]] Delay live_delay(time::Seconds constant, std::vector<time::Seconds> by_string,
                               std::string_view words);

/// What was found, for the player: "a channel for each string, string 1 on channel 1".
[[nodiscard]] std::string in_words(const std::optional<Strings>& strings);

}  // namespace compline::listen
