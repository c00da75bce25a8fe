#include "change_words.hpp"
#include "words.hpp"

#include <compline/report/time_through_line.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>
#include <vector>

namespace compline::report {

namespace {

using assess::Change;
using assess::Tones;
using assess::Verdict;
using ChangesOfTime = std::vector<const Change*>;

ChangesOfTime of_time_through(const assess::Assessment& assessment, int time_through,
                              bool uncertain) {
    ChangesOfTime changes;
    for (const Change& change : assessment.changes) {
        if (change.time_through == time_through && change.uncertain == uncertain) {
            changes.push_back(&change);
        }
    }
    return changes;
}

template <typename Wanted>
int count(const ChangesOfTime& changes, Wanted wanted) {
    return static_cast<int>(std::count_if(changes.begin(), changes.end(),
                                          [&](const Change* change) { return wanted(*change); }));
}

int count(const ChangesOfTime& changes, Verdict verdict) {
    return count(changes, [=](const Change& change) { return change.verdict == verdict; });
}

bool in_time(const Change& change) {
    return change.verdict == Verdict::on_time || change.verdict == Verdict::pushed ||
           change.verdict == Verdict::held || change.verdict == Verdict::laid_out;
}

std::string in_time_words(const ChangesOfTime& changes) {
    const int number = count(changes, in_time);
    const int laid_out = count(changes, Verdict::laid_out);
    const bool all = number == static_cast<int>(changes.size());
    std::string text = all ? "all in time" : fmt::format("{} in time", number);
    if (laid_out > 0) {
        text += fmt::format(" ({} {})", laid_out, laid_out_words(changes.front()->heard_by));
    }
    return text;
}

/// What is not in time; placed ones are no fault, but have a count of their own.
std::string other_words(const ChangesOfTime& changes) {
    std::string text;
    for (const auto& [verdict, words] : {std::pair{Verdict::placed, "placed"},
                                         {Verdict::early, "early"},
                                         {Verdict::late, "late"},
                                         {Verdict::missed, "missed"},
                                         {Verdict::astray, "astray"}}) {
        if (const int n = count(changes, verdict); n > 0) text += fmt::format(", {} {}", n, words);
    }
    for (const auto& [tones, words] :
         {std::pair{Tones::wrong, "wrong tones"}, {Tones::incomplete, "missing tones"}}) {
        const int n = count(changes, [t = tones](const Change& c) { return c.tones == t; });
        if (n > 0) text += fmt::format(", {} in {}", words, n);
    }
    return text;
}

assess::Spread spread_of(const ChangesOfTime& changes) {
    assess::Spread spread;
    double sum = 0;
    for (const auto* change : changes) {
        if (!change->lateness) continue;
        sum += change->lateness->milliseconds();
        ++spread.count;
    }
    if (spread.count == 0) return spread;
    spread.mean_ms = sum / spread.count;
    double squares = 0;
    for (const auto* change : changes) {
        if (!change->lateness) continue;
        squares += std::pow(change->lateness->milliseconds() - *spread.mean_ms, 2);
    }
    if (spread.count > 1) spread.sd_ms = std::sqrt(squares / (spread.count - 1));
    return spread;
}

}  // namespace

std::string time_through_line(const assess::Assessment& assessment, int time_through) {
    const auto changes = of_time_through(assessment, time_through, false);
    const auto number = static_cast<int>(changes.size());
    const auto uncertain = static_cast<int>(of_time_through(assessment, time_through, true).size());
    const auto name = ordinal(time_through) + " time through: ";
    if (number + uncertain == 0) return name + "no changes were due";
    const auto remark = uncertain > 0 ? fmt::format("{} uncertain", uncertain) : std::string();
    if (number == 0) return name + "no changes for certain, " + remark;
    const auto time = spread_words(spread_of(changes));
    return name + plural(number, "change", "changes") + ", " + in_time_words(changes) +
           other_words(changes) + (remark.empty() ? "" : ", " + remark) +
           (time.empty() ? "" : "; " + time);
}

}  // namespace compline::report
