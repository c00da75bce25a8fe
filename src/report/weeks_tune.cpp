#include "weeks_lines.hpp"
#include "weeks_story.hpp"
#include "weeks_tempi.hpp"
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

std::string in_time_cell(const history::ChangeSums& sums) {
    if (sums.of == 0) return "-";
    return fmt::format("{} of {}", percent(sums.share_in_time()), sums.of);
}

std::string tempi_table(const TuneWeeks& tune) {
    const auto bands = tempo_bands(tune.story.tempi);
    if (bands.empty()) return "";
    std::string text =
        "\nTempo        in time, whole tune  in time, bars of it  right tones  clean times\n";
    for (const auto& band : bands) {
        const int of = band.whole.of + band.bars.of;
        const bool tones = of > 0 && !tune.sound_ever;
        text += fmt::format("{:>7} bpm  {:>19}  {:>19}  {:>11}  {:>11}\n", band.name(),
                            in_time_cell(band.whole), in_time_cell(band.bars),
                            tones ? percent(static_cast<double>(band.right) / of) : "-",
                            fmt::format("{} of {}", band.clean, band.times));
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

/// It comes in one place alone, and that is told already.
bool is_told(const history::TransitionStory& one, const std::vector<history::PlaceStory>& places) {
    return one.bars.size() == 1 &&
           std::any_of(places.begin(), places.end(), [&](const history::PlaceStory& place) {
               return place.bar == one.bars.front() && place.from == one.from && place.to == one.to;
           });
}

std::string transitions_lines(const history::TuneStory& story) {
    std::string text;
    for (const auto& one : story.transitions) {
        if (is_told(one, story.weakest)) continue;
        const auto words = fmt::format("in time and right in {} of {}", one.sums.both, one.sums.of);
        text += hung("  " + move_words(one.from, one.to) + bars_of(one), further_in) +
                paragraph(with_course(words, course_words(one.trend)), further_in);
    }
    return text.empty() ? "" : "\nWeakest from chord to chord, wherever they come\n" + text;
}

std::string next_lines(const TuneWeeks& tune, const WeeksAsked& asked) {
    const auto next = next_of(tune);
    if (!next) return "";
    return fmt::format("\nNext     {}:\n", next->what) +
           lines_for(tune.story.tune, next->pieces, asked);
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
           places_lines(story.weakest, asked) + transitions_lines(story) +
           homework_lines_of(homework, asked) + next_lines(tune, asked);
}

}  // namespace compline::report
