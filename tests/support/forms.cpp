#include "support/forms.hpp"

#include <compline/harmony/chord.hpp>

#include <fmt/format.h>

#include <array>
#include <utility>

namespace compline::tests {

namespace {

harmony::Spelling higher(const harmony::Spelling& note, int semitones) {
    static const std::array<const char*, 12> names = {"C",  "Db", "D",  "Eb", "E",  "F",
                                                      "F#", "G",  "Ab", "A",  "Bb", "B"};
    std::size_t length = 0;
    const auto index = static_cast<std::size_t>((note.pitch_class() + semitones) % 12);
    return *harmony::read_spelling(names.at(index), length);
}

}  // namespace

chart::Form make_form(time::Meter meter, time::Bpm tempo, const std::vector<std::string>& bars) {
    auto yaml = fmt::format("title: Test\nkey: C\nmeter: {}/4\ntempo: 120\nsections:\n  A: |\n",
                            meter.beats());
    for (const auto& bar : bars) yaml += "    " + bar + "\n";
    auto chart = chart::read_chart(yaml, "make_form");
    chart.tempo = tempo;
    return chart::unroll(std::move(chart));
}

chart::Form bare_bars(int bars, time::Meter meter) {
    chart::Form form;
    for (int number = 1; number <= bars; ++number) {
        chart::FormBar bar;
        bar.number = number;
        bar.meter = meter;
        bar.start = bar.meter.bar() * (number - 1);
        form.bars.push_back(bar);
    }
    return form;
}

chart::Form transposed(chart::Form form, int semitones) {
    form.chart.key.tonic = higher(form.chart.key.tonic, semitones);
    for (auto& bar : form.bars) bar.key.tonic = higher(bar.key.tonic, semitones);
    for (auto& span : form.spans) {
        if (!span.chord) continue;
        span.chord->root = higher(span.chord->root, semitones);
        if (span.chord->bass) span.chord->bass = higher(*span.chord->bass, semitones);
    }
    return form;
}

}  // namespace compline::tests
