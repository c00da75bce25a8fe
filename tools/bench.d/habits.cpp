#include "habits.hpp"

#include "benches.hpp"
#include "measure.d/habits.hpp"

#include <fmt/format.h>

namespace compline::bench {

namespace {

constexpr int few_times = 6;
/// A place must come again often enough to be known where only some of its cases go wrong.
constexpr int many_times = 12;

bool needs_many_times(assess::HabitKind kind) {
    return kind == assess::HabitKind::place || kind == assess::HabitKind::wait ||
           kind == assess::HabitKind::left_out || kind == assess::HabitKind::string;
}

double percent(int part, int whole) { return whole == 0 ? 100 : 100.0 * part / whole; }

void print_missed(const std::vector<std::string>& missed, int show) {
    for (int n = 0; n < show && n < static_cast<int>(missed.size()); ++n) {
        fmt::print("    {}\n", missed[static_cast<std::size_t>(n)]);
    }
}

void print_planted(int takes, int times, std::uint64_t seed, int show) {
    fmt::print("\n{} times through\n", times);
    fmt::print(
        "| planted             | struck |   n | cases |  first | same changes | anywhere |\n");
    fmt::print("|{:-<21}|{:->7}:|{:->4}:|{:->6}:|{:->7}:|{:->13}:|{:->9}:|\n", "", "", "", "", "",
               "", "");
    for (const auto& planted : measure::planted_habits()) {
        if (times == many_times && !needs_many_times(planted.kind)) continue;
        for (const double strength : measure::strengths) {
            const auto it =
                measure::find_planted(demo_forms(), planted, strength, takes, times, seed);
            fmt::print(
                "| {:<19} | {:>4.0f} % | {:>3} | {:>5.1f} | {:>4.0f} % | {:>10.0f} % | {:>6.0f} % "
                "|\n",
                planted.name, 100 * strength, it.planted,
                it.planted == 0 ? 0.0 : double(it.cases) / it.planted,
                percent(it.first, it.planted), percent(it.same_changes, it.planted),
                percent(it.anywhere, it.planted));
            print_missed(it.missed, show);
        }
    }
}

}  // namespace

void print_habits(int takes, std::uint64_t seed, int show) {
    fmt::print("{} takes of each, seed {}\n", takes, seed);
    print_planted(takes, few_times, seed, show);
    print_planted(takes, many_times, seed, show);
    for (const int times_through : {2, 6}) {
        const auto none = measure::find_none(demo_forms(), takes * 8, times_through, seed);
        fmt::print(
            "\nwithout a habit, {} times through: one is named in {} of {} takes ({:.1f} %)\n",
            times_through, none.named, none.takes, percent(none.named, none.takes));
        print_missed(none.said, show);
    }
    const auto astray = measure::find_astray(demo_forms(), takes * 16, seed);
    fmt::print(
        "\nastray: {} of {} runs of four changes or more found with their bars ({:.1f} %), {} with "
        "others; {} said where nobody was;\n  {} of {} takes in which nobody was lost have one\n",
        astray.found, astray.runs, percent(astray.found, astray.runs), astray.by_other_bars,
        astray.false_runs, astray.false_takes, astray.clean_takes);
    print_missed(astray.missed, show);
}

}  // namespace compline::bench
