#pragma once

#include "delay_options.hpp"
#include "guitar_options.hpp"
#include "key_wish.hpp"
#include "rules.hpp"

#include <compline/practice/take.hpp>

#include <optional>
#include <string>
#include <vector>

namespace compline::app {

/// Which delays are taken off what was played.
enum class WhoseDelays {
    take,     ///< with which it was played
    settings  ///< that are known now
};

/// What is asked for by who has takes judged.
struct JudgingOptions {
    std::string chart;
    std::optional<double> tempo;
    std::string bars;
    bool whole_form = false;
    KeyWish key;
    double offset_ms = 0;
    RuleOptions rules;
    GuitarOptions guitar;
    bool notes_alone = false;
    WhoseDelays delays = WhoseDelays::take;
    DelayOptions usual_delays;  ///< by the settings
};

/// As commands have them: what was played, and how it is judged.
[[nodiscard]] std::vector<Option> played_options(JudgingOptions& options);
[[nodiscard]] std::vector<Option> how_options(JudgingOptions& options);
/// What they read from the settings alone.
[[nodiscard]] std::vector<Option> settled(JudgingOptions& options);

/// Judges one take after the other by the same wishes. What is odd about a take is said.
class Judging {
  public:
    /// The chart is read here, where one is given. Throws BadInput, chart::ChartError.
    explicit Judging(const JudgingOptions& options);

    /// Throws BadInput.
    [[nodiscard]] practice::Report judge(const std::string& take) const;
    /// None: each take's own.
    [[nodiscard]] const std::optional<chart::Form>& given_chart() const { return given_; }

  private:
    [[nodiscard]] practice::ScoreRequest request_for(const chart::Form& form, Unsaid unsaid) const;
    [[nodiscard]] practice::DelaysNow delays_now(const guitar::Fretboard& guitar) const;
    [[nodiscard]] chart::Form form_for(const practice::Take& take, const std::string& path) const;
    void look_for_another_chart(const practice::Take& take, const practice::ScoreRequest& request,
                                practice::Report& report) const;

    const JudgingOptions& options_;
    std::optional<chart::Form> given_;
};

}  // namespace compline::app
