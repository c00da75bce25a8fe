#include "voicings.hpp"

#include "benches.hpp"
#include "measurement.hpp"

#include <compline/guitar/voicing_plan.hpp>

#include <fmt/format.h>
#include <plan.d/random_tune.hpp>
#include <plan.d/rivals.hpp>

#include <algorithm>
#include <string>
#include <vector>

namespace compline::bench {

namespace {

constexpr int bars = 32;

guitar::VoicingWishes inner_four() {
    guitar::VoicingWishes wishes;
    wishes.strings = {5, 4, 3, 2};
    return wishes;
}

Row plan(const std::string& work, const chart::Form& form, const guitar::VoicingWishes& wishes,
         Pace pace, int count = 1) {
    const auto neck = guitar::Fretboard::standard();
    std::size_t chords = 0;
    const auto took = measure(pace, [&] {
        const auto plans =
            guitar::plan_voicings(form, form.whole(), form.chart.tempo, neck, wishes, count);
        chords = plans.front().voicings.size();
    });
    return {work, took,
            fmt::format("{} a chord", spoken(time::Seconds(took.fastest().count() /
                                                           static_cast<double>(chords))))};
}

/// One of three ways to choose, for a tune.
struct Choice {
    double cost = 0;
    double travel = 0;
};

struct Compared {
    std::string name;
    Choice plan;
    Choice nearest;
    Choice lowest;
};

Compared compare(std::string name, const chart::Form& form) {
    static const auto neck = guitar::Fretboard::standard();
    static const guitar::FingerTable table(neck.strings(), neck.frets());
    const auto stops =
        guitar::stops_of(form, form.whole(), form.chart.tempo, neck, inner_four()).stops;
    const auto measured = [&](const guitar::WayRound& way) {
        return Choice{way.cost / 100.0, static_cast<double>(plan_rivals::travel(neck, stops, way))};
    };
    return {std::move(name), measured(*guitar::best_way(table, stops)),
            measured(plan_rivals::nearest_next(stops)),
            measured(plan_rivals::lowest_position(stops))};
}

void print_line(const Compared& row) {
    fmt::print("{:<36} {:7.1f} {:5.0f}   {:7.1f} {:5.0f}   {:7.1f} {:5.0f}   {:4.0f} % {:4.0f} %\n",
               row.name, row.plan.cost, row.plan.travel, row.nearest.cost, row.nearest.travel,
               row.lowest.cost, row.lowest.travel, 100 * (1 - row.plan.cost / row.nearest.cost),
               100 * (1 - row.plan.cost / row.lowest.cost));
}

}  // namespace

std::vector<Row> voicing_plans(Pace pace) {
    std::vector<Row> rows;
    const auto dense = plan_rivals::random_tune(1, bars, 2);
    rows.push_back(
        plan("voicings, 32 bars, a chord each half bar, strings 5432", dense, inner_four(), pace));
    guitar::VoicingWishes all_strings;
    all_strings.strings = {6, 5, 4, 3, 2, 1};
    rows.push_back(plan("voicings, the same, all strings", dense, all_strings, pace));
    for (const int length : {32, 128, 512, 1000, 2000}) {
        rows.push_back(plan(fmt::format("voicings, {} bars of one chord, strings 5432", length),
                            plan_rivals::random_tune(1, length, 1), inner_four(), pace));
    }
    rows.push_back(plan("voicings, 128 bars of one chord, the five best plans",
                        plan_rivals::random_tune(1, 128, 1), inner_four(), pace, 5));
    return rows;
}

void print_voicings() {
    fmt::print(
        "Strings 5432; cost, and frets of finger travel, one time through and back\n"
        "{:<36} {:^13}   {:^13}   {:^13}   {:^13}\n",
        "", "plan", "nearest next", "lowest", "saved");
    for (const auto& form : demo_forms()) print_line(compare(form.chart.title, form));
    Compared mean{"50 tunes by chance, mean", {}, {}, {}};
    double nearest = 0;
    double lowest = 0;
    constexpr int tunes = 50;
    for (int seed = 1; seed <= tunes; ++seed) {
        const auto row =
            compare("", plan_rivals::random_tune(static_cast<std::uint64_t>(seed), bars));
        const auto add = [&](Choice& sum, const Choice& one) {
            sum.cost += one.cost / tunes;
            sum.travel += one.travel / tunes;
        };
        add(mean.plan, row.plan);
        add(mean.nearest, row.nearest);
        add(mean.lowest, row.lowest);
        nearest += row.plan.cost / row.nearest.cost / tunes;
        lowest += row.plan.cost / row.lowest.cost / tunes;
    }
    print_line(mean);
    fmt::print("Tune by tune they save {:.1f} % and {:.1f} %.\n", 100 * (1 - nearest),
               100 * (1 - lowest));
}

}  // namespace compline::bench
