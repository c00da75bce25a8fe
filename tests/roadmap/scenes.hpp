#pragma once

#include <compline/harmony/chord.hpp>
#include <compline/roadmap/road_map.hpp>

#include <algorithm>
#include <array>
#include <cstdint>
#include <optional>
#include <random>
#include <string>
#include <variant>
#include <vector>

namespace compline::tests {

/// Seeded, and the same on every machine: what a distribution gives is the library's own.
class Chance {
  public:
    explicit Chance(unsigned seed) : random_(seed) {}
    int below(int n) { return static_cast<int>(random_() % static_cast<unsigned>(n)); }
    int from_to(int first, int last) { return first + below(last - first + 1); }
    bool one_in(int n) { return below(n) == 0; }

  private:
    std::mt19937 random_;
};

/// What is asked of a road map, and since then decided.
struct Scene {
    chart::Form form;
    roadmap::Asked asked;
    std::vector<roadmap::Decision> decided;
    [[nodiscard]] roadmap::RoadMap map() const { return {form, asked, decided}; }
};

inline chart::AskedManner random_manner(Chance& chance) {
    using chart::Bass;
    using chart::Drums;
    using chart::Feel;
    chart::AskedManner manner;
    if (chance.one_in(3)) manner.feel = static_cast<Feel>(chance.below(4));
    if (chance.one_in(3)) manner.drums = static_cast<Drums>(chance.below(5));
    if (chance.one_in(3)) manner.bass = static_cast<Bass>(chance.below(4));
    return manner;
}

inline time::Meter random_meter(Chance& chance) {
    switch (chance.below(8)) {
        case 0:
            return time::Meter(time::Ticks(1440), {1, 1});
        case 1:
            return *time::Meter::find(9, 8);
        case 2:
            return *time::Meter::find(2, 2);
        case 3:
            return *time::Meter(4).half_time();
        case 4:
            return *time::Meter(3).double_time();
        default:
            return time::Meter(chance.from_to(2, 6));
    }
}

/// One or two chords, and perhaps a kick on a beat.
inline void fill_bar(chart::Form& form, chart::FormBar& bar, Chance& chance) {
    static const std::array<const char*, 4> symbols{"Dm7", "G7", "Cmaj7", "A7"};
    const auto chord = [&] {
        return harmony::read_chord(symbols.at(static_cast<std::size_t>(chance.below(4))));
    };
    bar.first_span = form.spans.size();
    const auto first = chance.one_in(2) ? bar.meter.bar() : bar.meter.beat();
    form.spans.push_back({bar.start, first, chord(), bar.number});
    if (first < bar.meter.bar()) {
        form.spans.push_back({bar.start + first, bar.meter.bar() - first, chord(), bar.number});
    }
    if (chance.one_in(4)) bar.kicks.push_back(bar.meter.beat() * chance.below(bar.meter.beats()));
}

/// Up to 24 bars, each in a meter and a manner of its own.
inline chart::Form random_form(Chance& chance) {
    chart::Form form;
    form.chart.tempo = time::Bpm(chance.from_to(30, 400));
    if (chance.one_in(3)) form.chart.swing_ratio = 1 + chance.below(200) / 100.0;
    form.chart.manner = random_manner(chance);
    const bool tempi = chance.one_in(3);
    time::Ticks start;
    for (int number = chance.from_to(1, 24); number > 0; --number) {
        chart::FormBar bar;
        bar.number = static_cast<int>(form.bars.size()) + 1;
        bar.section = "A";
        bar.start = start;
        bar.meter = random_meter(chance);
        bar.manner = form.chart.manner.with(random_manner(chance));
        fill_bar(form, bar, chance);
        if (tempi && chance.one_in(2)) bar.tempo = time::Bpm(chance.from_to(30, 400));
        if (chance.one_in(12)) {
            bar.hold = bar.meter.beat() * chance.from_to(1, 4);
            form.spans.back().length += bar.hold;
        }
        start = bar.end();
        form.bars.push_back(bar);
    }
    return form;
}

inline chart::Way random_way(const chart::Form& form, Chance& chance) {
    static const std::array<const char*, 3> names{"", "head", "solo"};
    const int last = form.whole().to;
    chart::Way way;
    for (int stretch = chance.from_to(1, 5); stretch > 0; --stretch) {
        const int from = chance.from_to(1, last);
        way.stretches.push_back({{from, chance.from_to(from, last)},
                                 names.at(static_cast<std::size_t>(chance.below(3))),
                                 random_manner(chance),
                                 chance.one_in(6)});
    }
    way.goes_on = chance.one_in(2);
    return way;
}

/// A silence that comes, if there is room for one.
inline std::optional<roadmap::Silence> random_silence(const chart::Way& way, Chance& chance) {
    roadmap::Silence silence;
    silence.drums_alone = chance.one_in(2);
    silence.times_through = chance.one_in(2);
    int most = 4;
    if (const auto times = way.times_through()) {
        most = silence.times_through ? *times : static_cast<int>(way.bars_before(*times + 1));
    }
    if (most < 2) return std::nullopt;
    silence.playing = chance.from_to(1, most - 1);
    silence.silent = chance.from_to(1, most);
    return silence;
}

inline roadmap::Asked random_asked(const chart::Form& form, Chance& chance) {
    roadmap::Asked asked;
    asked.way = random_way(form, chance);
    asked.manner = random_manner(chance);
    if (chance.one_in(2)) asked.tempo = time::Bpm(chance.from_to(30, 400));
    if (chance.one_in(4)) asked.swing = roadmap::AskedSwing{1 + chance.below(200) / 100.0};
    if (chance.one_in(4)) asked.swing = roadmap::AskedSwing{};
    if (chance.one_in(2)) asked.count_in_bars = chance.below(3);
    if (chance.one_in(4)) asked.click = roadmap::Click{{time::Ticks(0)}, chance.from_to(1, 3)};
    if (chance.one_in(2)) asked.silence = random_silence(asked.way, chance);
    asked.melody = chance.one_in(2);
    asked.guitar = chance.one_in(2);
    return asked;
}

inline roadmap::WhoPlays random_players(Chance& chance) {
    return {chance.one_in(2), chance.one_in(2), chance.one_in(2), chance.one_in(2)};
}

inline decltype(roadmap::Decision::what) random_decision(const chart::Form& form, Chance& chance) {
    switch (chance.below(8)) {
        case 0:
            return roadmap::NewWay{random_way(form, chance)};
        case 1:
            return roadmap::Paused{};
        case 2:
        case 3:
        case 4:
            return roadmap::NewTempo{time::Bpm(chance.from_to(30, 400))};
        default:
            return roadmap::LaysOut{random_players(chance), chance.one_in(2)};
    }
}

/// In order, several at a bar too, each of them possible; a pause is over when something else is
/// decided. The music may be stopped at the end of them, or paused.
inline std::vector<roadmap::Decision> random_decisions(const chart::Form& form,
                                                       const roadmap::Asked& asked,
                                                       Chance& chance) {
    roadmap::RoadMap map(form, asked);
    std::int64_t bar = 1;
    bool paused = false;
    while (bar <= map.bars().value_or(bar) && map.decided().size() < 12) {
        auto what = random_decision(form, chance);
        paused = bar > 1 && std::holds_alternative<roadmap::Paused>(what);
        if (bar == 1 && std::holds_alternative<roadmap::Paused>(what)) what = roadmap::NewTempo{};
        map = map.with({bar, what});
        if (paused) {
            if (chance.one_in(8)) return map.decided();
            if (chance.one_in(2)) map = map.with({bar, roadmap::NewTempo{time::Bpm(77)}});
            map = map.with({bar, roadmap::Waited{chance.from_to(1, 40), random_way(form, chance)}});
            ++bar;
        }
        bar += chance.below(8);
    }
    const auto last = map.decided().back().from_bar + (paused ? 1 : 0);
    const auto end = map.bars().value_or(last + 20);
    if (end >= 2 && end >= last && chance.one_in(3)) {
        const auto first = std::max<std::int64_t>(2, last);
        map =
            map.with({first + chance.below(static_cast<int>(end - first) + 1), roadmap::Stopped{}});
    }
    return map.decided();
}

inline Scene random_scene(unsigned seed) {
    Chance chance(seed);
    Scene scene;
    scene.form = random_form(chance);
    scene.asked = random_asked(scene.form, chance);
    if (!chance.one_in(4)) {
        scene.decided = random_decisions(scene.form, scene.asked, chance);
    }
    return scene;
}

}  // namespace compline::tests
