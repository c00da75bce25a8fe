#include "json_values.hpp"
#include "place_json.hpp"
#include "words.hpp"

#include <compline/practice/time_alone.hpp>
#include <compline/report/columns.hpp>
#include <compline/report/takes.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <string_view>
#include <vector>

namespace compline::report {

namespace {

using practice::ComparedPlace;
using practice::Comparison;
using practice::PlaceFault;
using practice::PlaceFigures;
using practice::Report;

/// Of each kind; the rest are counted.
constexpr std::size_t most_places = 12;

constexpr std::array<std::string_view, practice::place_faults> fault_words = {
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
        text += fmt::format("{}{} {} of {}{}", text.empty() ? "" : ", ", fault_words[i],
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

std::string list_text(const char* heading, const PlaceList& list, bool time_alone) {
    if (list.empty()) return "";
    std::string text = fmt::format("\n{}\n", heading);
    for (std::size_t i = 0; i < std::min(list.size(), most_places); ++i) {
        text += hanging(place_line(*list[i], time_alone), terminal_columns, 4) + "\n";
    }
    if (list.size() > most_places) {
        text += fmt::format("  and {} more (--json lists all)\n", list.size() - most_places);
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

/// Tones are compared where both have them.
std::string by_sound_line(const Comparison& comparison, const Report& before, const Report& after) {
    if (!comparison.time_alone) return "";
    const char* which = practice::judges_tones(before)  ? "The second was heard by sound"
                        : practice::judges_tones(after) ? "The first was heard by sound"
                                                        : "Both were heard by sound";
    return std::string(which) + ": time alone is compared, tones are not.\n";
}

std::string alone_text(const Comparison& comparison) {
    const auto words = [](int n, const char* which) {
        return n == 0 ? ""
                      : fmt::format("{} only in the {}\n", plural(n, "place", "places"), which);
    };
    return words(comparison.only_before, "first") + words(comparison.only_after, "second");
}

Json place_json(const ComparedPlace& place) {
    auto json = change_json(place);
    json["is"] = place.is_better() ? "better" : place.is_worse() ? "worse" : "same";
    json["before"] = figures_json(place.before);
    json["after"] = figures_json(place.after);
    return json;
}

Json take_json(const Report& report, const practice::RightChanges& changes) {
    Json json = {{"take", text_or_null(report.take)},
                 {"made", text_or_null(report.made)},
                 {"chart_hash", text_or_null(report.chart_hash)},
                 {"tempo_bpm", shortest(report.map.tempo().count())},
                 {"changes", changes.of},
                 {"right", changes.right}};
    if (!practice::judges_tones(report)) json["heard"] = listen::name_of(report.heard.heard_by);
    return json;
}

}  // namespace

std::string to_text(const Comparison& comparison, const Report& before, const Report& after) {
    const auto worse = chosen(comparison, &ComparedPlace::is_worse);
    const auto better = chosen(comparison, &ComparedPlace::is_better);
    const auto same = comparison.places.size() - worse.size() - better.size();
    const bool time_alone = comparison.time_alone;
    auto text = first_sentence(comparison, worse.size(), better.size()) +
                by_sound_line(comparison, before, after) + list_text("Worse", worse, time_alone) +
                list_text("Better", better, time_alone);
    const bool counted = same > 0 && worse.size() + better.size() > 0;
    if (counted) {
        text +=
            fmt::format("\nThe same in {}\n", plural(static_cast<int>(same), "place", "places"));
    }
    return text + alone_text(comparison);
}

std::string to_json(const Comparison& comparison, const Report& before, const Report& after) {
    Json json;
    json["schema"] = "compline.comparison/1";
    json["program"] = text_or_null(after.program);
    json["chart"] = {{"title", after.map.form().chart.title},
                     {"key", after.map.form().chart.key.name(harmony::Accidentals::letters)}};
    if (comparison.time_alone) json["time_alone"] = true;
    json["before"] = take_json(before, comparison.right_before);
    json["after"] = take_json(after, comparison.right_after);
    json["places"] = list_json(comparison.places, place_json);
    json["only_before"] = comparison.only_before;
    json["only_after"] = comparison.only_after;
    return json.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace compline::report
