#include "offers.hpp"

#include "benches.hpp"
#include "measure.d/offers.hpp"

#include <compline/practice/offers.hpp>
#include <compline/simulate/played.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <functional>
#include <vector>

namespace compline::bench {

namespace {

void print_row(measure::Misplayed misplayed, const measure::OfferFigures& it, int show) {
    fmt::print("| {:<20} | {:>5} | {:>5.1f} % | {:>5} | {:>4} | {:>8} | {:>8.1f} % |\n",
               name_of(misplayed), it.takes, 100.0 * it.right / std::max(it.takes, 1), it.other,
               it.none(), it.doubtful, 100 * it.right_rate());
    const auto shown = std::min(it.slips.size(), static_cast<std::size_t>(show));
    for (std::size_t i = 0; i < shown; ++i) fmt::print("    {}\n", it.slips[i]);
}

double seconds_of(const std::function<void()>& work) {
    const auto begin = std::chrono::steady_clock::now();
    work();
    return std::chrono::duration<double>(std::chrono::steady_clock::now() - begin).count();
}

/// Ten minutes of the 32-bar chart, by so many times its tempo: to be judged by the chart's own.
practice::Take ten_minutes(const chart::Form& form, double faster) {
    auto asked = roadmap::Asked::of(form.whole(), std::nullopt);
    asked.tempo = time::Bpm(form.chart.tempo.count() * faster);
    const roadmap::RoadMap whole(form, asked);
    const double times = time::Seconds(600) / whole.time_of(whole.start(2));
    const auto map = whole.first(static_cast<int>(std::ceil(times)));
    practice::Take take;
    take.messages =
        simulate::perform(simulate::play(map, {}, 1).script, map, guitar::Fretboard::standard());
    take.end = map.time_of(map.end());
    return take;
}

void print_cost() {
    const auto form = aaba();
    for (const double faster : {1.0, 0.96}) {
        const auto take = ten_minutes(form, faster);
        const auto report = practice::hear_and_judge(form, take, {});
        std::vector<practice::Hint> hints;
        const double took = seconds_of([&] { hints = practice::offers(form, take, {}, report); });
        fmt::print("ten minutes, {}: {:.3f} s for the offer ({})\n",
                   faster == 1 ? "right" : "4 % slow", took,
                   hints.empty() ? "none" : hints.front().option);
    }
}

}  // namespace

void print_offers(int takes, std::uint64_t seed, int show) {
    const auto figures = measure::offers_made(demo_forms(), takes, seed);
    fmt::print(
        "{} takes of each kind, seed {}\n\n"
        "| played               | takes | right   | other | none | doubtful | of others  |\n"
        "|{:-<22}|{:->6}:|{:->8}:|{:->6}:|{:->5}:|{:->9}:|{:->11}:|\n",
        takes, seed, "", "", "", "", "", "", "");
    for (int way = 0; way < measure::ways_to_misplay; ++way) {
        print_row(static_cast<measure::Misplayed>(way), figures.at(static_cast<std::size_t>(way)),
                  show);
    }
    fmt::print("\n");
    print_cost();
}

}  // namespace compline::bench
