#include "first_sentence.hpp"

#include "change_words.hpp"
#include "habit_lines.hpp"
#include "problems.hpp"
#include "words.hpp"

#include <compline/practice/time_alone.hpp>

#include <fmt/format.h>

#include <algorithm>

namespace compline::report {

namespace {

using assess::Verdict;

std::string none_struck(int due) {
    return due == 1 ? "The one change was not struck"
                    : fmt::format("None of the {} changes was struck", due);
}

std::string what_else(const practice::Report& report) {
    if (!heard_nothing(report.assessment)) {
        return ", though you played. Was it this chart, and these bars?";
    }
    return practice::judges_tones(report)
               ? ". Is the MIDI pickup connected, and on the right channel?"
               : ". Is the guitar plugged in, and loud enough?";
}

/// The fault that costs most; a stretch astray as much as its changes.
std::string worst(const practice::Report& report, const FaultLines& faults) {
    const auto& assessment = report.assessment;
    const auto astray =
        std::max_element(assessment.astray.begin(), assessment.astray.end(),
                         [](const auto& a, const auto& b) { return a.changes < b.changes; });
    const double of_habits = assessment.habits.empty() ? 0 : assessment.habits.front().cost;
    if (!faults.astray.empty() && astray->changes > of_habits) {
        return "where you are in " + bars_of(*astray);
    }
    if (!assessment.habits.empty()) return to_work_on(assessment.habits.front());
    if (const auto& weakest = assessment.weakest) {
        return fmt::format("bars {} to {}", weakest->from_bar, weakest->to_bar);
    }
    for (const auto& change : assessment.changes) {
        if (!change.uncertain && change.cost() > 0) return fmt::format("bar {}", change.bar);
    }
    return "";
}

std::string so_many(int number, int of) {
    return number == of ? "All" : fmt::format("{} of", number);
}

/// "27 of 32 changes in time, 28 with the right tones".
std::string counted(const practice::Report& report) {
    const auto& assessment = report.assessment;
    const auto& totals = assessment.totals;
    const int laid_out = totals.count(Verdict::laid_out);
    const auto [landed, of] = in_time(assessment);
    const int right = totals.right_tones;
    const auto changes =
        laid_out > 0
            ? fmt::format("{} the {} changes that you played", so_many(landed, of), of)
            : fmt::format("{} {} in time", so_many(landed, of), plural(of, "change", "changes"));
    const auto time = laid_out > 0 ? changes + " in time" : changes;
    if (!practice::judges_tones(report)) return time;
    if (right == of) return time + (landed == of ? " and" : ", all") + " with the right tones";
    return fmt::format("{}, {} with the right tones", time, right);
}

/// The option in a line of its own, to be pasted.
std::string hint_lines(const practice::Hint& hint) {
    const auto option = hint.words.rfind(" " + hint.option);
    if (option == std::string::npos) return hint.words;
    return hint.words.substr(0, option) + "\n    " + hint.option;
}

}  // namespace

std::string first_sentence(const practice::Report& report, const FaultLines& faults) {
    const auto& assessment = report.assessment;
    const int due = assessment.totals.changes;
    const int struck = count_certain(assessment.changes, was_struck);
    if (due == 0) {
        return assessment.totals.uncertain > 0 ? "No change can be judged for certain."
                                               : "No changes were due.";
    }
    if (!report.hints.empty()) {
        const auto so_far = struck == 0 ? none_struck(due) : counted(report);
        return so_far + ".\n" + hint_lines(report.hints.front());
    }
    if (struck == 0) return none_struck(due) + what_else(report);
    if (struck * 2 < due && faults.empty()) {
        return fmt::format("Only {} of {} changes {} struck: too little to say what to mend.",
                           struck, due, struck == 1 ? "was" : "were");
    }
    const auto work = worst(report, faults);
    if (!work.empty()) return counted(report) + ": work on " + work + ".";
    if (!remarks_on_all(report).empty()) return counted(report) + ".";
    const auto* const where = practice::judges_tones(report) ? "" : " in your time";
    return counted(report) + ": nothing to mend" + where + ".";
}

}  // namespace compline::report
