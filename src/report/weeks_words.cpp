#include "weeks_words.hpp"

#include "words.hpp"

#include <compline/harmony/chord.hpp>
#include <compline/history/trend.hpp>
#include <compline/report/columns.hpp>
#include <compline/report/day_words.hpp>
#include <compline/text/printable.hpp>
#include <compline/text/words.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <iterator>
#include <string_view>

namespace compline::report {

namespace {

constexpr int title_columns = 40;
constexpr int name_columns = 24;

/// A symbol as it was kept, with the signs that a terminal shows.
std::string with_signs(const std::string& letters) {
    try {
        return harmony::read_chord(letters).symbol();
    } catch (const text::BadInput&) {
        return text::printable(letters);
    }
}

/// Keeps a number and what it counts on one line while lines are made.
constexpr std::string_view no_break = "\u00A0";

std::string with_numbers_held(const std::string& text) {
    std::string held;
    for (std::size_t i = 0; i < text.size(); ++i) {
        const bool behind_digit = i > 0 && text[i - 1] >= '0' && text[i - 1] <= '9';
        if (text[i] == ' ' && behind_digit) {
            held += no_break;
        } else {
            held += text[i];
        }
    }
    return held;
}

std::string with_blanks(std::string text) {
    for (auto at = text.find(no_break); at != std::string::npos; at = text.find(no_break, at)) {
        text.replace(at, no_break.size(), " ");
    }
    return text;
}

std::string lines_held(const std::string& text, int first_indent, int indent) {
    const auto first = std::string(static_cast<std::size_t>(first_indent), ' ');
    return with_blanks(hanging(first + with_numbers_held(text), terminal_columns,
                               static_cast<std::size_t>(indent))) +
           "\n";
}

}  // namespace

std::string title_words(const history::KnownTune& tune) {
    if (tune.title.empty()) return "a tune without a title";
    return cut_to_columns(text::printable(tune.title, std::string::npos), title_columns);
}

std::string player_words(const std::string& name) {
    return cut_to_columns(text::printable(name, std::string::npos), name_columns);
}

std::string move_words(const std::string& from, const std::string& to) {
    return from.empty() ? with_signs(to) : with_signs(from) + " → " + with_signs(to);
}

std::string percent(double share) { return fmt::format("{:.0f} %", std::round(share * 100)); }

std::string duration_words(double seconds) {
    const auto minutes = std::lround(seconds / 60);
    if (minutes < 1) return "under a minute";
    if (minutes < 100) return fmt::format("{} min", minutes);
    return fmt::format("{} h {} min", minutes / 60, minutes % 60);
}

std::string evenings_words(int evenings) { return plural(evenings, "evening", "evenings"); }

std::string beats_words(double bpm) { return fmt::format("{:.0f}", bpm); }

std::string numbers_words(const std::vector<int>& numbers) {
    std::vector<std::string> words;
    for (const int number : numbers) words.push_back(std::to_string(number));
    return text::listed(words);
}

std::string paragraph(const std::string& text, int indent) {
    return lines_held(text, indent, indent);
}

std::string hung(const std::string& text, int indent) { return lines_held(text, 0, indent); }

std::string place_words(const history::PlaceStory& place) {
    const auto at = place.beat.number() == 1 ? std::string()
                                             : fmt::format(" beat {}", plain(place.beat.number()));
    return fmt::format("bar {}{}  {}", place.bar, at, move_words(place.from, place.to));
}

std::string place_faults_words(const history::PlaceStory& place) {
    std::string words;
    const auto add = [&](const char* what, int cases, const std::string& more = "") {
        if (cases == 0) return;
        words += words.empty() ? fmt::format("{} in {} of {}{}", what, cases, place.sums.of, more)
                               : fmt::format(", {} in {}{}", what, cases, more);
    };
    add("late", place.late,
        place.late_ms >= 1 ? fmt::format(", {:.0f} ms on average", place.late_ms) : "");
    add("early", place.early);
    add("missed", place.missed);
    add("waited", place.waits);
    add("wrong tones", place.wrong);
    add("tones missing", place.incomplete);
    if (!words.empty()) return words;
    return fmt::format("in time and right in {} of {}", place.sums.both, place.sums.of);
}

std::string course_words(const history::Trend& trend) {
    switch (trend.course) {
        case history::Course::too_few:
            return "";
        case history::Course::none:
            return "no change to be seen";
        case history::Course::better:
            return "better";
        case history::Course::worse:
            return "worse";
    }
    return "";
}

std::string place_course_words(const history::PlaceStory& place) {
    constexpr int worth_saying = 3;
    constexpr int worth_counting = 20;
    if (place.stuck_for < worth_saying || place.trend.course == history::Course::better) {
        return course_words(place.trend);
    }
    if (place.stuck_for > worth_counting) return "no better for a long time";
    return fmt::format("no better for {} evenings", place.stuck_for);
}

std::vector<HomeworkSoFar> homework_to_tell(const std::vector<HomeworkSoFar>& all,
                                            const std::string& today) {
    constexpr int days_after = 14;
    const auto is_told = [&](const HomeworkSoFar& one) {
        if (!one.is_done()) return true;
        const auto done = history::days_of(one.clean_on.back());
        const auto now = history::days_of(today);
        return done && now && *now - *done < days_after;
    };
    std::vector<HomeworkSoFar> told;
    std::copy_if(all.begin(), all.end(), std::back_inserter(told), is_told);
    return told;
}

std::string so_far_words(const HomeworkSoFar& homework, const std::string& today) {
    if (homework.is_done()) return "done " + on_day(homework.clean_on.back(), today);
    if (homework.clean_on.empty()) {
        return fmt::format("not clean at {} yet", beats_words(homework.homework.to_bpm));
    }
    return fmt::format("clean at {} on {} of {} days", beats_words(homework.homework.to_bpm),
                       homework.clean_on.size(), history::days_wanted);
}

std::string homework_name(const history::Homework& homework) {
    return fmt::format("{} of {}, {} to {} bpm", bars_words({homework.from_bar, homework.to_bar}),
                       title_words(homework.tune), beats_words(homework.from_bpm),
                       beats_words(homework.to_bpm));
}

}  // namespace compline::report
