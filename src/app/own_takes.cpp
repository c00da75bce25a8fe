#include "own_takes.hpp"

#include "session_files.hpp"
#include "take_history.hpp"
#include "take_input.hpp"

#include <compline/chart/chart_hash.hpp>
#include <compline/practice/scoring.hpp>
#include <compline/practice/together.hpp>
#include <compline/report/spoken_date.hpp>
#include <compline/report/weakest.hpp>
#include <compline/text/bad_input.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <optional>
#include <system_error>

namespace compline::app {

namespace fs = std::filesystem;

namespace {

/// What was weak a month ago may be strong now.
constexpr std::size_t takes_judged = 5;
/// A take is read in a few milliseconds.
constexpr std::size_t takes_looked_at = 200;

/// Their names are dates: the newest first.
std::vector<fs::path> newest_files() {
    auto files = own_take_files();
    std::reverse(files.begin(), files.end());
    if (files.size() > takes_looked_at) files.resize(takes_looked_at);
    return files;
}

std::optional<practice::Report> judged(const fs::path& file, const chart::Form& form,
                                       const std::string& hash) {
    try {
        const auto take = read_take_file(file.string(), practice::TakeTexts::read).take;
        if (!take.info || take.info->chart_hash != hash) return std::nullopt;
        auto report = practice::hear_and_judge(form, take, {});
        if (anything_struck(report)) return report;
    } catch (const text::BadInput&) {
        // Somebody else's file, or one that is damaged: not what was asked for.
    }
    return std::nullopt;
}

std::string takes_words(const std::vector<practice::Report>& takes) {
    const auto& made = takes.front().made;
    const auto newest = made.empty() ? "" : ", of " + report::spoken_date(made);
    if (takes.size() == 1) return "your last take of it" + newest;
    return fmt::format("your last {} takes of it{}", takes.size(), newest);
}

}  // namespace

std::vector<practice::Report> newest_takes(const chart::Form& form) {
    const auto hash = chart::chart_hash(form.chart);
    std::vector<practice::Report> takes;
    for (const auto& file : newest_files()) {
        if (takes.size() == takes_judged) break;
        if (auto report = judged(file, form, hash)) takes.push_back(*std::move(report));
    }
    return takes;
}

WeakestBars weakest_bars(const chart::Form& form) {
    const auto takes = newest_takes(form);
    if (takes.empty()) {
        throw text::BadInput(
            "--weakest: there is no take of this chart among yours: practise it once without "
            "--weakest, and what you play is kept");
    }
    const auto all = practice::together(takes).value_or(takes.front());
    if (!all.assessment.weakest) {
        return {"",
                fmt::format("no bars are weak in {}: it is the whole tune", takes_words(takes))};
    }
    const auto& weakest = *all.assessment.weakest;
    const bool run_in = weakest.loop.from < weakest.from_bar;
    return {
        fmt::format("{}-{}", weakest.loop.from, weakest.loop.to),
        fmt::format("the weakest are {}, by {}{}", report::weakest_words(all), takes_words(takes),
                    run_in ? fmt::format("; with bar {} to come from", weakest.loop.from) : "")};
}

}  // namespace compline::app
