#include "measure.d/musicians.hpp"

#include "measure.d/charts.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace compline::measure {

namespace {

// clang-format off
constexpr std::array<CountRule, count_kinds> rules = {{
    {"written tensions and sixths played",          "written",         95.0, true},
    {"another chord spelt",                         "grips",           1.0},
    {"  guide tones sounding: a rootless form",     "grips",           {}},
    {"held changes that hide",                      "changes",         0.0},
    {"tones not asked for",                         "grips",           10.0},
    {"maj7 with 6 in place of 7",                   "maj7 grips",      {}},
    {"sixth chord given as maj7",                   "sixth grips",     0.0},
    {"11 not asked for",                            "minor sevenths",  {}},
    {"jumps over four frets, lowest fret",          "changes",         2.0},
    {"jumps over four frets, the plan's hand",      "changes",         2.0},
    {"equal sections, equal grips",                 "chords",          90.0, true},
    {"three notes without third or seventh",        "7th, 6th grips",  0.0},
    {"flat ninths between voices",                  "grips",           {}},
    {"semitones not asked for, neighbours",         "grips",           {}},
    {"7 or 9 lowest, below D3",                     "grips",           {}},
    {"bass: long notes outside the chord",          "long notes",      0.0},
    {"bass: forbidden tones on strong beats",       "strong notes",    0.0},
    {"bass: 5 on m7b5, 3 on sus",                   "notes there",     0.0},
    {"bass: approaches before the last quarter",    "notes",           {}},
    {"bass: notes below F1",                        "notes",           {}},
    {"bass: notes above C3",                        "notes",           {}},
}};
// clang-format on

constexpr int times_through = 2;
constexpr int seeds_by_chance = 2;
constexpr std::uint64_t seeds_apart = 7919;

/// Walking, in two, and as a ballad.
struct Manner {
    std::string_view name;
    chart::AskedManner asked;
    std::optional<time::Bpm> tempo;
};
std::array<Manner, 3> manners() {
    using chart::Bass;
    using chart::Feel;
    constexpr time::Bpm slow(60);
    return {{{"walking", {Feel::swing, {}, Bass::walking}, {}},
             {"two-feel", {Feel::swing, {}, Bass::two_feel}, {}},
             {"ballad", {Feel::ballad, {}, Bass::two_feel}, slow}}};
}

void add_tune(MusicianFigures& figures, const chart::Form& form, int seeds) {
    const auto plans = guitar::plan_voicings(form, form.whole(), form.chart.tempo,
                                             guitar::Fretboard::standard(), {});
    figures.add(form, plans.front());
    std::vector<std::vector<band::BassNote>> walking;
    for (const auto& manner : manners()) {
        for (int seed = 1; seed <= seeds; ++seed) {
            auto line = bass_line(form, manner.asked, manner.tempo.value_or(form.chart.tempo),
                                  static_cast<std::uint64_t>(seed));
            figures.add(form, line, fmt::format("{} seed {}", manner.name, seed));
            if (manner.asked.bass == chart::Bass::walking) walking.push_back(std::move(line));
        }
    }
    if (seeds == seeds_of_lines) figures.add_lines(form, walking);
}

}  // namespace

const CountRule& rule_of(Count count) { return rules[static_cast<std::size_t>(count)]; }

double Share::percent() const { return of == 0 ? 0 : 100.0 * cases / of; }

void Mean::add(double value) {
    sum += value;
    ++of;
}

void Lines::add(int lines, const std::string& where) {
    different.add(lines);
    least = std::min(least, lines);
    if (lines < least_lines) offenders.push_back(where);
}

bool MusicianFigures::met(Count count) const {
    const auto& rule = rule_of(count);
    const auto& share = (*this)[count];
    if (!rule.gate || share.of == 0) return true;
    return rule.at_least ? share.percent() >= *rule.gate : share.percent() <= *rule.gate;
}

bool MusicianFigures::lines_met() const {
    return both_bars.least >= least_lines && leading_bars.least >= least_lines;
}

void MusicianFigures::note(Count count, bool is_case) {
    auto& share = shares[static_cast<std::size_t>(count)];
    ++share.of;
    share.cases += is_case ? 1 : 0;
}

void MusicianFigures::offend(Count count, std::string where) {
    shares[static_cast<std::size_t>(count)].offenders.push_back(std::move(where));
}

std::vector<band::BassNote> bass_line(const chart::Form& form, const chart::AskedManner& manner,
                                      time::Bpm tempo, std::uint64_t seed) {
    // Once more than is asked for, so that no note is the last of all, which has rules of its own.
    auto asked = roadmap::Asked::of(form.whole(), times_through + 1);
    asked.manner = manner;
    asked.tempo = tempo;
    band::Players players;
    players.seed = seed;
    const roadmap::RoadMap map(form, asked);
    auto notes = band::arrange(map, players).notes;
    const auto end = map.start(times_through + 1);
    notes.erase(std::find_if(notes.begin(), notes.end(),
                             [&](const band::BassNote& note) { return note.at >= end; }),
                notes.end());
    return notes;
}

MusicianFigures musicians(const std::vector<chart::Form>& forms, int tunes, std::uint64_t seed) {
    MusicianFigures figures;
    for (const auto& form : forms) add_tune(figures, form, seeds_of_lines);
    for (int tune = 0; tune < tunes; ++tune) {
        simulate::Chance chance(seed * seeds_apart + static_cast<std::uint64_t>(tune));
        auto form = any_chart(chance);
        form.chart.title += ", tune " + std::to_string(tune + 1);
        add_tune(figures, form, seeds_by_chance);
    }
    return figures;
}

}  // namespace compline::measure
