#include "weeks_story.hpp"
#include "weeks_words.hpp"

#include <compline/report/day_words.hpp>
#include <compline/report/weeks.hpp>

#include <fmt/format.h>

namespace compline::report {

namespace {

constexpr int tune_indent = 4;

std::string tunes_heading(const WeeksAsked& asked) {
    const auto whose =
        asked.player.empty() ? "Your tunes" : "Tunes of " + player_words(asked.player);
    const auto since = asked.since.empty() ? "" : " since " + day_words(asked.since, asked.today);
    return fmt::format("{}{}, the last played first\n", whose, since);
}

std::string tune_lines(const TuneWeeks& tune, const WeeksAsked& asked) {
    return hung(title_words(tune.story.tune) + ": " + how_much_words(tune, asked), tune_indent) +
           paragraph(story_words(tune, asked), tune_indent);
}

std::string drill_lines(const TuneWeeks& tune, const WeeksAsked& asked) {
    return paragraph(title_words(tune.story.tune) + ": " + brief_words(tune, asked), tune_indent);
}

std::string homework_lines(const std::vector<HomeworkSoFar>& all, const WeeksAsked& asked) {
    std::string lines;
    for (const auto& one : homework_to_tell(all, asked.today)) {
        lines += paragraph(homework_name(one.homework) + ": " + so_far_words(one, asked.today),
                           tune_indent);
    }
    return lines.empty() ? "" : "\nHomework\n" + lines;
}

/// "Also here: Anna (12 evenings), Ben (3): --player NAME".
std::string others_line(const std::vector<history::PlayerSeen>& others) {
    std::string names;
    std::string nobody;
    for (const auto& other : others) {
        if (other.name.empty()) {
            nobody = fmt::format("Without a name: {} (--no-settings shows them).\n",
                                 evenings_words(other.evenings));
            continue;
        }
        names += fmt::format(
            "{}{} ({})", names.empty() ? "" : ", ", player_words(other.name),
            names.empty() ? evenings_words(other.evenings) : std::to_string(other.evenings));
    }
    const auto line =
        names.empty() ? "" : hung("Also here: " + names + ": --player NAME", tune_indent);
    return line.empty() && nobody.empty() ? "" : "\n" + line + nobody;
}

std::string nothing_words(const WeeksAsked& asked) {
    const auto whose = asked.player.empty() ? "" : " by " + player_words(asked.player);
    const auto since =
        asked.since.empty() ? " yet" : " since " + day_words(asked.since, asked.today);
    return paragraph(fmt::format("Nothing was played{}{} that was kept: each take of compline "
                                 "practice is, when it ends.",
                                 whose, since),
                     0);
}

}  // namespace

std::string weeks_text(const AllWeeks& weeks, const WeeksAsked& asked) {
    std::string tunes;
    std::string drills;
    for (const auto& tune : weeks.tunes) {
        if (tune.story.tune.drill) {
            drills += drill_lines(tune, asked);
        } else {
            tunes += "\n" + tune_lines(tune, asked);
        }
    }
    auto text = tunes.empty() && drills.empty() ? nothing_words(asked)
                : tunes.empty()                 ? std::string()
                                                : tunes_heading(asked) + tunes;
    if (!drills.empty()) text += (text.empty() ? "" : "\n") + ("Drills\n" + drills);
    return text + homework_lines(weeks.homework, asked) + others_line(weeks.others);
}

}  // namespace compline::report
