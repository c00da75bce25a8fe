#pragma once

#include <compline/roadmap/road_map.hpp>
#include <compline/simulate/guitarist.hpp>
#include <compline/simulate/habits.hpp>

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace compline::simulate {

// What the simulated guitarist played, and the truth beside it: for each chord change of the road
// what was done there, and what a listener with ears would say of it.

/// How a change landed, in the words of a report.
enum class Outcome { on_time, pushed, placed, early, late, held, laid_out, missed, astray };
[[nodiscard]] std::string_view name_of(Outcome landing);

struct PlayedChange {
    int time_through = 1;
    int bar = 1;           ///< number in the form
    time::BeatOfBar beat;  ///< from 1
    time::Ticks at;        ///< from the first beat of bar 1
    harmony::Chord chord;
    std::optional<Deed> deed;  ///< none: simply played
    std::string words;         ///< what was done, for a reader
    /// What may be said of it; the first is what was meant.
    std::vector<Outcome> landings;
    std::optional<double> beats_in;          ///< the grid point that was meant, in beats after `at`
    std::optional<time::Seconds> landing;    ///< first onset of the strum that lands it
    std::optional<harmony::MidiNote> wrong;  ///< the one tone that does not belong there
    std::optional<int> missing;              ///< semitones above the root of what was left out
    bool after_nothing = false;              ///< the first chord, or the first after N.C.
    bool planted = false;                    ///< one of the cases of Habits::planted
    double bars_astray = 0;                  ///< lost: so far on in the form; - is behind
    bool foreign = false;                    ///< other chords sounded: nothing is said of its tones
};

struct PlayedTune {
    std::vector<ScriptedStrum> script;  ///< in order of time
    std::vector<PlayedChange> changes;  ///< one for each chord change of the road, in order
};

/// Plays a road map that ends. A mistake has a simply played change on either side, and is made
/// only where it is plain to hear: where another reading of what sounds would be as good, it is
/// not. Deterministic by seed.
[[nodiscard]] PlayedTune play(const roadmap::RoadMap& map, const Habits& habits,
                              std::uint64_t seed);

/// Which channel is which string, as MIDI pickups are set.
enum class ChannelLayout { high_string_first, low_string_first, from_eleven, one_for_all };
inline constexpr int channels_count = 4;
[[nodiscard]] std::string_view name_of(ChannelLayout channels);

/// The messages of perform() (channel 1 = string 1) on other channels. On one for all, a note that
/// sounds on another string already is ended before it is struck again.
[[nodiscard]] std::vector<midi::TimedMessage> sent_on(ChannelLayout channels,
                                                      std::vector<midi::TimedMessage> messages);

}  // namespace compline::simulate
