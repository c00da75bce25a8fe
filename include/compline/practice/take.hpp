#pragma once

#include <compline/assess/rules_version.hpp>
#include <compline/assess/settings.hpp>
#include <compline/band/place.hpp>
#include <compline/guitar/fretboard.hpp>
#include <compline/listen/heard_by.hpp>
#include <compline/listen/listener.hpp>
#include <compline/listen/unheard.hpp>
#include <compline/midi/smf.hpp>
#include <compline/practice/machine.hpp>
#include <compline/roadmap/road_map.hpp>

#include <optional>
#include <string>
#include <vector>

namespace compline::practice {

// A take: what was played, with what was being played along to. A Standard MIDI File, 15,360 ticks
// a quarter, raw messages; and text events. The first is JSON ("schema": "compline.take/2") and
// says all that was known before a note was played: what was asked, the chart's own text, the
// version of the rules, the date. What is decided while the music goes on follows when it is
// decided, by bar; at the end, how the machine bore up. So a take can be scored and rendered again
// whatever became of its chart, and one that was cut short as far as it goes (2026-11-30).
//
// Takes of "compline.take/1" are read too. They know neither chart nor band: which bars, when the
// band was silent, what moves the off-beats; enough to be judged beside their chart.

using listen::HeardBy;

inline constexpr int take_division = 15360;
inline constexpr const char* start_marker = "compline:start";
inline constexpr const char* interruption_text = "compline:interrupted";
inline constexpr const char* cable_out_text = "compline:cable out";
inline constexpr const char* cable_in_text = "compline:cable in";
inline constexpr const char* pedal_text = "compline:pedal ";  ///< and its bytes: "176 64 127"
inline constexpr const char* listening_text = "compline:listening";
inline constexpr const char* decision_text = "compline:decided ";  ///< and JSON
inline constexpr const char* end_text = "compline:ended ";         ///< and JSON

/// A decision, and when it was made.
struct TimedDecision {
    time::Seconds at;
    roadmap::Decision decision;
    bool operator==(const TimedDecision&) const = default;
};

/// The MIDI pedal that was played with.
struct PedalSaid {
    std::string words;      ///< what it asks for (practice::Pedal); empty: there was none
    bool own_port = false;  ///< it came by a port of its own; else among the guitar's messages
};

/// What the take knows of its own making.
struct TakeInfo {
    int version = 2;      ///< of its text; 1 has no chart and no band: see above
    std::string program;  ///< that made it, with its version; empty: not known
    std::string made;     ///< ISO 8601, local time with offset; empty: not known
    int rules = assess::rules_version;
    std::string chart_text;  ///< YAML; empty in version 1
    std::string chart_hash;  ///< chart::chart_hash, of the chart in the key that was played in
    std::string key;         ///< that key, where it is not the chart's own; else empty

    roadmap::Asked asked;   ///< its tempo is always there
    band::Players players;  ///< its voicings are not kept: no take has had a guitar in the band
    band::Stage stage;
    std::string voicings;  ///< shown to the player, in words of --voicings; empty: none

    guitar::Fretboard fretboard = guitar::Fretboard::standard();  ///< of the guitar it came from
    std::string player;  ///< whose take it is, where several use this machine; empty: not said
    /// Of sound there is a note of key 60 for each onset, on channel 1, its velocity by loudness.
    HeardBy heard = HeardBy::midi;
    listen::Delay delay;  ///< the calibration, to be subtracted from every onset
    std::string pickup;   ///< what the player said of it (listen::read_pickup)
    PedalSaid pedal;
    assess::Settings settings;

    std::vector<TimedDecision> decided;  ///< in order
    bool ended = false;                  ///< the whole take is there; else it was cut short
    std::optional<Machine> machine;      ///< none: not played live, or cut short

    /// As they are asked for.
    [[nodiscard]] std::vector<roadmap::Decision> decisions() const;
};
[[nodiscard]] bool operator==(const TakeInfo& a, const TakeInfo& b);

struct Take {
    /// In order of time; 0 is bar 1 beat 1 of the first time through.
    std::vector<midi::TimedMessage> messages;
    /// When sound was lost or the clock stepped, in order of time: times near it are uncertain.
    std::vector<time::Seconds> interruptions;
    std::optional<TakeInfo> info;                ///< none: a file from elsewhere
    time::Seconds end;                           ///< when the recording ends
    bool marked = false;                         ///< the file has the start marker
    std::vector<listen::CableEvent> cable = {};  ///< of the guitar, in order of time
    std::vector<midi::TimedMessage> pedal = {};  ///< what came from a pedal's own port
};

/// A take as a file, which begins with the count-in of the map.
[[nodiscard]] midi::File to_file(const Take& take, const roadmap::RoadMap& map);

/// What is read of a file besides its notes.
enum class TakeTexts {
    read,    ///< what the take says of itself
    ignored  ///< the notes alone, and where bar 1 is
};

/// Reads a take from a file's contents. Time zero is the start marker, else the file's start.
/// Throws text::BadInput for texts that are damaged, from a later version, or say the impossible.
[[nodiscard]] Take read_take(const midi::File& file, TakeTexts texts = TakeTexts::read);

/// Writes and reads the first text event. What is not a take's text gives nothing; what is one and
/// cannot be read throws text::BadInput.
[[nodiscard]] std::string to_text(const TakeInfo& info);
[[nodiscard]] std::optional<TakeInfo> read_info(const std::string& text);

/// The same of a decision, and of how the machine bore up.
[[nodiscard]] std::string to_text(const roadmap::Decision& decision);
[[nodiscard]] roadmap::Decision read_decision(const std::string& text);
[[nodiscard]] std::string end_to_text(const std::optional<Machine>& machine);
[[nodiscard]] std::optional<Machine> read_end(const std::string& text);

/// What a take of a road map says of its making, as far as the map and its chart's text tell.
[[nodiscard]] TakeInfo info_of(const roadmap::RoadMap& map, std::string chart_text);

/// The chart that a take carries, in the key that was played in; `file` is the name used in
/// messages. Throws chart::ChartError, and text::BadInput for a key that it cannot have been played
/// in.
[[nodiscard]] chart::Form form_of(const TakeInfo& info, const std::string& file);

/// A chart in that key, where the take names one and it is a key for this chart (one of its mode).
[[nodiscard]] chart::Form in_key_of(const TakeInfo& info, chart::Form form);

/// The road map that was played, on a form: as far as is known before the take has been heard.
/// Throws text::BadInput when the form is not one that it can have been played to.
[[nodiscard]] roadmap::RoadMap map_of(const TakeInfo& info, const chart::Form& form);

/// The bars that a take says were played, of a form or, where that has not got them, as they were
/// asked for.
[[nodiscard]] chart::Passage bars_said(const TakeInfo& info, const chart::Form& form);

/// As far as it was played: all of it where that is known, `ended`; else as far as was listened. A
/// damaged take may say that it ended and have lost where.
[[nodiscard]] roadmap::RoadMap as_far_as_played(const roadmap::RoadMap& meant, bool ended,
                                                time::Seconds last_heard);

}  // namespace compline::practice
