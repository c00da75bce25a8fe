#include "measure.d/confusion.hpp"
#include "measure.d/habits.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace compline::measure {

namespace {

using assess::Astray;
using simulate::Deed;
using simulate::PlayedChange;

constexpr std::size_t fewest = 4;
constexpr double same = 0.01;

/// Changes in a row at which the guitarist was elsewhere.
struct Run {
    std::size_t first = 0;
    std::size_t last = 0;
    double bars = 0;
};

std::vector<Run> runs_of(const std::vector<PlayedChange>& changes) {
    std::vector<Run> runs;
    for (std::size_t i = 0; i < changes.size(); ++i) {
        if (changes[i].deed != Deed::lost) continue;
        const bool goes_on = !runs.empty() && runs.back().last + 1 == i &&
                             changes[i].bars_astray == runs.back().bars;
        if (!goes_on) runs.push_back({i, i, changes[i].bars_astray});
        runs.back().last = i;
    }
    return runs;
}

std::pair<int, int> place_of(const PlayedChange& change) {
    return {change.time_through, change.bar};
}

bool overlap(const Run& run, const std::vector<PlayedChange>& changes, const Astray& said) {
    const std::pair from{said.time_through, said.from_bar};
    const std::pair to{said.time_through, said.to_bar};
    return place_of(changes[run.first]) <= to && from <= place_of(changes[run.last]);
}

std::string said_words(const assess::Assessment& said) {
    std::string words;
    for (const auto& one : said.astray) {
        words += fmt::format(" [{}.{} to {}: {:g} bars, {} changes]", one.time_through,
                             one.from_bar, one.to_bar, one.bars, one.changes);
    }
    return words;
}

void count(AstrayFigures& figures, const Pupil& pupil, const simulate::PlayedTune& played,
           const assess::Assessment& said) {
    const auto& changes = played.changes;
    const auto runs = runs_of(changes);
    for (const auto& run : runs) {
        if (run.last - run.first + 1 < fewest) continue;
        ++figures.runs;
        bool found = false;
        bool other = false;
        for (const auto& one : said.astray) {
            if (!overlap(run, changes, one)) continue;
            (std::abs(one.bars - run.bars) < same ? found : other) = true;
        }
        figures.found += found ? 1 : 0;
        figures.by_other_bars += !found && other ? 1 : 0;
        if (found) continue;
        const auto& from = changes[run.first];
        figures.missed.push_back(
            fmt::format("{}, {:g} bpm, {}, seed {}: from {}.{} {} changes, {:g} bars; said{}",
                        pupil.map.form().chart.title, pupil.map.tempo().count(),
                        name_of(pupil.habits.comping), pupil.seed, from.time_through, from.bar,
                        run.last - run.first + 1, run.bars, said_words(said)));
    }
    for (const auto& one : said.astray) {
        const bool true_one = std::any_of(
            runs.begin(), runs.end(), [&](const Run& run) { return overlap(run, changes, one); });
        figures.false_runs += true_one ? 0 : 1;
    }
}

}  // namespace

AstrayFigures find_astray(const std::vector<chart::Form>& forms, int takes, std::uint64_t seed) {
    AstrayFigures figures;
    for (int n = 0; n < takes; ++n) {
        auto one = pupil(forms, seed, n);
        const bool clean = n % 2 == 0;
        one.habits.rate(Deed::lost) = clean ? 0 : 1;
        const auto played = simulate::play(one.map, one.habits, one.seed);
        const auto said = judged(one, played);
        ++figures.takes;
        count(figures, one, played, said);
        if (!clean) continue;
        ++figures.clean_takes;
        figures.false_takes += said.astray.empty() ? 0 : 1;
        if (!said.astray.empty()) {
            figures.missed.push_back(
                fmt::format("nobody was lost: {}, {}, seed {}:{}", one.map.form().chart.title,
                            name_of(one.habits.comping), one.seed, said_words(said)));
        }
    }
    return figures;
}

}  // namespace compline::measure
