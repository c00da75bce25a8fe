#include "confusion.hpp"

#include "benches.hpp"
#include "measure.d/confusion.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <string>
#include <string_view>

namespace compline::bench {

namespace {

using measure::DeedFigures;
using measure::Figures;
using simulate::Deed;

void print_head(std::string_view kind) {
    fmt::print(
        "\n| {:<17} | takes | clean | false in 100 | own word | strum   | mistakes | found   | "
        "named  "
        " | missed so | early so | called late | error |\n",
        kind);
    fmt::print(
        "|{:-<19}|{:->6}:|{:->6}:|{:->13}:|{:->9}:|{:->8}:|{:->9}:|{:->8}:|{:->8}:|{:->10}:|"
        "{:->9}:|{:->12}:|{:->6}:|\n",
        "", "", "", "", "", "", "", "", "", "", "", "", "");
}

void print_row(std::string_view kind, const Figures& it) {
    const double called_late =
        it.clean == 0 ? 0 : 100.0 * static_cast<double>(it.clean_called_late) / it.clean;
    fmt::print(
        "| {:<17} | {:>5} | {:>5} | {:>12.2f} | {:>6.2f} % | {:>5.1f} % | {:>8} | {:>5.1f} % |"
        " {:>5.1f} % | {:>7.1f} % | {:>6.1f} % | {:>9.2f} % | {:>5.2f} |\n",
        kind, it.takes, it.clean, it.false_alarms_in_100(), 100 * it.own_word_rate(),
        100 * it.strum_rate(), it.mistakes, 100 * it.found_rate(), 100 * it.named_rate(),
        100 * it.missed_precision(), 100 * it.early_precision(), called_late, it.error_sd_ms());
}

template <typename Rows, typename Name>
void print_rows(std::string_view kind, const Rows& rows, Name name) {
    print_head(kind);
    for (std::size_t n = 0; n < rows.size(); ++n) print_row(name(static_cast<int>(n)), rows[n]);
}

void print_deed(std::string_view name, const DeedFigures& it) {
    const auto share = [&](int part) { return it.done == 0 ? 100.0 : 100.0 * part / it.done; };
    fmt::print("| {:<17} | {:>5} | {:>8.1f} % | {:>5.1f} % |\n", name, it.done, share(it.found),
               share(it.named));
}

void print_deeds(const measure::Confusion& confusion) {
    fmt::print(
        "\n| done              |  n    | found, or | named, or |\n"
        "|                   |       | let be    | own word  |\n"
        "|{:-<19}|{:->6}:|{:->10}:|{:->10}:|\n",
        "", "", "", "");
    for (int n = 0; n < simulate::deed_count; ++n) {
        const auto deed = static_cast<Deed>(n);
        print_deed(simulate::name_of(deed), confusion[deed]);
    }
    print_deed("simply played", confusion.simply_played);
    print_deed("first, after N.C.", confusion.after_nothing);
}

void print_disagreements(const measure::Confusion& confusion, int show) {
    const auto& all = confusion.disagreements;
    fmt::print("\nThe judge and the player disagree on {} changes.\n", all.size());
    // What was clean first: a false alarm is the worst a judge can do.
    for (const bool clean : {true, false}) {
        int shown = 0;
        for (const auto& it : all) {
            if (it.clean != clean || shown++ >= show) continue;
            fmt::print("  {}\n    done: {}\n    said: {}\n", it.where, it.done, it.said);
        }
    }
}

}  // namespace

void print_confusion(int takes, std::uint64_t seed, int show) {
    const auto it = measure::confusion(demo_forms(), takes, seed);
    fmt::print("{} takes of the demo charts and of tunes by chance at 70 to 280 bpm, seed {}\n",
               takes, seed);
    print_head("");
    print_row("all", it.all);
    print_rows("comping", it.by_comping,
               [](int n) { return simulate::name_of(static_cast<simulate::Comping>(n)); });
    print_rows("bpm", it.by_tempo, measure::tempo_band_name);
    print_rows("sustain", it.by_sustain, measure::sustain_name);
    print_rows("channels", it.by_channels,
               [](int n) { return simulate::name_of(static_cast<simulate::ChannelLayout>(n)); });
    print_rows("place", it.by_place, measure::place_name);
    print_deeds(it);
    if (it.all.unjudged > 0) fmt::print("\n{} changes were not judged.\n", it.all.unjudged);
    print_disagreements(it, show);
}

}  // namespace compline::bench
