#include "confusion.hpp"

#include "benches.hpp"

#include <compline/simulate/study.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <string>
#include <string_view>
#include <vector>

namespace compline::bench {

namespace {

using simulate::Deed;
using simulate::Tally;

constexpr std::size_t most_disagreements = 20;

std::string spoken_share(std::optional<double> share) {
    return share ? fmt::format("{:.4f}", *share) : "-";
}

void print_row(std::string_view kind, const Tally& tally) {
    fmt::print("| {:<15} | {:>7} | {:>7} | {:>7} | {:>8} | {:>7} | {:>9} |\n", kind, tally.planted,
               tally.found, spoken_share(tally.recall()), tally.reported, tally.right,
               spoken_share(tally.precision()));
}

void print_head(std::string_view kind) {
    fmt::print("| {:<15} | planted |   found |  recall | reported |   right | precision |\n", kind);
    fmt::print("|{:-<17}|{:->8}:|{:->8}:|{:->8}:|{:->9}:|{:->8}:|{:->10}:|\n", "", "", "", "", "",
               "", "");
}

void print_disagreements(const simulate::Confusion& confusion) {
    const auto& all = confusion.disagreements;
    const std::size_t shown = std::min(all.size(), most_disagreements);
    fmt::print("\nThe judge and the player disagree on {} changes{}\n", all.size(),
               all.empty()          ? "."
               : shown < all.size() ? fmt::format("; the first {}:", shown)
                                    : ":");
    for (std::size_t i = 0; i < shown; ++i) {
        const auto& it = all[i];
        fmt::print("  {}, {:g} bpm, seed {}, bar {} beat {:g}, {}\n    done: {}\n    said: {}\n",
                   it.chart, it.tempo, it.seed, it.bar, it.beat, it.chord, it.done, it.said);
    }
}

}  // namespace

void print_confusion(int choruses, std::uint64_t seed) {
    simulate::StudyRequest request;
    request.choruses = choruses;
    request.seed = seed;
    const auto confusion = simulate::study(demo_forms(), request);
    fmt::print("{} choruses of the demo charts at 80 to 240 bpm, seeds from {} on\n\n", choruses,
               seed);
    print_head("kind");
    for (int n = 0; n < simulate::deed_count; ++n) {
        const auto deed = static_cast<Deed>(n);
        print_row(simulate::name_of(deed), confusion[deed]);
    }
    print_row("simply played", confusion.plain);
    print_row("early", confusion.early);
    print_row("outside", confusion.outside);
    fmt::print("\n");
    print_head("bpm");
    for (int n = 0; n < simulate::tempo_band_count; ++n) {
        const auto band = simulate::tempo_band(n);
        print_row(fmt::format("{} to {}", band.from, band.to),
                  confusion.bands[static_cast<std::size_t>(n)]);
    }
    print_disagreements(confusion);
}

}  // namespace compline::bench
