#include "weeks_lines.hpp"
#include "weeks_story.hpp"
#include "weeks_words.hpp"
#include "words.hpp"

#include <compline/report/columns.hpp>
#include <compline/report/day_words.hpp>
#include <compline/report/weeks.hpp>

#include <fmt/format.h>

#include <algorithm>

namespace compline::report {

namespace {

constexpr int story_indent = 4;
constexpr int further_in = 8;

std::string begin_lines(const TuneWeeks& tune, const WeeksAsked& asked) {
    const auto& story = tune.story;
    const auto from = asked.since.empty() ? story.first_played : asked.since;
    auto first = fmt::format("{}: {}", title_words(story.tune), how_much_words(tune, asked));
    if (story.evenings > 1) first += ", since " + day_words(from, asked.today);
    const auto due = due_words(tune, asked);
    return hung(first, story_indent) +
           paragraph(story_words(tune, asked) + (due.empty() ? "" : " " + due), story_indent);
}

std::string tempi_table(const TuneWeeks& tune) {
    if (tune.story.tempi.empty()) return "";
    std::string text = "\nTempo    changes  in time  right tones  clean times through\n";
    for (const auto& tempo : tune.story.tempi) {
        const bool known = tempo.sums.of > 0;
        const bool tones = known && !tune.sound_ever;
        text += fmt::format("{:>3} bpm  {:>7}  {:>7}  {:>11}  {:>19}\n", tempo.bpm, tempo.sums.of,
                            known ? percent(tempo.sums.share_in_time()) : "-",
                            tones ? percent(tempo.sums.share_right()) : "-",
                            fmt::format("{} of {}", tempo.clean, tempo.times));
    }
    return text + (tune.sound_ever ? "Some of it was heard by sound: tones are not known.\n" : "");
}

std::string with_course(const std::string& words, const std::string& course) {
    return words + "; " + (course.empty() ? "too few evenings to tell" : course);
}

std::string places_lines(const std::vector<history::PlaceStory>& places, const WeeksAsked& asked) {
    std::string text;
    for (const auto& place : places) {
        text += "  " + place_words(place) + "\n" +
                paragraph(with_course(place_faults_words(place), place_course_words(place)),
                          further_in);
    }
    if (text.empty()) return "";
    const auto since = asked.since.empty() ? "" : " since " + day_words(asked.since, asked.today);
    return fmt::format("\nWeakest places of late, with the figures of all evenings{}\n{}", since,
                       text);
}

std::string bars_of(const history::TransitionStory& transition) {
    if (transition.bars.empty()) return "";
    return fmt::format(" ({} {})", transition.bars.size() == 1 ? "bar" : "bars",
                       numbers_words(transition.bars));
}

std::string transitions_lines(const std::vector<history::TransitionStory>& transitions) {
    std::string text;
    for (const auto& one : transitions) {
        const auto words = fmt::format("in time and right in {} of {}", one.sums.both, one.sums.of);
        text += hung("  " + move_words(one.from, one.to) + bars_of(one), further_in) +
                paragraph(with_course(words, course_words(one.trend)), further_in);
    }
    return text.empty() ? "" : "\nWeakest from chord to chord, wherever they come\n" + text;
}

/// A bar with the one before it and two behind it: four to loop. Behind the form a coda is alone.
std::string loop_around(int bar, int bars) {
    if (bar > bars) return bars_piece(bar, bar);
    return bars_piece(std::max(1, bar - 1), std::min(bars, bar + 2));
}

std::string next_lines(const TuneWeeks& tune, const WeeksAsked& asked) {
    const auto& story = tune.story;
    if (story.weakest.empty()) return "";
    const int bar = story.weakest.front().bar;
    const auto tempo = story.then_and_now && story.then_and_now->now_bpm > 0
                           ? "--tempo " + beats_words(story.then_and_now->now_bpm)
                           : "";
    return fmt::format("\nNext     bar {}{}:\n", bar,
                       bar > 1 && bar <= tune.bars ? ", with the bar to come from" : "") +
           lines_for(story.tune, {loop_around(bar, tune.bars), tempo}, asked);
}

std::string homework_lines_of(const std::vector<HomeworkSoFar>& all, const WeeksAsked& asked) {
    std::string text;
    for (const auto& one : all) {
        text += paragraph(homework_name(one.homework) + ": " + so_far_words(one, asked.today), 2);
    }
    return text.empty() ? "" : "\nHomework\n" + text;
}

}  // namespace

std::string tune_text(const TuneWeeks& tune, const std::vector<HomeworkSoFar>& homework,
                      const WeeksAsked& asked) {
    const auto& story = tune.story;
    const bool is_weak = !story.weakest.empty() || !story.transitions.empty();
    return begin_lines(tune, asked) + tempi_table(tune) +
           (is_weak ? "" : "\nNo place is weak that was played often enough to say so.\n") +
           places_lines(story.weakest, asked) + transitions_lines(story.transitions) +
           homework_lines_of(homework, asked) + next_lines(tune, asked);
}

}  // namespace compline::report
