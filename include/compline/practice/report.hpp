#pragma once

#include <compline/assess/assessment.hpp>
#include <compline/listen/listener.hpp>
#include <compline/practice/delays_now.hpp>
#include <compline/practice/hand_against_plan.hpp>
#include <compline/practice/ladder.hpp>
#include <compline/practice/machine.hpp>
#include <compline/roadmap/road_map.hpp>

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace compline::practice {

/// An option of what was played that is asked for again when it is played again.
struct KeptOption {
    std::string name;   ///< "--out"
    std::string value;  ///< as it was typed; empty for a flag
    bool operator==(const KeptOption&) const = default;
};

/// What a take that hardly fits may have been played to instead.
enum class HintKind {
    offset,     ///< another bar 1, or another moment
    transpose,  ///< another key
    tempo,
    chart,  ///< another tune
};
[[nodiscard]] std::string_view name_of(HintKind kind);

/// One sentence that helps with a whole take, and the option that does what it says.
struct Hint {
    HintKind kind = HintKind::offset;
    std::string words;   ///< "it fits a bar later: --offset 3636"
    std::string option;  ///< "--offset 3636"
    int right = 0;       ///< changes that are right by it,
    int of = 0;          ///< of those that are due then
    bool operator==(const Hint&) const = default;
};

/// An assessment with all that a reader needs to understand it: what was played, in which feel, by
/// which rules, and what the listener left out. What words, pages and a history are made of.
struct Report {
    roadmap::RoadMap map;  ///< one that ends
    assess::Performance heard;
    assess::Settings settings;
    assess::Assessment assessment;
    listen::Cleaned cleaned;
    std::optional<listen::Strings> strings;  ///< none: one channel for all strings
    std::optional<Machine> machine;          ///< none: not played live
    std::string chart_file;                  ///< for the command that loops the weakest bars
    std::string placement;  ///< where the band stood beside the beat ("bass +8"); empty: on it
    std::vector<Hint> hints = {};  ///< for the whole take; one at most
    std::string program = {};      ///< by which it was judged; empty: not known
    std::string made = {};         ///< when the take was, ISO 8601; empty: not known
    std::string take = {};         ///< the name of its file, without folders; empty: none
    std::string chart_hash = {};   ///< chart::chart_hash of what it was judged by

    std::vector<KeptOption> kept = {};  ///< ... and what else it is to say
    /// The bars that were played through the keys, one a time; none: the chart as it is.
    std::optional<chart::Passage> through_keys = {};
    std::optional<LadderCourse> ladder = {};  ///< none: not played on one, or judged otherwise
    std::optional<DelaysTaken> delays = {};   ///< none: those that the take was played with
    std::string voicings = {};  ///< that were shown, in words of --voicings; empty: none
    std::optional<HandAgainstPlan> hand = {};  ///< none: nobody asked

    /// The judge's own, at the first tempo: that of the settings, or wider where the player's time
    /// is.
    [[nodiscard]] time::Seconds tolerance() const {
        if (assessment.tolerance > time::Seconds(0)) return assessment.tolerance;
        return settings.tolerance.value_or(assess::auto_tolerance(map.tempo(), map.swing()));
    }
};

}  // namespace compline::practice
