#pragma once

#include <compline/assess/assessment.hpp>
#include <compline/roadmap/road_map.hpp>
#include <compline/simulate/played.hpp>
#include <compline/simulate/rough_pickup.hpp>

#include <array>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <vector>

namespace compline::measure {

// How well the listener mends what a rough pickup sends: random choruses, sent clean and rough,
// heard, and compared with what was played and with what the judge makes of the clean take.

/// A true and a heard note are the same: string, pitch, and onsets within 50 ms. Each is matched
/// once, as many as can be.
struct NoteMatching {
    std::vector<std::optional<std::size_t>> heard_as;  ///< of each true note, which heard one
    std::vector<bool> extra;                           ///< of each heard note: nobody played it
};
/// Both in order of onset.
[[nodiscard]] NoteMatching match_notes(std::span<const listen::Note> truth,
                                       std::span<const listen::Note> heard);

/// How much of the truth was heard, and how much of what was heard is true.
struct Found {
    int played = 0;
    int heard = 0;
    int matched = 0;

    [[nodiscard]] double recall() const;     ///< 1 where nothing was played
    [[nodiscard]] double precision() const;  ///< 1 where nothing was heard
    [[nodiscard]] double f_measure() const;
    Found& operator+=(const Found& other);
};

/// A note heard and not played, or played and not heard, for whoever wants to see why.
struct Slip {
    std::string chart;
    double tempo = 120;
    std::uint64_t seed = 1;
    bool extra = false;
    listen::Note note;
    std::optional<simulate::Fault>
        fault;  ///< that made it, or that befell its string within 100 ms
    /// What came on its string from 250 ms before to 250 ms after.
    std::vector<midi::TimedMessage> messages;
};

struct PickupFigures {
    int takes = 0;
    Found strums;                  ///< first onsets of strums, within 50 ms
    std::array<Found, 6> strings;  ///< tones, of string 1 to 6
    int changes = 0;               ///< judged in both takes
    int verdicts_changed = 0;      ///< another verdict than in the clean take
    int elsewhere = 0;             ///< landed on another beat than in the clean take, or not at all
    std::vector<double> lateness_errors_ms;  ///< rough less clean, of those that did not
    int right_clean = 0;                     ///< changes with right tones in the clean take
    int false_wrong = 0;                     ///< of those, wrong in the rough one
    int false_incomplete = 0;
    listen::Cleaned cleaned;
    std::array<int, simulate::fault_count> faults{};
    std::vector<Slip> slips;

    [[nodiscard]] Found tones() const;
    [[nodiscard]] double bias_ms() const;
    [[nodiscard]] double sd_ms() const;
    [[nodiscard]] double p95_ms() const;  ///< of the sizes of the errors
    [[nodiscard]] double false_wrong_rate() const;
};

struct PickupStudyRequest {
    int takes = 200;
    std::uint64_t seed = 1;  ///< of the first; the next ones count on
    simulate::Roughness roughness;
    /// Share of the takes whose shifts are sent as slides.
    double sliding_takes = 0.5;
    bool deeds = false;  ///< with mistakes and liberties
    /// Share of the fretted notes, of those whose string is then left alone, after which the open
    /// string is played softly, at 0.45 to 1 of their loudness.
    double pull_offs = 0;
    listen::Cleaning cleaning;
    bool finds_strings = false;  ///< the listener is not given which channel is which string
    std::size_t most_slips = 0;
};

/// A chorus of a demo chart and what a pickup sent of it.
struct StudyTake {
    roadmap::RoadMap map;
    std::uint64_t seed = 1;
    simulate::PlayedTune played;
    std::vector<midi::TimedMessage> clean;
    simulate::Roughness roughness;
    simulate::RoughTake rough;
};
/// Take n (from 0) of a study.
[[nodiscard]] StudyTake study_take(const std::vector<chart::Form>& forms,
                                   const PickupStudyRequest& request, int n);

[[nodiscard]] PickupFigures study_pickup(const std::vector<chart::Form>& forms,
                                         const PickupStudyRequest& request);

/// What a cleaning rule does at one setting, over the takes of a study.
struct RuleFigures {
    int played = 0;
    int false_drops = 0;  ///< true notes that are heard with the rule off and not with it on
    int faults = 0;
    int false_keeps = 0;  ///< notes nobody played that the rule is for, and that are heard
};
/// `fault`: what the rule is for; `off`: the request's cleaning without it.
[[nodiscard]] RuleFigures study_rule(const std::vector<chart::Form>& forms,
                                     const PickupStudyRequest& request, simulate::Fault fault,
                                     const listen::Cleaning& off);

}  // namespace compline::measure
