#include "weeks_homework.hpp"

#include "weeks_lines.hpp"
#include "weeks_words.hpp"
#include "words.hpp"

#include <compline/practice/ladder.hpp>
#include <compline/report/chart_rows.hpp>
#include <compline/report/columns.hpp>
#include <compline/report/day_words.hpp>
#include <compline/report/weeks.hpp>
#include <compline/text/words.hpp>

#include <fmt/format.h>

namespace compline::report {

namespace {

constexpr int beside_names = 13;

/// "What to do   ..." with its text beside it.
std::string section(const std::string& name, const std::string& text) {
    return "\n" + hung(padded(name, beside_names) + text, beside_names);
}

bool is_long(const history::Homework& homework) {
    return homework.to_bar - homework.from_bar + 1 >= practice::Ladder::many_bars;
}

std::string rows(const HomeworkSheet& sheet) {
    const auto& homework = sheet.homework;
    std::string text;
    for (const auto& row : chart_rows(sheet.form, {homework.from_bar, homework.to_bar}).rows) {
        text += row.text() + "\n";
    }
    return text;
}

std::string grips_part(const Voicings& grips, Hand hand) {
    auto text = "\nGrips that lie well, round and round\n\n" + grips_text(grips, hand);
    while (text.size() > 1 && text[text.size() - 2] == '\n') text.pop_back();
    return text;
}

std::string others_words(const std::vector<std::string>& others) {
    if (others.empty()) return "";
    std::vector<std::string> names;
    for (const auto& name : others) {
        names.push_back(name.empty() ? "somebody without a name (--no-settings)"
                                     : player_words(name));
    }
    return "\n" + hung("Also for " + text::listed(names) + ": --player NAME", 4);
}

}  // namespace

std::string whose_words(const history::Homework& homework) {
    return homework.player.empty() ? "Homework" : "Homework for " + player_words(homework.player);
}

std::string what_to_do(const history::Homework& homework) {
    return fmt::format(
        "{} over and over with the band, from {} up to {} bpm. {} clean and it goes 4 % faster; "
        "two that are not, one after the other, and it goes slower. Once the top is clean, once "
        "through the section around it.",
        homework.from_bar == homework.to_bar
            ? fmt::format("Bar {}", homework.from_bar)
            : fmt::format("Bars {}-{}", homework.from_bar, homework.to_bar),
        beats_words(homework.from_bpm), beats_words(homework.to_bpm),
        is_long(homework) ? "A time through that is" : "Two times through in a row that are");
}

std::string done_when(const history::Homework& homework) {
    return fmt::format(
        "It is clean at {} bpm, {}, on two days. Clean is: three quarters of the changes or more "
        "are struck, nine in ten of these in time and with the right tones, and none is missed.",
        beats_words(homework.to_bpm),
        is_long(homework) ? "once through" : "two times through in a row");
}

std::string homework_text(const HomeworkSheet& sheet, const WeeksAsked& asked) {
    const auto& homework = sheet.homework;
    const auto text = hung(fmt::format("{}, given {}{}", whose_words(homework),
                                       on_day(homework.given, asked.today),
                                       sheet.is_new ? "" : ": it was kept already"),
                           4) +
                      fmt::format("{}, {}, key of {}\n\n", title_words(homework.tune),
                                  bars_words({homework.from_bar, homework.to_bar}),
                                  sheet.form.bar(homework.from_bar).key.name()) +
                      rows(sheet) + section("What to do", what_to_do(homework)) +
                      section("Done when", done_when(homework)) + "\nType\n" +
                      homework_line(homework, asked).in_lines() + section("Take care", take_care);
    return text + (sheet.grips ? grips_part(*sheet.grips, sheet.hand) : "");
}

std::string homework_text(const std::vector<HomeworkSoFar>& all,
                          const std::vector<std::string>& others, const WeeksAsked& asked) {
    const auto whose = asked.player.empty() ? "" : " for " + player_words(asked.player);
    if (all.empty()) {
        return fmt::format("No homework{} is given. To give some:\n", whose) +
               CommandLine{"homework", "CHART", {"--bars 9-12", "--ladder 96-120"}, {}}.in_lines() +
               others_words(others);
    }
    std::string text = fmt::format("Homework{}\n", whose);
    for (const auto& one : all) {
        const auto& homework = one.homework;
        text += "\n" + hung(fmt::format("{}: {}, given {}", homework_name(homework),
                                        so_far_words(one, asked.today),
                                        on_day(homework.given, asked.today)),
                            4);
        if (one.is_done()) continue;
        const auto lost = lost_chart_words(homework.tune, asked);
        if (!lost.empty()) text += paragraph(lost, 4);
        text += homework_line(homework, asked).in_lines();
    }
    return text + others_words(others);
}

}  // namespace compline::report
