#pragma once

#include "guitar_options.hpp"

#include <compline/live/audio_stream.hpp>

#include <optional>
#include <string>
#include <vector>

namespace compline::app {

// What lies between a player and the program, measured: the round trip of the interface, and how
// far MIDI comes behind the sound of the same note (practice/round_trip.hpp has the words for it).

/// By which way.
enum class CalibrationWay {
    wire,    ///< an output back into an input: the round trip
    guitar,  ///< the guitar's own sound beside its MIDI: how far the one is behind the other
    click    ///< notes on a click: what the strings differ by
};
[[nodiscard]] const char* name_of(CalibrationWay way);

struct CalibrationOptions {
    AsGiven out;
    AsGiven in;
    AsGiven sound_in;
    std::optional<int> rate;
    std::optional<int> period;
    double level_db = -30;
    int clicks = 16;           ///< by wire
    std::optional<int> notes;  ///< on each string; none: as many as the way asks for
    double tempo = 80;         ///< of the click
    AsGiven pickup;            ///< what is said of the MIDI pickup
    GuitarOptions guitar;

    [[nodiscard]] live::AudioStream::Request stream() const;
};

/// A key of the settings, and what it is to be.
struct ToKeep {
    std::string key;
    std::string value;
    bool of_guitar = true;  ///< else of the interface, whichever guitar is played
};

/// What was found.
struct Calibration {
    std::string words;         ///< lines for the player
    std::string json;          ///< the same as a JSON object
    std::vector<ToKeep> keep;  ///< empty: nothing is known
};

/// Measures, and says on stderr how far it is. Waits for Enter where somebody is at a terminal.
/// None: it was stopped. Throws BadInput, live::DeviceError.
[[nodiscard]] std::optional<Calibration> calibrate_by_wire(const CalibrationOptions& options);
[[nodiscard]] std::optional<Calibration> calibrate_by_guitar(const CalibrationOptions& options);
[[nodiscard]] std::optional<Calibration> calibrate_by_click(const CalibrationOptions& options);

/// The same, by the name of the way.
[[nodiscard]] std::optional<Calibration> calibrate(const std::string& way,
                                                   const CalibrationOptions& options);

}  // namespace compline::app
