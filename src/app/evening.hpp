#pragma once

#include "command.hpp"
#include "page_file.hpp"

#include <compline/band/place.hpp>
#include <compline/guitar/voicing_plan.hpp>
#include <compline/live/devices.hpp>
#include <compline/practice/known_round_trip.hpp>
#include <compline/practice/scoring.hpp>
#include <compline/report/now_playing.hpp>
#include <compline/report/report.hpp>
#include <compline/roadmap/road_map.hpp>

#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace compline::app {

/// In place of an input: nobody listens.
inline constexpr const char* no_input = "none";

/// Whether an input is one of sound: "sound:", and which.
[[nodiscard]] inline bool is_sound(const std::string& input) {
    return input.rfind(live::sound_prefix, 0) == 0;
}
[[nodiscard]] inline std::string behind_sound(const std::string& input) {
    return input.substr(std::string_view(live::sound_prefix).size());
}

/// What a practice session is to be, read and checked.
struct AskedEvening {
    explicit AskedEvening(roadmap::RoadMap played) : map(std::move(played)) {}

    roadmap::RoadMap map;
    band::Players players;
    band::Stage stage;
    std::string chart_file;
    std::string chart_text;
    std::optional<guitar::VoicingPlan> voicings;  ///< shown, for the player to play
    std::string voicing_words;                    ///< that asked for them
    practice::ScoreRequest rules;
    time::Seconds offset{0};                    ///< the calibration: subtracted from every onset
    std::vector<time::Seconds> string_offsets;  ///< ... and those of a string, from 1 on
    std::optional<practice::KnownRoundTrip> round_trip;           ///< of the interface, as measured
    guitar::Fretboard fretboard = guitar::Fretboard::standard();  ///< that is heard
    AsGiven out;         ///< the output meant; empty: the default one
    AsGiven in;          ///< the input meant, or "none"; empty: the only one
    std::string player;  ///< whose evening it is; empty: not said
    AsGiven pedal;       ///< which of its switches asks for what; empty: there is none
    AsGiven pedal_in;    ///< its own input; empty: the guitar's
    std::optional<time::SampleRate> rate;
    std::optional<int> period;
    std::optional<std::filesystem::path> take;  ///< none: among the player's takes
    bool verdicts = false;
    report::View view = report::View::rows;  ///< to begin with
    report::Hand hand = report::Hand::right;
    report::Listing listing = report::Listing::one_screen;
    bool json = false;
    PageFile page;
    std::vector<std::string> words;           ///< that asked for it, to be offered again
    bool history = true;                      ///< its takes are kept in it
    bool reminders = true;                    ///< to rest the fretting hand
    std::vector<practice::KeptOption> kept;   ///< asked for again by what the report suggests
    std::vector<practice::KeptOption> typed;  ///< all but chart, tempo and the take's file
    std::optional<chart::Passage>
        through_keys;  ///< the bars that are played in one key after another

    [[nodiscard]] bool listens() const { return in.text != no_input; }
    /// It is heard by its sound alone.
    [[nodiscard]] bool hears_sound() const { return is_sound(in.text); }
};

/// What its takes say of their making, as far as it is known at the beginning.
[[nodiscard]] practice::TakeInfo opening_of(const AskedEvening& asked);

/// Plays the band, listens, shows where we are, and prints the report at the end.
[[nodiscard]] Status play(const AskedEvening& asked);

}  // namespace compline::app
