#include "confusion.hpp"

#include "benches.hpp"
#include "measure.d/by_sound.hpp"
#include "measure.d/confusion.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <string>
#include <string_view>
#include <vector>

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

void print_deeds(const std::array<DeedFigures, simulate::deed_count>& deeds,
                 const DeedFigures& simply_played) {
    fmt::print(
        "\n| done              |  n    | found, or | named, or |\n"
        "|                   |       | let be    | own word  |\n"
        "|{:-<19}|{:->6}:|{:->10}:|{:->10}:|\n",
        "", "", "", "");
    for (int n = 0; n < simulate::deed_count; ++n) {
        const auto deed = static_cast<std::size_t>(n);
        print_deed(simulate::name_of(static_cast<Deed>(n)), deeds.at(deed));
    }
    print_deed("simply played", simply_played);
}

void print_disagreements(const std::vector<measure::Disagreement>& all, int show) {
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

void print_sound_head(std::string_view kind) {
    fmt::print(
        "\n| {:<17} | clean | false in 100 | late | early | missed | late  | found   | named   "
        "| placed  | early | found   | laid out | not struck |\n",
        kind);
    fmt::print(
        "|{:-<19}|{:->6}:|{:->13}:|{:->5}:|{:->6}:|{:->7}:|{:->6}:|{:->8}:|{:->8}:|{:->8}:|"
        "{:->6}:|{:->8}:|{:->9}:|{:->11}:|\n",
        "", "", "", "", "", "", "", "", "", "", "", "", "", "");
}

void print_sound_row(std::string_view kind, const measure::SoundFigures& it) {
    const auto share = [](int part, int of) { return of == 0 ? 100.0 : 100.0 * part / of; };
    fmt::print(
        "| {:<17} | {:>5} | {:>12.2f} | {:>4} | {:>5} | {:>6} | {:>5} | {:>5.1f} % | {:>5.1f} % |"
        " {:>5.1f} % | {:>5} | {:>5.1f} % | {:>8} | {:>8.1f} % |\n",
        kind, it.clean, it.false_alarms_in_100(), it.called_late, it.called_early, it.missed,
        it.late, share(it.late_found, it.late), share(it.late_named, it.late),
        share(it.late_placed, it.late), it.early, share(it.early_found, it.early), it.laid_out,
        share(it.not_struck, it.laid_out));
}

template <typename Rows, typename Name>
void print_sound_rows(std::string_view kind, const Rows& rows, Name name) {
    print_sound_head(kind);
    for (std::size_t n = 0; n < rows.size(); ++n) {
        print_sound_row(name(static_cast<int>(n)), rows[n]);
    }
}

}  // namespace

void print_by_sound(int takes, std::uint64_t seed, int show) {
    const auto it = measure::by_sound(demo_forms(), takes, seed);
    fmt::print(
        "{} takes at 70 to 280 bpm, seed {}, of which only the onsets were heard\n"
        "late, early, missed: of the clean; late, named: within 10 ms\n",
        takes, seed);
    print_sound_head("");
    print_sound_row("all", it.all);
    print_sound_rows("comping", it.by_comping,
                     [](int n) { return simulate::name_of(static_cast<simulate::Comping>(n)); });
    print_sound_rows("bpm", it.by_tempo, measure::tempo_band_name);
    print_deeds(it.deeds, it.simply_played);
    print_disagreements(it.disagreements, show);
}

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
    print_deeds(it.deeds, it.simply_played);
    print_deed("first, after N.C.", it.after_nothing);
    if (it.all.unjudged > 0) fmt::print("\n{} changes were not judged.\n", it.all.unjudged);
    print_disagreements(it.disagreements, show);
}

}  // namespace compline::bench
