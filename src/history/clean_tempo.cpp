#include "clean_tempo.hpp"

#include "../assess/median.hpp"
#include "place_rows.hpp"

#include <compline/chart/chart.hpp>
#include <compline/history/advice.hpp>
#include <compline/practice/ladder.hpp>

#include <algorithm>

namespace compline::history {

namespace {

constexpr double a_tenth = 0.1;

double a_tenth_above(double bpm) {
    return std::min(practice::moved(time::Bpm(bpm), a_tenth).count(), chart::fastest_bpm);
}

/// Its bars, or one more on either side.
bool is_through(const CleanRun& run, const Homework& homework) {
    return run.from_bar <= homework.from_bar && run.from_bar >= homework.from_bar - 1 &&
           run.to_bar >= homework.to_bar && run.to_bar <= homework.to_bar + 1;
}

}  // namespace

bool is_clean(const CleanRun& run) {
    const int bars = run.to_bar - run.from_bar + 1;
    return run.in_a_row >= (bars >= practice::Ladder::many_bars ? 1 : 2);
}

std::optional<double> last_clean(const TuneHistory& tune, int from_bar, int to_bar) {
    std::optional<double> fastest;
    const std::string* evening = nullptr;
    for (auto i = tune.runs.size(); i-- > 0;) {
        const auto& run = tune.runs[i];
        if (evening && run.date != *evening) break;
        if (run.from_bar > from_bar || run.to_bar < to_bar || !is_clean(run)) continue;
        evening = &run.date;
        fastest = std::max(fastest.value_or(0), run.bpm);
    }
    return fastest;
}

std::optional<double> last_clean(const TuneHistory& tune) {
    for (auto i = tune.evenings.size(); i-- > 0;) {
        if (tune.evenings[i].clean_bpm) return tune.evenings[i].clean_bpm;
    }
    return std::nullopt;
}

double usual_tempo(const TuneHistory& tune) {
    const auto lately = lately_from(tune);
    std::vector<double> tempi;
    for (const auto& evening : tune.evenings) {
        if (evening.date >= lately && evening.usual_bpm > 0) tempi.push_back(evening.usual_bpm);
    }
    if (!tempi.empty()) return assess::median(std::move(tempi));
    constexpr double medium = 120;
    return tune.chart_bpm > 0 ? tune.chart_bpm : medium;
}

double slowed(double bpm, double by) {
    return std::max(practice::moved(time::Bpm(bpm), -by).count(), chart::slowest_bpm);
}

LadderRange ladder_for(const TuneHistory& tune, int from_bar, int to_bar) {
    const auto clean = last_clean(tune, from_bar, to_bar);
    const double usual = usual_tempo(tune);
    const double from = slowed(clean.value_or(usual), a_tenth);
    double to = clean ? a_tenth_above(*clean) : std::round(usual);
    if (clean && *clean < tune.chart_bpm) to = std::min(to, std::round(tune.chart_bpm));
    return {from, std::max(to, from + 1)};
}

std::vector<std::string> done_on(const Homework& homework, const std::vector<CleanRun>& runs) {
    constexpr double a_hair = 0.01;  // below a tempo that was asked for
    std::vector<std::string> days;
    for (const auto& run : runs) {
        const bool counts = run.date >= homework.given && run.bpm >= homework.to_bpm - a_hair &&
                            is_through(run, homework) && is_clean(run);
        const bool is_new = days.empty() || days.back() != run.date;
        if (counts && is_new && days.size() < days_wanted) days.push_back(run.date);
    }
    return days;
}

}  // namespace compline::history
