#include "support/forms.hpp"

#include <compline/harmony/chord.hpp>

#include <array>
#include <sstream>
#include <utility>

namespace compline::tests {

namespace {

chart::WrittenBar written(const std::string& bar, time::Meter meter) {
    std::istringstream words(bar);
    std::vector<std::string> symbols;
    for (std::string symbol; words >> symbol;) symbols.push_back(symbol);
    const time::Ticks length(meter.bar().count() / static_cast<std::int64_t>(symbols.size()));
    chart::WrittenBar result;
    for (const auto& symbol : symbols) {
        const auto start = length * static_cast<std::int64_t>(result.slots.size());
        std::optional<harmony::Chord> chord;
        if (symbol != "N.C.") chord = harmony::read_chord(symbol);
        result.slots.push_back({start, length, chord});
    }
    return result;
}

harmony::Spelling higher(const harmony::Spelling& note, int semitones) {
    static const std::array<const char*, 12> names = {"C",  "Db", "D",  "Eb", "E",  "F",
                                                      "F#", "G",  "Ab", "A",  "Bb", "B"};
    std::size_t length = 0;
    const auto index = static_cast<std::size_t>((note.pitch_class() + semitones) % 12);
    return *harmony::read_spelling(names.at(index), length);
}

}  // namespace

chart::Form make_form(time::Meter meter, time::Bpm tempo, const std::vector<std::string>& bars) {
    chart::Chart chart;
    chart.title = "Test";
    chart.meter = meter;
    chart.tempo = tempo;
    chart.form = {"A"};
    chart.sections = {{"A", {}, {}}};
    for (const auto& bar : bars) chart.sections[0].bars.push_back(written(bar, meter));
    return chart::unroll(std::move(chart));
}

chart::Form transposed(chart::Form form, int semitones) {
    form.chart.key.tonic = higher(form.chart.key.tonic, semitones);
    for (auto& span : form.spans) {
        if (!span.chord) continue;
        span.chord->root = higher(span.chord->root, semitones);
        if (span.chord->bass) span.chord->bass = higher(*span.chord->bass, semitones);
    }
    return form;
}

}  // namespace compline::tests
