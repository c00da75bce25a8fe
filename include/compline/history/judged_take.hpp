#pragma once

#include <compline/practice/report.hpp>
#include <compline/practice/take.hpp>

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace compline::history {

// A take as the history keeps it: rows of plain values, ready to be written. What is not kept here
// cannot be asked later, so every change and every strum is; sums are kept beside them, for what is
// asked often.
//
// Places are the tune's own, in the key in which its chart is written: bar 7 is bar 7 and Dm7 is
// Dm7, in whatever key the tune was played that evening.

/// The chart that a take was played to, in its own key.
struct KeptChart {
    std::string hash;    ///< chart::chart_hash
    std::string title;   ///< as it stands there; not safe for a terminal
    std::string key;     ///< "F", "Bbm"
    std::string text;    ///< YAML
    std::string file;    ///< where it was last, a path from the root; empty: not known
    bool drill = false;  ///< changes that were typed, no tune
    bool operator==(const KeptChart&) const = default;
};

/// One change, judged.
struct KeptChange {
    int time_through = 1;  ///< from 1
    int bar = 1;           ///< number in the unrolled form
    time::BeatOfBar beat;  ///< from 1
    std::string section;
    std::string from;  ///< in plain letters; empty: the first chord, or the first after N.C.
    std::string to;
    double bpm = 120;     ///< in its bar
    std::string verdict;  ///< assess::name_of
    std::optional<double> lateness_ms;
    std::optional<double> relative_ms;
    std::string tones;    ///< assess::name_of
    std::string missing;  ///< degrees, by blanks: "b7 9"
    std::string wrong;    ///< notes, by blanks: "C#4 E3"
    double cost = 0;
    bool in_time = false;
    bool right = false;  ///< its tones, or none were heard
    /// Certain, not laid out, no seam; in a time through of which a quarter was struck, or held.
    /// Certain, not laid out, no seam, in a time through of which a quarter was struck or held.
    bool counts = true;
    bool uncertain = false;
    bool seam = false;
    bool wait = false;
    bool left_out = false;
    bool optional = false;
    bool operator==(const KeptChange&) const = default;
};

/// One strum, and what it was read as.
struct KeptStrum {
    int time_through = 1;
    int bar = 1;
    time::BeatOfBar beat;
    double asynchrony_ms = 0;
    std::string read_as;  ///< assess::name_of
    bool off_beat = false;
    bool operator==(const KeptStrum&) const = default;
};

/// One time through.
struct KeptTimeThrough {
    int number = 1;
    int from_bar = 1;
    int to_bar = 1;
    bool whole_tune = false;
    double bpm = 120;    ///< of the tune, with which it began
    double seconds = 0;  ///< that it lasted
    int due = 0;         ///< as practice::played_changes counts
    int struck = 0;
    int right = 0;
    int missed = 0;
    bool clean = false;  ///< as practice::judged_of says
    bool operator==(const KeptTimeThrough&) const = default;
};

struct KeptTake {
    std::string fingerprint;  ///< of its bytes: 16 hexadecimal digits
    std::string folder;       ///< where its file lies, a path from the root
    std::string file;         ///< its name there
    std::string player;       ///< empty: not said
    std::string made;         ///< ISO 8601
    std::string evening;      ///< practice::evening_of it: "2026-11-03"
    std::string program;      ///< by which it was judged
    int rules = 0;            ///< assess::rules_version by which it was judged
    bool of_ours = true;      ///< else a file from elsewhere, judged as it was asked for then
    std::string key;          ///< in which it was played; empty: the chart's own
    std::string asked;        ///< what was asked, as its text has it (JSON); empty: from elsewhere
    int from_bar = 1;
    int to_bar = 1;
    double slowest_bpm = 120;
    double fastest_bpm = 120;
    std::optional<double> ladder_from;  ///< what a ladder was asked for
    std::optional<double> ladder_to;
    double seconds = 0;     ///< of music
    bool by_sound = false;  ///< tones were not heard
    // Sums over the changes; those of a seam are left out.
    int changes = 0;
    int uncertain = 0;
    int counted = 0;  ///< certain, not laid out
    int in_time = 0;  ///< of these
    int right = 0;    ///< of these, with the right tones
    int both = 0;     ///< in time and right
    int struck = 0;   ///< or held
    double cost = 0;
    bool operator==(const KeptTake&) const = default;
};

struct JudgedTake {
    KeptChart chart;
    KeptTake take;
    std::vector<KeptTimeThrough> times;
    std::vector<KeptChange> changes;
    std::vector<KeptStrum> strums;
    bool operator==(const JudgedTake&) const = default;
};

/// What is known of a take beside its report.
struct TakeFacts {
    std::string fingerprint;
    std::string folder;
    std::string file;
    std::string player;
    std::string made;  ///< where the report has no date
    std::string chart_text;
    std::string chart_file;  ///< a path from the root; empty: not known
    std::string key;         ///< in which the chart was played; empty: its own
    std::string asked;
    bool of_ours = true;
};

/// What a take of ours says of itself, as far as the history asks for it.
[[nodiscard]] TakeFacts facts_of(const practice::TakeInfo& info);

/// A take's rows. Throws chart::ChartError for a chart's text that cannot be read.
[[nodiscard]] JudgedTake judged_take(const practice::Report& report, const TakeFacts& facts);

}  // namespace compline::history
