// Voicings that a chart asks for, in other keys.

#include "chart/support.hpp"
#include "support/catch.hpp"

#include <compline/chart/pins.hpp>
#include <compline/chart/transpose.hpp>

#include <string>
#include <vector>

using namespace compline;
using Lines = std::vector<std::string>;

namespace {

/// A tune in F with these shapes for its Gm7.
chart::Chart with_shapes(const std::vector<std::string>& shapes) {
    auto chart = tests::chart_of({"Gm7 | C7 | F6"});
    for (const auto& shape : shapes) {
        chart.voicings.push_back({"", harmony::read_chord("Gm7"), chart::read_shape_text(shape)});
    }
    return chart;
}

chart::Key major(const std::string& name) { return {harmony::read_chord(name).root, false}; }

/// "Am7 x-5-7-5-8-x": the chord and its shape.
Lines in_words(const chart::Chart& chart) {
    Lines lines;
    for (const auto& pin : chart.voicings) {
        auto line = pin.chord ? pin.chord->symbol(harmony::Accidentals::letters) + " " : "";
        for (const auto& fret : pin.frets) line += fret ? std::to_string(*fret) + "-" : "x-";
        lines.push_back(line.substr(0, line.size() - 1));
    }
    return lines;
}

}  // namespace

TEST_CASE("a voicing that the chart asks for moves along the neck with its chord") {
    const auto there = chart::transposed(with_shapes({"3x333x"}), major("G"), 22);
    CHECK(there.left_out.empty());
    CHECK(in_words(there.chart) == Lines{"Am7 5-x-5-5-5-x"});
    CHECK(in_words(chart::transposed(there.chart, major("F"), 22).chart) ==
          Lines{"Gm7 3-x-3-3-3-x"});
    const auto form = chart::unroll(there.chart);
    CHECK(chart::pin_for(form, 1, *form.spans[0].chord) != nullptr);
}

TEST_CASE("where the neck ends, a voicing is an octave off") {
    const auto low = chart::transposed(with_shapes({"3x333x"}), major("D"), 22);
    CHECK(in_words(low.chart) == Lines{"Em7 12-x-12-12-12-x"});
    const auto high = chart::transposed(with_shapes({"x-x-12-10-11-10"}), major("A"), 14);
    CHECK(in_words(high.chart) == Lines{"Bm7 x-x-4-2-3-2"});
}

TEST_CASE("a voicing that cannot move is left out, and that is said") {
    const auto there =
        chart::transposed(with_shapes({"3x333x", "3x3033", "x-10-12-1-11-x"}), major("G"), 13);
    CHECK(in_words(there.chart) == Lines{"Am7 5-x-5-5-5-x"});
    CHECK(there.left_out == Lines{"voicing 2 of 3 is left out: it has an open string, which does "
                                  "not move",
                                  "voicing 3 of 3 is left out: the neck has no room for it in this "
                                  "key"});
}

TEST_CASE("by another name of the same key open strings stay") {
    auto chart = tests::chart_of({"C#7"});
    chart.key = major("C#");
    chart.voicings.push_back({"", harmony::read_chord("C#7"), chart::read_shape_text("x43404")});
    const auto there = chart::transposed(chart, major("Db"), 22);
    CHECK(there.left_out.empty());
    CHECK(in_words(there.chart) == Lines{"Db7 x-4-3-4-0-4"});
}

TEST_CASE("a voicing is found in every section, by the name that its chord has there") {
    auto chart = chart::read_chart(tests::chart_text("  A: A7 | F6\n  B: A7 | A6\n"), "t.yaml");
    chart.sections[1].key = major("A");
    chart.voicings.push_back({"", harmony::read_chord("A7"), chart::read_shape_text("5x565x")});
    const auto form = chart::unroll(chart::transposed(chart, major("B"), 22).chart);
    REQUIRE(form.spans[0].chord->symbol() == "D♯7");
    REQUIRE(form.spans[2].chord->symbol() == "E♭7");
    CHECK(chart::pin_for(form, 1, *form.spans[0].chord) != nullptr);
    CHECK(chart::pin_for(form, 3, *form.spans[2].chord) != nullptr);
}
