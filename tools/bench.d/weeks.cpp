#include "weeks.hpp"

#include "benches.hpp"
#include "measure.d/weeks.hpp"

#include <compline/history/advice.hpp>
#include <compline/history/story.hpp>

#include <fmt/format.h>

namespace compline::bench {

namespace {

void print_weeks_row(double better, double noise, int evenings, int players, std::uint64_t seed) {
    const measure::SimulatedWeeks weeks{evenings, better, noise};
    const auto found = measure::trends_found(weeks, players, seed);
    const auto share = [&](int count) { return 100.0 * count / found.players; };
    fmt::print(
        "| {:>6.0f} points | {:>5.0f} points | {:>8} | {:>6.1f} % | {:>6.1f} % | {:>7.1f} % |\n",
        better * 100, noise * 100, evenings, share(found.better), share(found.worse),
        share(better > 0 ? found.plainly_better : found.plainly_better + found.plainly_worse));
}

/// The store has read them: what is measured is thinking alone.
Row advised(Pace pace, int evenings, int tunes) {
    const auto years = measure::years_of_practice(evenings, tunes, 26);
    const history::Today today{"2026-11-30", 20};
    const auto took = measure(pace, [&] { keep(history::advice(years, {}, today)); });
    return {fmt::format("advice after {} evenings on {} tunes", evenings, tunes), took,
            "without reading them"};
}

Row told(Pace pace, int evenings) {
    const auto years = measure::years_of_practice(evenings, 1, 26);
    const auto took = measure(pace, [&] { keep(history::story_of(years.front())); });
    return {fmt::format("the story of a tune of {} evenings", evenings), took,
            "without reading them"};
}

Row compared(Pace pace, int evenings) {
    const auto years = measure::years_of_practice(evenings, 1, 26);
    const auto took = measure(pace, [&] { keep(history::like_for_like(years.front())); });
    return {fmt::format("{} evenings of 40 places like for like", evenings), took, ""};
}

}  // namespace

std::vector<Row> weeks_of_practice(Pace pace) {
    return {advised(pace, 1000, 12), advised(pace, 10000, 40), told(pace, 100), told(pace, 1000),
            compared(pace, 3000)};
}

void print_weeks(int players, std::uint64_t seed) {
    fmt::print(
        "{} players a row, seed {}: better after eight evenings by so much, evenings that differ\n"
        "by so much; plain: had evenings not been compared like for like\n\n"
        "| better        | noise        | evenings | better   | worse    | plain     |\n"
        "|--------------:|-------------:|---------:|---------:|---------:|----------:|\n",
        players, seed);
    for (const double better : {0.1, 0.0}) {
        for (const double noise : {0.0, 0.02, 0.03, 0.05}) {
            for (const int evenings : {8, 10, 12, 16, 24})
                print_weeks_row(better, noise, evenings, players, seed);
        }
    }
}

}  // namespace compline::bench
