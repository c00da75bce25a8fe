#include "chart/support.hpp"
#include "support/catch.hpp"

#include <compline/chart/form.hpp>
#include <compline/chart/write_chart.hpp>

#include <algorithm>
#include <array>
#include <random>
#include <string>
#include <vector>

using namespace compline;
using chart::Chart;
using chart::Section;
using chart::WrittenBar;
using time::Meter;
using time::Ticks;

namespace {

const std::array<const char*, 10> symbols = {"F6",   "Bb7",  "Gm7",    "C7b9",      "Am7b5",
                                             "C6/9", "C7/E", "Ebdim7", "Abmaj7#11", "G7alt"};
const std::array<std::pair<int, int>, 9> meters = {
    {{2, 2}, {2, 4}, {3, 4}, {4, 4}, {5, 4}, {6, 4}, {6, 8}, {9, 8}, {12, 8}}};
const std::array<const char*, 6> keys = {"F", "Bb", "F#", "Cm", "Ebm", "A"};

/// Charts with all that a chart may have, made as values, by chance.
class ChartMaker {
  public:
    explicit ChartMaker(unsigned seed) : random_(seed) {}

    Chart chart() {
        Chart chart;
        chart.title = "T \"quoted\" \\ and: #more";
        chart.key = any_key();
        chart.meter = any_meter();
        chart.tempo = time::Bpm(30 + below(300) + (one_in(4) ? 0.5 : 0));
        chart.manner.drums = chart::Drums::brushes;
        if (one_in(3)) chart.swing_ratio = 1 + below(200) / 100.0;
        for (const char* name : {"A", "B 2", "Out"}) chart.sections.push_back(section(chart, name));
        for (int n = 1 + below(5); n > 0; --n) add_part(chart);
        if (one_in(3)) chart.rhythm = rhythm(chart.meter);
        if (one_in(2)) chart.lead_in = lead_in(chart.meter);
        if (one_in(2)) add_coda(chart);
        if (one_in(2)) chart.signs.segno = chart.form.front().section;
        if (one_in(3)) chart.cues.push_back({chart.form.back().section, "drums \"break\""});
        if (one_in(2)) chart.signs.fine = chart.form.back().section;
        chart.road_map = road_map(chart);
        const auto first = chart::unroll(chart).spans.front();
        if (first.chord && one_in(3)) {
            chart.voicings.push_back({"1", std::nullopt, {1, {}, 10, 2, {}, {}}});
        }
        return chart;
    }

  private:
    int below(int n) { return static_cast<int>(random_() % static_cast<unsigned>(n)); }
    bool one_in(int n) { return below(n) == 0; }

    Meter any_meter() {
        const auto [above, below_it] = meters.at(static_cast<std::size_t>(below(9)));
        return *Meter::find(above, below_it);
    }
    chart::Key any_key() {
        const std::string name = keys.at(static_cast<std::size_t>(below(6)));
        std::size_t length = 0;
        const auto tonic = *harmony::read_spelling(name, length);
        return {tonic, length < name.size()};
    }
    std::optional<harmony::Chord> any_chord() {
        if (one_in(12)) return std::nullopt;
        return harmony::read_chord(symbols.at(static_cast<std::size_t>(below(10))));
    }

    /// Chords on beats and off-beats, with kicks; neighbours differ.
    WrittenBar bar(Meter meter, bool may_hold) {
        WrittenBar bar;
        const auto step = meter.is_compound() ? meter.counted() : time::eighth_note;
        for (Ticks at; at < meter.bar(); at += step) {
            if (at > Ticks(0) && !one_in(5)) continue;
            const auto chord = any_chord();
            if (!bar.slots.empty() && bar.slots.back().chord == chord) continue;
            if (!bar.slots.empty()) bar.slots.back().length = at - bar.slots.back().start;
            bar.slots.push_back({at, meter.bar() - at, chord});
        }
        for (Ticks at; at < meter.bar(); at += step) {
            if (one_in(9)) bar.kicks.push_back(at);
        }
        if (may_hold && one_in(6)) bar.hold = meter.beat() * (1 + below(32));
        return bar;
    }
    std::vector<WrittenBar> bars(Meter meter) {
        std::vector<WrittenBar> all;
        for (int n = 1 + below(9); n > 0; --n) all.push_back(bar(meter, true));
        return all;
    }

    Section section(const Chart& chart, const std::string& name) {
        Section section;
        section.name = name;
        if (one_in(3)) section.meter = any_meter();
        if (one_in(3)) section.key = any_key();
        if (one_in(4)) section.tempo = time::Bpm(60 + below(200));
        if (!section.tempo && one_in(5)) section.rubato = true;
        if (one_in(3)) section.manner.feel = chart::Feel::bossa;
        const auto meter = section.meter.value_or(chart.meter);
        const auto time_feel = static_cast<chart::TimeFeel>(below(3));
        if (chart::felt(meter, time_feel)) section.time_feel = time_feel;
        if (one_in(3)) section.rhythm = rhythm(meter);
        section.bars = bars(meter);
        if (one_in(2)) {
            section.endings = {{{1, 2}, bars(meter)}, {{3}, bars(meter)}};
        }
        return section;
    }

    chart::Rhythm rhythm(Meter meter) {
        chart::Rhythm rhythm{static_cast<chart::Rhythm::Kind>(below(3)), {}, meter};
        if (rhythm.kind != chart::Rhythm::Kind::pattern) return rhythm;
        rhythm.positions = {meter.counted() * below(2)};
        const auto last = meter.bar() - meter.counted();
        if (last > rhythm.positions.front()) rhythm.positions.push_back(last);
        return rhythm;
    }

    void add_part(Chart& chart) {
        const auto& section = chart.sections.at(static_cast<std::size_t>(below(3)));
        chart.form.push_back({section.name, std::nullopt});
        if (!section.endings.empty() && one_in(3)) chart.form.back().ending = 1 + below(3);
    }
    void add_coda(Chart& chart) {
        chart.sections.push_back(section(chart, "Coda"));
        chart.signs.to_coda = chart.form.back().section + ":1";
    }
    chart::LeadIn lead_in(Meter meter) {
        chart::LeadIn lead_in;
        lead_in.length = meter.counted() * (1 + below(2));
        lead_in.slots = {{Ticks(0), lead_in.length, any_chord()}};
        return lead_in;
    }
    std::string road_map(const Chart& chart) {
        std::string text = "head: two-feel; solo until cue x3; ";
        text += chart.signs.to_coda.empty() ? "head" : "head al coda";
        if (!chart.signs.segno.empty() && one_in(2)) text += "; D.S.";
        if (one_in(2)) text += "; rit 1; head: a tempo";
        return text + "; held ending";
    }

    std::mt19937 random_;
};

}  // namespace

TEST_CASE("a chart that is written out is read as the same chart") {
    for (unsigned seed = 0; seed < 300; ++seed) {
        const auto chart = ChartMaker(seed).chart();
        const auto text = chart::write_chart(chart);
        INFO("seed " << seed << "\n" << text);
        const auto problems = tests::problems_of(text);
        INFO((problems.empty() ? "" : problems.front()));
        REQUIRE(problems.empty());
        const auto again = chart::read_chart(text, "t.yaml");
        REQUIRE(chart::write_chart(again) == text);
        REQUIRE(again == chart);
        REQUIRE(chart::unroll(again).bars.size() == chart::unroll(chart).bars.size());
    }
}
