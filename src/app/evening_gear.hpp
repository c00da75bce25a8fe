#pragma once

#include "evening.hpp"

#include <compline/live/devices.hpp>
#include <compline/live/gear.hpp>

#include <optional>
#include <string>

namespace compline::app {

/// Where guitar and pedal come in. No guitar: nobody is listened to. No pedal: there is none, or it
/// is among what comes from the guitar's port.
struct MidiChoice {
    std::optional<live::MidiInput> guitar;
    std::optional<live::MidiInput> pedal;
};

/// What an evening's words mean, of the inputs that are there. Where nobody says which is the
/// guitar, it is not what was said to be the pedal, unless there is no other. Throws text::BadInput
/// and live::DeviceError.
[[nodiscard]] MidiChoice choose_ports(const AskedEvening& asked, live::MidiInputs guitars,
                                      const live::MidiInputs& pedals);

/// The devices that an evening's words mean, of those that there are. Throws text::BadInput and
/// live::DeviceError.
[[nodiscard]] live::GearChoice find_gear(const AskedEvening& asked);

/// A device by a player's words alone, of those that there are; see live::choose_output and its
/// like. Throw text::BadInput and live::DeviceError. A sound input is one of the output's API.
[[nodiscard]] live::AudioOutput output_meant(const AsGiven& wish);
[[nodiscard]] live::MidiInput input_meant(const AsGiven& wish);
/// `wish`: behind "sound:", where it may be MIDI too.
[[nodiscard]] live::SoundInput sound_meant(const AsGiven& wish, const std::string& api,
                                           const char* option);

/// The measured round trip, where it is of what is open now; none: what the system tells of its
/// output is taken. Where one was measured on something else, the player is told.
[[nodiscard]] std::optional<time::Seconds> round_trip_on(
    const practice::SoundPath& open, const std::optional<practice::KnownRoundTrip>& known);

/// The devices, opened for this evening. Throws as live::open_gear.
[[nodiscard]] live::Gear open_gear(const live::GearChoice& choice, const AskedEvening& asked);

/// Name of the MIDI input that is meant, by API and name; empty: there is none, or not one alone.
[[nodiscard]] std::string input_name(const AsGiven& wish);

}  // namespace compline::app
