#include "words.hpp"

#include <compline/practice/evening_date.hpp>
#include <compline/practice/time_alone.hpp>
#include <compline/report/columns.hpp>
#include <compline/report/spoken_date.hpp>
#include <compline/report/takes.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <set>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace compline::report {

namespace {

using practice::ComparedPlace;
using practice::Comparison;
using practice::PlaceFault;
using practice::PlaceFigures;
using practice::Report;
using ComparedTakes = std::span<const Report>;

/// Of each kind; the rest are counted.
constexpr std::size_t most_places = 12;

constexpr std::array<std::string_view, practice::place_faults> compared_fault_words = {
    "late", "early", "missed", "astray", "waited", "left out", "wrong tones", "tones missing"};

std::string by_words(const PlaceFigures& figures, PlaceFault fault) {
    const auto ms = fault == PlaceFault::late ? figures.late_ms() : figures.early_ms();
    const bool timed = fault == PlaceFault::late || fault == PlaceFault::early;
    return timed && ms ? fmt::format(" by {:.0f} ms", *ms) : "";
}

/// "late 3 of 3 by 98 ms, wrong tones 1 of 3"; "right 3 of 3" where there is no fault.
std::string figures_words(const PlaceFigures& figures, bool time_alone) {
    std::string text;
    for (std::size_t i = 0; i < practice::place_faults; ++i) {
        if (figures.faults[i] == 0) continue;
        text += fmt::format("{}{} {} of {}{}", text.empty() ? "" : ", ", compared_fault_words[i],
                            figures.faults[i], figures.of,
                            by_words(figures, static_cast<PlaceFault>(i)));
    }
    if (!text.empty()) return text;
    if (figures.laid_out == figures.of) {
        return fmt::format("{1} {0} of {0}", figures.of, time_alone ? "not struck" : "laid out");
    }
    return fmt::format("{} {} of {}", time_alone ? "in time" : "right",
                       figures.of - figures.laid_out, figures.of);
}

std::string place_line(const ComparedPlace& place, bool time_alone) {
    auto where = fmt::format("bar {}", place.bar);
    if (place.beat != time::BeatOfBar(1)) {
        where += fmt::format(" beat {}", plain(place.beat.number()));
    }
    const auto from = place.from ? place.from->symbol() + " → " : std::string();
    return fmt::format("  {}  {}{}: {}; then {}", where, from, place.to.symbol(),
                       figures_words(place.before, time_alone),
                       figures_words(place.after, time_alone));
}

using PlaceList = std::vector<const ComparedPlace*>;

/// What differs most comes first; of equals what comes first in the form.
PlaceList chosen(const Comparison& comparison, bool (ComparedPlace::*is)() const) {
    PlaceList list;
    for (const auto& place : comparison.places) {
        if ((place.*is)()) list.push_back(&place);
    }
    std::stable_sort(list.begin(), list.end(), [](const auto* a, const auto* b) {
        return std::fabs(a->gain()) > std::fabs(b->gain());
    });
    return list;
}

std::string list_text(const char* heading, const PlaceList& list, bool time_alone,
                      Listing listing) {
    if (list.empty()) return "";
    std::string text = fmt::format("\n{}\n", heading);
    const auto listed = listing == Listing::all ? list.size() : std::min(list.size(), most_places);
    for (std::size_t i = 0; i < listed; ++i) {
        text += hanging(place_line(*list[i], time_alone), terminal_columns, 4) + "\n";
    }
    if (list.size() > listed) {
        text += fmt::format("  and {} more (--all lists them)\n", list.size() - listed);
    }
    return text;
}

std::string right_words(const practice::RightChanges& changes) {
    return fmt::format("{} of {}", changes.right, changes.of);
}

std::string first_sentence(const Comparison& comparison, std::size_t worse, std::size_t better) {
    const auto right =
        fmt::format("{} {}, then {}", comparison.time_alone ? "in time" : "right and in time",
                    right_words(comparison.right_before), right_words(comparison.right_after));
    if (comparison.places.empty()) {
        return fmt::format("The two have no place in common: {}.\n", right);
    }
    const auto places = [](std::size_t n) {
        return plural(static_cast<int>(n), "place", "places");
    };
    if (worse + better == 0) {
        return fmt::format("The same in all {}: {}.\n", places(comparison.places.size()), right);
    }
    if (worse == 0) return fmt::format("Better in {}, worse in none: {}.\n", places(better), right);
    return fmt::format("Better in {}, worse in {}: {}.\n", better == 0 ? "none" : places(better),
                       better == 0 ? places(worse) : std::to_string(worse), right);
}

/// Tones are compared where all have them.
std::string by_sound_line(const Comparison& comparison, ComparedTakes before, ComparedTakes after) {
    if (!comparison.time_alone) return "";
    const auto by_sound = [](ComparedTakes takes) {
        return takes.size() - static_cast<std::size_t>(std::count_if(takes.begin(), takes.end(),
                                                                     practice::judges_tones));
    };
    const auto first = by_sound(before);
    const auto second = by_sound(after);
    const bool all = first == before.size() && second == after.size();
    const bool of_two = before.size() == 1 && after.size() == 1;
    const char* which = all && of_two ? "Both were heard by sound"
                        : all         ? "All were heard by sound"
                        : !of_two     ? "Some were heard by sound"
                        : second > 0  ? "The second was heard by sound"
                                      : "The first was heard by sound";
    return std::string(which) + ": time alone is compared, tones are not.\n";
}

/// "5 takes, 3 November to 12 November"; no day where none is known.
std::string takes_words(ComparedTakes takes, WithYear year) {
    auto words = plural(static_cast<int>(takes.size()), "take", "takes");
    const auto first = practice::evening_of(takes.front().made);
    if (first.empty()) return words;
    auto last = first;
    for (const auto& take : takes) {
        if (const auto day = practice::evening_of(take.made); !day.empty()) last = day;
    }
    words += ", " + spoken_day(first, year);
    return first == last ? words : words + " to " + spoken_day(last, year);
}

/// Where there are several, what stands for each side.
std::string sides_line(ComparedTakes before, ComparedTakes after) {
    if (before.size() == 1 && after.size() == 1) return "";
    std::set<std::string> years;
    for (const auto& takes : {before, after}) {
        for (const auto& take : takes) {
            const auto day = practice::evening_of(take.made);
            if (!day.empty()) years.insert(day.substr(0, 4));
        }
    }
    const auto year = years.size() > 1 ? WithYear::yes : WithYear::no;
    return hanging(fmt::format("First {}; then {}.", takes_words(before, year),
                               takes_words(after, year)),
                   terminal_columns, 0) +
           "\n";
}

std::string alone_text(const Comparison& comparison) {
    const auto words = [](int n, const char* which) {
        return n == 0 ? ""
                      : fmt::format("{} only in the {}\n", plural(n, "place", "places"), which);
    };
    return words(comparison.only_before, "first") + words(comparison.only_after, "second");
}

}  // namespace

std::string to_text(const Comparison& comparison, ComparedTakes before, ComparedTakes after,
                    Listing listing) {
    const auto worse = chosen(comparison, &ComparedPlace::is_worse);
    const auto better = chosen(comparison, &ComparedPlace::is_better);
    const auto same = chosen(comparison, &ComparedPlace::is_same);
    const bool time_alone = comparison.time_alone;
    auto text = first_sentence(comparison, worse.size(), better.size()) +
                sides_line(before, after) + by_sound_line(comparison, before, after) +
                list_text("Worse", worse, time_alone, listing) +
                list_text("Better", better, time_alone, listing);
    if (listing == Listing::all) {
        text += list_text("The same", same, time_alone, listing);
    } else if (!same.empty() && worse.size() + better.size() > 0) {
        text += fmt::format("\nThe same in {}\n",
                            plural(static_cast<int>(same.size()), "place", "places"));
    }
    return text + alone_text(comparison);
}

}  // namespace compline::report
