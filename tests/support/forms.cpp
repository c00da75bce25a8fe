#include "support/forms.hpp"

#include <array>
#include <map>
#include <sstream>
#include <stdexcept>

namespace compline::tests {

namespace {

using harmony::Chord;
using harmony::Quality;
using harmony::Spelling;

// A reader of its own, so that these tests stand apart from the one in the program.
const std::map<std::string, Quality>& qualities() {
    static const std::map<std::string, Quality> names = {
        {"", Quality::major},
        {"m", Quality::minor},
        {"dim", Quality::diminished},
        {"aug", Quality::augmented},
        {"sus2", Quality::suspended_second},
        {"sus4", Quality::suspended_fourth},
        {"6", Quality::sixth},
        {"69", Quality::six_nine},
        {"m6", Quality::minor_sixth},
        {"maj7", Quality::major_seventh},
        {"7", Quality::dominant_seventh},
        {"9", Quality::dominant_ninth},
        {"13", Quality::dominant_thirteenth},
        {"m7", Quality::minor_seventh},
        {"m9", Quality::minor_ninth},
        {"m7b5", Quality::half_diminished},
        {"dim7", Quality::diminished_seventh},
        {"7b9", Quality::dominant_flat_nine},
        {"7#5", Quality::dominant_sharp_five},
        {"7sus4", Quality::dominant_suspended},
    };
    return names;
}

Spelling note_named(const std::string& name, std::size_t& length) {
    const auto note = harmony::read_spelling(name, length);
    if (!note) throw std::invalid_argument("not a note: " + name);
    return *note;
}

std::optional<Chord> chord_named(const std::string& symbol) {
    if (symbol == "N.C.") return std::nullopt;
    const auto slash = symbol.find('/');
    const std::string upper = symbol.substr(0, slash);
    std::size_t length = 0;
    Chord chord;
    chord.root = note_named(upper, length);
    chord.quality = qualities().at(upper.substr(length));
    if (slash != std::string::npos) chord.bass = note_named(symbol.substr(slash + 1), length);
    return chord;
}

chart::WrittenBar written(const std::string& bar, time::Meter meter) {
    std::istringstream words(bar);
    std::vector<std::string> symbols;
    for (std::string symbol; words >> symbol;) symbols.push_back(symbol);
    const time::Ticks length(meter.bar().count() / static_cast<std::int64_t>(symbols.size()));
    chart::WrittenBar result;
    for (const auto& symbol : symbols) {
        const auto start = length * static_cast<std::int64_t>(result.slots.size());
        result.slots.push_back({start, length, chord_named(symbol)});
    }
    return result;
}

Spelling higher(const Spelling& note, int semitones) {
    static const std::array<const char*, 12> names = {"C",  "Db", "D",  "Eb", "E",  "F",
                                                      "F#", "G",  "Ab", "A",  "Bb", "B"};
    std::size_t length = 0;
    return note_named(names.at(static_cast<std::size_t>((note.pitch_class() + semitones) % 12)),
                      length);
}

}  // namespace

chart::Form make_form(time::Meter meter, time::Bpm tempo, const std::vector<std::string>& bars) {
    chart::Form form;
    form.chart.title = "Test";
    form.chart.meter = meter;
    form.chart.tempo = tempo;
    form.chart.form = {"A"};
    form.chart.sections = {{"A", {}}};
    for (std::size_t i = 0; i < bars.size(); ++i) {
        const int number = static_cast<int>(i) + 1;
        const auto start = meter.bar() * static_cast<std::int64_t>(i);
        form.chart.sections[0].bars.push_back(written(bars[i], meter));
        form.bars.push_back({number, "A", 1, number, start});
        for (const auto& slot : form.chart.sections[0].bars.back().slots) {
            form.spans.push_back({start + slot.start, slot.length, slot.chord, number});
        }
    }
    return form;
}

chart::Form transposed(chart::Form form, int semitones) {
    for (auto& span : form.spans) {
        if (!span.chord) continue;
        span.chord->root = higher(span.chord->root, semitones);
        if (span.chord->bass) span.chord->bass = higher(*span.chord->bass, semitones);
    }
    return form;
}

}  // namespace compline::tests
