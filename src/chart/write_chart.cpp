#include "shares.hpp"

#include <compline/chart/write_chart.hpp>
#include <compline/yaml/in_quotes.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <string_view>
#include <vector>

namespace compline::chart {

namespace {

using yaml::in_quotes;

constexpr auto letters = harmony::Accidentals::letters;
constexpr std::size_t bars_a_line = 4;

std::string bass_words(const AskedManner& manner) {
    std::string words(manner.bass ? name_of(*manner.bass) : "");
    if (manner.plain_bass) words += words.empty() ? "plain" : " plain";
    return words;
}

/// KeyLines of keys, each indented alike.
class KeyLines {
  public:
    explicit KeyLines(std::string indent) : indent_(std::move(indent)) {}

    void add(std::string_view key, std::string_view value) {
        if (!value.empty()) text_ += fmt::format("{}{}: {}\n", indent_, key, value);
    }
    void add_manner(const AskedManner& manner) {
        if (manner.drums) add("drums", name_of(*manner.drums));
        add("bass", bass_words(manner));
        if (manner.phrasing) add("phrasing", name_of(*manner.phrasing));
    }
    void add_bars(std::string_view key, const std::vector<WrittenBar>& bars, time::Meter meter) {
        text_ += fmt::format("{}{}: |\n", indent_, key);
        for (std::size_t i = 0; i < bars.size(); ++i) {
            const bool begins = i % bars_a_line == 0;
            text_ += begins ? indent_ + "  " : " | ";
            text_ += write_bar(bars[i], meter);
            if (i % bars_a_line == bars_a_line - 1 || i + 1 == bars.size()) text_ += "\n";
        }
    }
    void open(std::string_view key) { text_ += fmt::format("{}{}:\n", indent_, key); }
    void append(const std::string& lines) { text_ += lines; }
    [[nodiscard]] const std::string& text() const { return text_; }

  private:
    std::string indent_;
    std::string text_;
};

std::string feel_words(const Section& section) {
    std::string words(section.manner.feel ? name_of(*section.manner.feel) : "");
    const std::string_view time_feel = section.time_feel == TimeFeel::half_time     ? "half-time"
                                       : section.time_feel == TimeFeel::double_time ? "double-time"
                                                                                    : "";
    if (!time_feel.empty()) words += (words.empty() ? "" : " ") + std::string(time_feel);
    return words;
}

std::string endings_text(const Section& section, time::Meter meter) {
    KeyLines lines("      ");
    for (const auto& ending : section.endings) {
        std::string numbers;
        for (const int n : ending.numbers) {
            numbers += (numbers.empty() ? "" : " ") + std::to_string(n);
        }
        lines.add_bars(in_quotes(numbers), ending.bars, meter);
    }
    return lines.text();
}

std::string section_text(const Section& section, time::Meter meter) {
    KeyLines lines("    ");
    if (section.key) lines.add("key", section.key->name(letters));
    if (section.meter) lines.add("meter", meter_name(*section.meter));
    if (section.tempo) lines.add("tempo", fmt::format("{}", section.tempo->count()));
    if (section.rubato) lines.add("tempo", "rubato");
    lines.add("feel", feel_words(section));
    lines.add_manner(section.manner);
    if (section.rhythm) lines.add("rhythm", in_quotes(section.rhythm->name()));
    const auto own = section.meter.value_or(meter);
    const bool plain = lines.text().empty() && section.endings.empty();
    if (plain) {
        KeyLines bars("  ");
        bars.add_bars(in_quotes(section.name), section.bars, own);
        return bars.text();
    }
    lines.add_bars("bars", section.bars, own);
    if (!section.endings.empty()) {
        lines.open("endings");
        lines.append(endings_text(section, own));
    }
    return fmt::format("  {}:\n{}", in_quotes(section.name), lines.text());
}

std::string form_text(const std::vector<FormPart>& form) {
    std::string text;
    for (const auto& part : form) {
        const auto ending = part.ending ? fmt::format(" ending {}", *part.ending) : "";
        text += (text.empty() ? "" : ", ") + in_quotes(part.section + ending);
    }
    return fmt::format("[{}]", text);
}

std::string shape_text(const Pin& pin) {
    const bool wide = std::any_of(pin.frets.begin(), pin.frets.end(),
                                  [](const auto& fret) { return fret.value_or(0) > 9; });
    std::string text;
    for (const auto& fret : pin.frets) {
        if (wide && !text.empty()) text += "-";
        text += fret ? std::to_string(*fret) : "x";
    }
    return text;
}

std::string voicings_text(const std::vector<Pin>& pins) {
    KeyLines lines("  ");
    for (const auto& pin : pins) {
        auto place = pin.bars;
        if (pin.chord) place += (place.empty() ? "" : " ") + pin.chord->symbol(letters);
        lines.add(in_quotes(place), in_quotes(shape_text(pin)));
    }
    return lines.text();
}

/// A lead-in is written in its own beats, half ones where it begins on an off-beat.
std::string lead_in_text(const LeadIn& lead_in, time::Meter meter) {
    const auto halves = lead_in.length / time::Ticks(meter.counted().count() / 2);
    const auto unit = halves % 2 == 0 ? meter.counted() : time::eighth_note;
    const time::Meter own(unit, {static_cast<int>(lead_in.length / unit)});
    std::string chords;
    for (time::Ticks at; at < lead_in.length; at += unit) {
        const auto slot = std::find_if(lead_in.slots.begin(), lead_in.slots.end(),
                                       [&](const Slot& s) { return s.start == at; });
        const bool begins = slot != lead_in.slots.end();
        const auto symbol = !begins ? "/" : slot->chord ? slot->chord->symbol(letters) : "N.C.";
        chords += (chords.empty() ? "" : " ") + symbol;
    }
    return fmt::format("{{beats: {}, chords: {}}}", static_cast<double>(halves) / 2,
                       in_quotes(chords));
}

}  // namespace

std::string write_chart(const Chart& chart) {
    KeyLines lines("");
    lines.add("title", in_quotes(chart.title));
    lines.add("key", in_quotes(chart.key.name(letters)));
    lines.add("meter", meter_name(chart.meter));
    lines.add("tempo", fmt::format("{}", chart.tempo.count()));
    if (chart.manner.feel) lines.add("feel", name_of(*chart.manner.feel));
    if (chart.swing_ratio) lines.add("swing", fmt::format("{}", *chart.swing_ratio));
    lines.add_manner(chart.manner);
    if (chart.rhythm) lines.add("rhythm", in_quotes(chart.rhythm->name()));
    if (chart.lead_in) lines.add("lead-in", lead_in_text(*chart.lead_in, chart.meter));
    lines.add("form", form_text(chart.form));
    if (!chart.signs.segno.empty()) lines.add("segno", in_quotes(chart.signs.segno));
    if (!chart.signs.to_coda.empty()) lines.add("to coda", in_quotes(chart.signs.to_coda));
    if (!chart.signs.fine.empty()) lines.add("fine", in_quotes(chart.signs.fine));
    if (!chart.road_map.empty()) lines.add("road map", in_quotes(chart.road_map));
    if (!chart.voicings.empty()) {
        lines.open("voicings");
        lines.append(voicings_text(chart.voicings));
    }
    if (!chart.cues.empty()) {
        lines.open("cues");
        for (const auto& cue : chart.cues) {
            lines.append(fmt::format("  {}: {}\n", in_quotes(cue.bars), in_quotes(cue.words)));
        }
    }
    lines.open("sections");
    for (const auto& section : chart.sections) lines.append(section_text(section, chart.meter));
    return lines.text();
}

}  // namespace compline::chart
