#include "benches.hpp"

#include <compline/roadmap/road_map.hpp>

#include <fmt/format.h>

#include <random>

namespace compline::bench {

namespace {

using roadmap::RoadMap;

Row swung_eighths(Pace pace) {
    constexpr int eighths = 100'000;
    const auto form = aaba();
    const RoadMap map(form, roadmap::Asked::of(form.whole(), std::nullopt));
    const auto took = measure(pace, [&] {
        time::Seconds sum;
        for (int i = 0; i < eighths; ++i) sum += map.time_of(time::eighth_note * i);
        keep(sum);
    });
    return {fmt::format("time of {} swung eighths", eighths), took,
            fmt::format("{:.1f} ns each", took.fastest().count() / eighths * 1e9)};
}

/// As many bars as a road map may have, its tempo raised at each time through.
RoadMap longest(const chart::Form& form) {
    const int times = static_cast<int>(roadmap::most_bars_played) / form.whole().bars();
    std::vector<roadmap::Decision> decided;
    for (int time_through = 2; time_through <= times; ++time_through) {
        const double bpm = 60 + time_through % 200;
        decided.push_back({1 + std::int64_t{form.whole().bars()} * (time_through - 1),
                           roadmap::NewTempo{time::Bpm(bpm)}});
    }
    return {form, roadmap::Asked::of(form.whole(), times), decided};
}

Row asked_at_random(Pace pace) {
    constexpr int questions = 1'000'000;
    const auto map = longest(aaba());
    const auto bars = static_cast<unsigned>(*map.bars());
    const auto ticks = static_cast<unsigned>(map.end().count());
    const auto took = measure(pace, [&] {
        std::mt19937 random(1);
        std::int64_t sum = 0;
        time::Seconds seconds;
        for (int i = 0; i < questions; ++i) {
            const time::Ticks at(random() % ticks);
            sum += map.bar(1 + random() % bars).in_form() + map.place_at(at).number;
            seconds += map.time_of(at);
        }
        keep(sum);
        keep(seconds);
    });
    return {fmt::format("road map of {} bars asked {} times", bars, questions), took,
            fmt::format("{:.0f} ns each; wanted: 1 s in all",
                        took.fastest().count() / questions * 1e9)};
}

}  // namespace

std::vector<Row> time_line(Pace pace) { return {swung_eighths(pace), asked_at_random(pace)}; }

}  // namespace compline::bench
