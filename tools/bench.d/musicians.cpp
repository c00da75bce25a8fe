#include "musicians.hpp"

#include "benches.hpp"
#include "measure.d/musicians.hpp"

#include <fmt/format.h>

#include <string>
#include <string_view>
#include <vector>

namespace compline::bench {

namespace {

using measure::Count;
using measure::MusicianFigures;

void print_offenders(const std::vector<std::string>& offenders, int show) {
    for (int i = 0; i < show && i < static_cast<int>(offenders.size()); ++i) {
        fmt::print("    {}\n", offenders[static_cast<std::size_t>(i)]);
    }
}

std::string_view verdict(bool met) { return met ? "met" : "missed"; }

void print_counts(const MusicianFigures& figures) {
    fmt::print("| {:<42} | {:>7} | {:>7} | {:<14} | {:>8} | {:>8} | {:<6} |\n", "count", "cases",
               "of", "", "share", "gate", "");
    fmt::print("|{:-<44}|{:->8}:|{:->8}:|{:-<16}|{:->9}:|{:->9}:|{:-<8}|\n", "", "", "", "", "", "",
               "");
    for (std::size_t n = 0; n < measure::count_kinds; ++n) {
        const auto count = static_cast<Count>(n);
        const auto& rule = measure::rule_of(count);
        const auto& share = figures[count];
        const auto gate =
            rule.gate ? fmt::format("{} {:g} %", rule.at_least ? ">=" : "<=", *rule.gate) : "";
        fmt::print("| {:<42} | {:>7} | {:>7} | {:<14} | {:>6.2f} % | {:>8} | {:<6} |\n", rule.name,
                   share.cases, share.of, rule.of, share.percent(), gate,
                   rule.gate ? verdict(figures.met(count)) : "");
    }
}

void print_lines(std::string_view name, const measure::Lines& lines) {
    const bool met = lines.least >= measure::least_lines;
    fmt::print("{}: mean {:.1f} of {}, least {}, under {} at {} of {} changes: {}\n", name,
               lines.different.value(), measure::seeds_of_lines, lines.least, measure::least_lines,
               lines.offenders.size(), lines.different.of, verdict(met));
}

}  // namespace

void print_musicians(int tunes, std::uint64_t seed, int show) {
    const auto figures = measure::musicians(demo_forms(), tunes, seed);
    fmt::print("The demo charts and {} tunes by chance, seed {}\n\n", tunes, seed);
    print_counts(figures);
    fmt::print(
        "\nnotes a grip {:.2f}; semitones a voice, a change {:.2f}; frets fingers travel, a change "
        "{:.2f}\n",
        figures.notes.value(), figures.semitones.value(), figures.travel.value());
    print_lines("walking lines that differ, last bar of a chord and first of the next",
                figures.both_bars);
    print_lines("  last bar of a chord and the note it leads to", figures.leading_bars);
    for (std::size_t n = 0; show > 0 && n < measure::count_kinds; ++n) {
        const auto count = static_cast<Count>(n);
        fmt::print("\n{}\n", measure::rule_of(count).name);
        print_offenders(figures[count].offenders, show);
    }
    if (show > 0) fmt::print("\nfew lines\n");
    print_offenders(figures.leading_bars.offenders, show);
}

}  // namespace compline::bench
