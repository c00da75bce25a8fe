#pragma once

#include <compline/chart/chart.hpp>

#include <fmt/format.h>

#include <string>
#include <vector>

namespace compline::tests {

/// A chart's text with these sections (lines as they stand under `sections:`, indented by two).
inline std::string chart_text(const std::string& sections, const std::string& meter = "4/4") {
    return "title: T\nkey: F\nmeter: " + meter + "\ntempo: 120\nsections:\n" + sections;
}

/// A chart with one section A, a block scalar of these lines.
inline chart::Chart chart_of(const std::vector<std::string>& lines,
                             const std::string& meter = "4/4") {
    std::string section = "  A: |\n";
    for (const auto& line : lines) section += "    " + line + "\n";
    return chart::read_chart(chart_text(section, meter), "t.yaml");
}

/// The problems of a text, "line:column: words" each; empty when it is a chart.
inline std::vector<std::string> problems_of(const std::string& text) {
    std::vector<std::string> found;
    try {
        (void)chart::read_chart(text, "t.yaml");
    } catch (const chart::ChartError& error) {
        for (const auto& p : error.problems()) {
            found.push_back(fmt::format("{}:{}: {}", p.line, p.column, p.what));
        }
    }
    return found;
}

/// A section's bars in a canonical writing: "F6 4 | D7 2 (G7) 2", beats behind each symbol.
inline std::string bars_in_words(const chart::Section& section) {
    std::string text;
    for (const auto& bar : section.bars) {
        text += text.empty() ? "" : " |";
        for (const auto& slot : bar.slots) {
            const auto symbol =
                slot.chord ? slot.chord->symbol(harmony::Accidentals::letters) : "N.C.";
            text += fmt::format("{}{}{}{} {}", text.empty() ? "" : " ", slot.optional ? "(" : "",
                                symbol, slot.optional ? ")" : "", slot.length / time::quarter_note);
        }
    }
    return text;
}

/// The bars of chart_of() in that writing.
inline std::string bars_read(const std::vector<std::string>& lines,
                             const std::string& meter = "4/4") {
    return bars_in_words(chart_of(lines, meter).sections.front());
}

/// "A A B A2": the sections in order, a named ending behind its section.
inline std::string form_in_words(const chart::Chart& chart) {
    std::string words;
    for (const auto& part : chart.form) {
        words += (words.empty() ? "" : " ") + part.section;
        if (part.ending) words += std::to_string(*part.ending);
    }
    return words;
}

}  // namespace compline::tests
