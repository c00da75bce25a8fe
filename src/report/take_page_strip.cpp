#include "take_page_strip.hpp"

#include "take_page_signs.hpp"
#include "take_page_strip_drawing.hpp"
#include "words.hpp"

#include <compline/practice/time_alone.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cstddef>

namespace compline::report {

namespace {

using practice::PlaceFault;
using practice::PlaceFigures;
using practice::Places;

std::string strip_place_words(const Places::value_type& place) {
    const auto& [where, played] = place;
    const auto beat = where.second == time::BeatOfBar(1) ? std::string()
                                                         : " beat " + plain(where.second.number());
    return fmt::format("bar {}{}", where.first, beat);
}

std::string change_words(const practice::PlaceInTakes& place) {
    const auto to = place.to.symbol();
    return place.from ? place.from->symbol() + " → " + to : to;
}

std::string strip_table(const Places& places, bool tones) {
    std::vector<std::string> heads = {"where", "change", "times", "in time and right", "faults"};
    if (!tones) heads[3] = "in time";
    PageTable table("Each change of the form, over all times through", heads);
    for (const auto& place : places) {
        const auto& figures = place.second.figures;
        table.row({strip_place_words(place), change_words(place.second), std::to_string(figures.of),
                   std::to_string(figures.right), place_fault_words(figures)});
    }
    return table.markup();
}

/// The costliest few in words.
std::string strip_says(const Places& places) {
    std::vector<const Places::value_type*> faulty;
    for (const auto& place : places) {
        if (place.second.figures.cost > 0) faulty.push_back(&place);
    }
    if (faulty.empty()) return "Every change was where it belongs.";
    std::stable_sort(faulty.begin(), faulty.end(), [](const auto* a, const auto* b) {
        return a->second.figures.cost > b->second.figures.cost;
    });
    constexpr std::size_t named = 4;
    std::string text = fmt::format("{} of {} places have faults. ", faulty.size(), places.size());
    for (std::size_t i = 0; i < std::min(faulty.size(), named); ++i) {
        text += fmt::format("{}{}, {}: {}", i == 0 ? "Most of all " : "; ",
                            strip_place_words(*faulty[i]), change_words(faulty[i]->second),
                            place_fault_words(faulty[i]->second.figures));
    }
    return text + ".";
}

/// Columns on paper: as few as leave room for the rest of the page, so that lines end as phrases
/// do.
int columns_on_paper(const StripLayout& strip) {
    constexpr double paper_width = 190;  // mm
    constexpr double most_height = 88;
    constexpr double between = 1.5;
    constexpr int most_columns = 16;
    for (int columns = 2; columns < most_columns; columns *= 2) {
        const int rows = (strip.count() + columns - 1) / columns;
        const double height = strip.height() * paper_width / columns / piece_width;
        if (rows * (height + between) <= most_height) return columns;
    }
    return most_columns;
}

}  // namespace

std::string place_fault_words(const PlaceFigures& figures) {
    std::vector<std::string> words;
    for (std::size_t i = 0; i < practice::place_faults; ++i) {
        const auto fault = static_cast<PlaceFault>(i);
        const int count = figures.count(fault);
        if (count == 0) continue;
        auto text = std::string(fault_words(fault));
        if (figures.of > 1) text += fmt::format(" {} of {} times", count, figures.of);
        const auto ms = fault == PlaceFault::late    ? figures.late_ms()
                        : fault == PlaceFault::early ? figures.early_ms()
                                                     : std::nullopt;
        if (ms) {
            text += figures.of > 1 ? fmt::format(", {:.0f} ms on average", *ms)
                                   : fmt::format(" {:.0f} ms", *ms);
        }
        words.push_back(std::move(text));
    }
    return fmt::format("{}", fmt::join(words, "; "));
}

PagePart strip_part(const practice::Report& report, const Places& places) {
    if (places.empty()) return {};
    const StripLayout strip(report, places);
    PagePart part{"strip", "Along the form", strip_says(places), "", "", ""};
    part.picture = fmt::format("<div class=\"pieces\" style=\"--on-paper: {}\">\n{}</div>\n",
                               columns_on_paper(strip), strip_pieces(strip));
    part.below = key_of_signs(places);
    part.table = strip_table(places, practice::judges_tones(report));
    return part;
}

}  // namespace compline::report
