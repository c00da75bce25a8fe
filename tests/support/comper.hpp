#pragma once

#include <compline/assess/assessment.hpp>
#include <compline/roadmap/road_map.hpp>
#include <compline/simulate/guitarist.hpp>

#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace compline::tests {

/// "x5x56x" or "x-10-12-11-x-x", from string 6 to string 1.
guitar::Shape shape(std::string_view text);

/// A form of one section: bars as a chart writes them.
chart::Form form_of(const std::string& bars, const std::string& key = "C", int beats = 4);

/// A form of sections, in playing order: {{"A", "F6 | Gm7 C7"}, {"B", "A7 | D7"}}, "A, A, B, A".
chart::Form form_of(const std::vector<std::pair<std::string, std::string>>& sections,
                    const std::string& order, const std::string& key = "C");

/// A form at a tempo, swung by that ratio: 1 is straight.
roadmap::RoadMap map_of(const chart::Form& form, double tempo, double swing = 1,
                        int times_through = 1);

/// In time, at the tempo with which it begins.
time::Seconds tolerance_of(const roadmap::RoadMap& map);

/// A grip so many frets higher.
std::string higher(std::string_view grip, int frets);

/// Writes down what a comper plays, strum by strum, and has it judged. Beats may be fractions
/// (2.5 is the off-beat after 2, as written).
class Comper {
  public:
    Comper(const std::string& bars, double tempo, const std::string& key = "C", int beats = 4);
    Comper(chart::Form form, double tempo);

    Comper& swing(double ratio);
    Comper& times(int times_through);
    Comper& passage(int from, int to);
    /// A strum of a grip in a bar (from 1, of the first time through) on a beat, `late` ms from
    /// there, ringing for `beats`. All strings at once unless spread().
    Comper& strum(int bar, double beat, std::string_view grip, double late = 0, double beats = 0.9);
    Comper& spread(double ms_per_string);
    /// A single note on a string.
    Comper& note(int bar, double beat, int string, int fret, double late = 0, double beats = 0.4);
    /// The last strum is slid into, not picked.
    Comper& slid();
    /// The guitar's sound is heard, and when it is struck is all that is known.
    Comper& by_sound();
    /// Sound was lost there.
    Comper& interrupted(int bar, double beat);
    /// The guitar's cable was out from there to there.
    Comper& cable_out(int from_bar, double from_beat, int to_bar, double to_beat);
    /// The band was silent in these bars (played, from 1).
    Comper& silent(int from, int to);
    /// Listening ended there.
    Comper& until(int bar, double beat);

    [[nodiscard]] assess::Assessment judged(const assess::Settings& settings = {}) const;
    [[nodiscard]] assess::Change change(std::size_t n, const assess::Settings& settings = {}) const;
    [[nodiscard]] std::string verdicts(const assess::Settings& settings = {}) const;

    [[nodiscard]] const chart::Form& form() const { return form_; }
    [[nodiscard]] roadmap::RoadMap map() const;
    [[nodiscard]] std::vector<listen::Note> notes() const;

  private:
    [[nodiscard]] time::Ticks written(int bar, double beat) const;

    chart::Form form_;
    roadmap::Asked asked_;
    int times_ = 1;
    chart::Passage passage_;
    double per_string_ms_ = 0;
    std::vector<simulate::ScriptedStrum> script_;
    std::vector<std::size_t> slides_;
    std::vector<time::Seconds> interruptions_;
    std::vector<listen::Unheard> unheard_;
    std::vector<chart::Passage> silences_;  ///< of bars as they are played
    std::optional<time::Seconds> end_;
    listen::HeardBy heard_by_ = listen::HeardBy::midi;
};

assess::Settings with_rhythm(std::string_view rhythm);

}  // namespace compline::tests
