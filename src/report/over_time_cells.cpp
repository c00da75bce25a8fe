#include "over_time_cells.hpp"

#include "words.hpp"

#include <compline/report/columns.hpp>
#include <compline/report/spoken_date.hpp>
#include <compline/text/printable.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <filesystem>
#include <optional>
#include <string_view>

namespace compline::report {

namespace {

using practice::PlaceFigures;
using practice::PlaceOverTime;

constexpr int widest_name = 10;  ///< of a take without a date
constexpr const char* not_played = "-";

constexpr std::array<std::string_view, practice::place_faults> short_faults = {
    "late", "early", "missed", "astray", "waited", "left out", "wrong", "lacking"};

std::string percent_right(const PlaceFigures& figures) {
    const double share = 100.0 * figures.right / figures.played();
    // "100 %" is all of it, and "0 %" none.
    const double kept = figures.right == figures.played() ? 100
                        : figures.right == 0              ? 0
                                                          : std::clamp(share, 1.0, 99.0);
    return fmt::format("{:.0f} %", kept);
}

/// The commonest where less than half was right; the share where it was half or more.
std::string cell_of(const PlaceFigures& figures, bool time_alone) {
    if (figures.played() == 0) return time_alone ? "unstruck" : "laid out";
    if (figures.right == figures.played()) return time_alone ? "in time" : "right";
    const auto* const most = std::max_element(figures.faults.begin(), figures.faults.end());
    if (2 * figures.right >= figures.played() || *most == 0) return percent_right(figures);
    return std::string(short_faults.at(static_cast<std::size_t>(most - figures.faults.begin())));
}

}  // namespace

std::string place_cell(const PlaceOverTime& place, std::size_t from, std::size_t to,
                       bool time_alone) {
    PlaceFigures figures;
    for (std::size_t i = from; i < to; ++i) {
        if (place.on[i]) figures += *place.on[i];
    }
    return figures.of == 0 ? not_played : cell_of(figures, time_alone);
}

std::string tempo_cell(EveningsInColumn evenings) {
    std::optional<practice::TempoBounds> bounds;
    for (const auto& evening : evenings) bounds = practice::around_both(bounds, evening.tempi);
    if (!bounds) return "free";
    const auto slowest = tempo_number(bounds->slowest);
    const auto fastest = tempo_number(bounds->fastest);
    return slowest == fastest ? slowest : slowest + "-" + fastest;
}

std::string key_cell(EveningsInColumn evenings) {
    const auto& first = evenings.front().keys.front();
    for (const auto& evening : evenings) {
        for (const auto& key : evening.keys) {
            if (key != first) return "several";
        }
    }
    return first.name();
}

std::string all_cell(EveningsInColumn evenings) {
    PlaceFigures all;
    for (const auto& evening : evenings) all += evening.all;
    return all.played() == 0 ? not_played : percent_right(all);
}

std::string day_cell(EveningsInColumn evenings) {
    const auto& last = evenings.back();
    if (!last.date.empty()) {
        return (evenings.size() > 1 ? "to " : "") + short_day(last.date);
    }
    if (evenings.size() > 1) return fmt::format("first {}", evenings.size());
    const auto name = std::filesystem::path(last.takes.front()).stem().string();
    return cut_to_columns(text::printable(name), widest_name);
}

std::string year_of(const std::string& date) { return date.substr(0, date.find('-')); }

}  // namespace compline::report
