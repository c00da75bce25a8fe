#include "over_time_rows.hpp"
#include "over_time_table.hpp"
#include "words.hpp"

#include <compline/report/columns.hpp>
#include <compline/report/over_time.hpp>
#include <compline/report/practice_command.hpp>
#include <compline/report/spoken_date.hpp>
#include <compline/text/printable.hpp>

#include <fmt/format.h>

#include <algorithm>

namespace compline::report {

namespace {

using practice::Became;
using practice::OverTime;
using practice::PlaceFigures;

constexpr std::size_t most_others = 3;

std::string own_line(const std::string& text) { return hanging(text, terminal_columns, 0) + "\n"; }

std::string places_words(int n) { return plural(n, "place", "places"); }

std::string right_of(const PlaceFigures& figures) {
    return fmt::format("{} of {}", figures.right, figures.played());
}

std::string right_or_in_time(const OverTime& over) {
    return over.time_alone ? "in time" : "right and in time";
}

// When it was.

int dated(const OverTime& over) {
    return static_cast<int>(
        std::count_if(over.evenings.begin(), over.evenings.end(),
                      [](const auto& evening) { return !evening.date.empty(); }));
}

/// "from 3 November to 28 November, over 6 evenings".
std::string when_words(const OverTime& over) {
    const int evenings = dated(over);
    const int others = static_cast<int>(over.evenings.size()) - evenings;
    const auto undated = plural(others, "take", "takes") + " without a date";
    if (evenings == 0) return "over " + undated + ", in order of their names";
    const auto& first = over.evenings.front().date;
    const auto& last = over.evenings[static_cast<std::size_t>(evenings - 1)].date;
    const auto year = first.substr(0, 4) == last.substr(0, 4) ? WithYear::no : WithYear::yes;
    const auto days = evenings == 1 ? "on " + spoken_day(first, year)
                                    : fmt::format("from {} to {}", spoken_day(first, year),
                                                  spoken_day(last, year));
    return fmt::format("{}, over {}{}", days, plural(evenings, "evening", "evenings"),
                       others == 0 ? "" : " and " + undated);
}

// How it went.

/// "better in 5 places, worse in 1, the same in 10": the first number with its word.
std::string became_words(const OverTime& over) {
    const int better = over.count(Became::better);
    const int worse = over.count(Became::worse);
    const int same = over.count(Became::same);
    if (better + worse == 0) return "The same in all " + places_words(same);
    const auto number = [](int n) { return n == 0 ? "none" : std::to_string(n); };
    return fmt::format("Better in {}, worse in {}, the same in {}",
                       better == 0 ? "none" : places_words(better),
                       better == 0 ? places_words(worse) : number(worse), number(same));
}

PlaceFigures of_all(const OverTime& over) {
    PlaceFigures all;
    for (const auto& evening : over.evenings) all += evening.all;
    return all;
}

std::string one_evening_words(const OverTime& over) {
    const auto& date = over.evenings.front().date;
    const auto when = date.empty() ? "One take alone, without a date"
                                   : "One evening alone, " + spoken_day(date, WithYear::no);
    const auto takes = over.takes > 1 ? fmt::format(", {} takes", over.takes) : "";
    return fmt::format("{}{}: {} {}. What gets better shows from the second on.", when, takes,
                       right_or_in_time(over), right_of(of_all(over)));
}

std::string over_time_sentence(const OverTime& over) {
    if (over.evenings.size() == 1) return one_evening_words(over);
    const auto compared = over.places.size() - static_cast<std::size_t>(over.count(Became::once));
    if (compared == 0) {
        return fmt::format("No place was played on two evenings, {}: {} {}.", when_words(over),
                           right_or_in_time(over), right_of(of_all(over)));
    }
    return fmt::format("{}, {}: {} {}, then {}.", became_words(over), when_words(over),
                       right_or_in_time(over), right_of(over.before), right_of(over.after));
}

std::string how_compared(const OverTime& over, std::size_t joined) {
    std::string text;
    const bool thirds = std::any_of(over.places.begin(), over.places.end(),
                                    [](const auto& place) { return place.evenings > 2; });
    if (thirds) {
        text += "Compared: the first third of each place's evenings and the last third.\n";
    }
    if (joined > 1) text += fmt::format("The first {} evenings share a column.\n", joined);
    if (over.in_several_keys()) {
        text += fmt::format("Chords are named in {}, the key of the last take.\n", over.key.name());
    }
    if (over.takes_by_sound > 0) {
        text += own_line(
            over.takes_by_sound == over.takes
                ? "Only sound was heard: time alone is compared, tones are not."
                : fmt::format("Of {} only sound was heard: time alone is compared, tones are not.",
                              plural(over.takes_by_sound, "take", "takes")));
    }
    return text;
}

std::string cells_explained(const OverTime& over) {
    return own_line(fmt::format(
        "A share is what was {}, a word the commonest fault where most was not{}; - is not "
        "played.",
        right_or_in_time(over), over.time_alone ? "" : " (wrong, lacking: its tones)"));
}

}  // namespace

std::string in_words(const std::vector<OtherTune>& others) {
    if (others.empty()) return "";
    std::string text = "\nOther tunes here\n";
    for (std::size_t i = 0; i < std::min(others.size(), most_others); ++i) {
        const auto& other = others[i];
        text += own_line(fmt::format("  {}{}, {}", text::printable(other.title),
                                     other.other_bars ? " by a chart with other bars" : "",
                                     plural(other.takes, "take", "takes")));
        text += CommandLine{"", "", other.words, {}}.in_lines();
    }
    if (others.size() > most_others) {
        text += fmt::format("  and {} more (--json names all)\n", others.size() - most_others);
    }
    return text;
}

std::string to_text(const OverTime& over, const std::vector<OtherTune>& others, Listing listing) {
    const auto rows = rows_to_list(over, listing);
    const auto table = over_time_table(over, rows);
    return own_line(text::printable(over.title, terminal_columns)) +
           own_line(over_time_sentence(over)) + how_compared(over, table.joined) + "\n" +
           table.text + "\n" + not_listed_line(over, rows) + cells_explained(over) +
           in_words(others);
}

}  // namespace compline::report
