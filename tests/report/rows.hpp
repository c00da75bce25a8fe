#pragma once

// Charts for the tests of what is shown while playing: written by hand, ours, and made at random.

#include "chart/support.hpp"

#include <compline/chart/form.hpp>
#include <compline/report/chart_rows.hpp>
#include <compline/report/columns.hpp>

#include <array>
#include <filesystem>
#include <random>
#include <string>
#include <vector>

namespace compline::tests {

using Lines = std::vector<std::string>;

/// A form of one section A, from lines of a chart.
inline chart::Form form_in_rows(const Lines& lines, const std::string& meter = "4/4") {
    return chart::unroll(chart_of(lines, meter));
}

inline chart::Form form_from(const std::string& sections, const std::string& form) {
    auto text = chart_text(sections);
    return chart::unroll(chart::read_chart("form: " + form + "\n" + text, "t.yaml"));
}

inline chart::Form blues_form() {
    return form_in_rows({"F7  | Bb7   | F7    | Cm7 F7", "Bb7 | Bdim7 | F7    | Am7b5 D7b9",
                         "Gm7 | C7    | F7 D7 | Gm7 C7"});
}

/// A A B A, A of six bars and B of eight.
inline chart::Form six_and_eight() {
    return form_from(
        "  A: C6 | % | Dm7 | G7 | C6 | G7\n"
        "  B: F6 | F6 | Fm6 | % | Em7 | A7 | Dm7 | G7\n",
        "[A, A, B, A]");
}

/// A chart made at random: short and long symbols, one to four a bar, similes, sections of one to
/// nine bars with short and long names. mt19937's numbers are fixed by the standard.
class AnyForm {
  public:
    explicit AnyForm(unsigned seed) : random_(seed) {}

    chart::Form make() {
        beats_ = below(3) == 0 ? 3 : 4;
        std::string sections;
        std::string order;
        for (const char* name : {"A", "B", "Intro 2", "Another refrain"}) {
            if (!order.empty() && below(2) == 0) continue;
            sections += std::string("  ") + name + ": |\n    " + bars(1 + below(9)) + "\n";
            order += (order.empty() ? "" : ", ") + std::string(name);
        }
        const auto text =
            "form: [" + order + ", A]\n" + chart_text(sections, beats_ == 3 ? "3/4" : "4/4");
        return chart::unroll(chart::read_chart(text, "t.yaml"));
    }

    unsigned below(unsigned n) { return static_cast<unsigned>(random_() % n); }

  private:
    std::string symbol() {
        static const std::array<const char*, 10> symbols = {
            "C", "F6", "Bb7", "Gm7", "C7b9", "Am7b5", "F#m7b5/B", "N.C.", "Abmaj7", "C##7sus4/Bbb"};
        // The long ones are rare, as in tunes; the longest of all once in a while.
        return symbols[below(below(4) == 0 ? 10 : 5)];
    }

    std::string bars(unsigned count) {
        std::string text;
        for (unsigned i = 0; i < count; ++i) text += (i > 0 ? " | " : "") + bar(i == 0);
        return text;
    }

    std::string bar(bool first) {
        if (!first && below(5) == 0) return "%";
        const unsigned kind = below(3);
        if (kind == 0 || beats_ == 3) return symbol();
        if (kind == 1) return symbol() + " " + symbol();
        std::string text = symbol();
        for (int i = 1; i < 4; ++i) text += below(2) == 0 ? " /" : " " + symbol();
        return text;
    }

    std::mt19937 random_;
    int beats_ = 4;
};

}  // namespace compline::tests
