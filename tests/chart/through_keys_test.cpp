#include "chart/support.hpp"
#include "support/catch.hpp"

#include <compline/chart/road_map_text.hpp>
#include <compline/chart/through_keys.hpp>
#include <compline/chart/write_chart.hpp>
#include <compline/text/bad_input.hpp>

#include <string>

using namespace compline;
using chart::read_key_step;

namespace {

chart::Form turnaround() {
    return chart::unroll(chart::read_chart(
        tests::chart_text(
            "  A: F6 | D7 | Gm7 C7! | F6\n  B: {key: D, meter: 3/4, bars: Em7 | A7~2}\n"),
        "t"));
}

std::string chords(const chart::Form& form, chart::Passage passage) {
    std::string text;
    for (const auto& span : form.spans_of(passage)) {
        text += (text.empty() ? "" : " ") + span.chord->symbol(harmony::Accidentals::letters);
    }
    return text;
}

}  // namespace

TEST_CASE("a way from key to key is up or down an interval, and others are told so") {
    CHECK(read_key_step("up a fourth") == 5);
    CHECK(read_key_step("Down a Semitone") == -1);
    CHECK(read_key_step("down whole step") == -2);
    CHECK(read_key_step("up a minor third") == 3);
    for (const char* text : {"", "up", "a fourth", "up an octave", "up 5", "sideways a fourth"}) {
        CHECK_THROWS_AS(read_key_step(text), text::BadInput);
    }
    CHECK(chart::keys_around(5) == 12);
    CHECK(chart::keys_around(-2) == 6);
    CHECK(chart::keys_around(3) == 4);
    CHECK(chart::keys_around(6) == 2);
}

TEST_CASE("a passage goes through all keys by fourths, one a time through, bar by bar the same") {
    const auto form = turnaround();
    const auto all = chart::unroll(chart::through_keys(form, {3, 4}, 5, std::nullopt));
    CHECK(all.bars.size() == 24);
    CHECK(chords(all, {1, 2}) == "Gm7 C7 F6");
    CHECK(chords(all, {3, 4}) == "Cm7 F7 Bb6");
    CHECK(chords(all, {23, 24}) == "Dm7 G7 C6");
    CHECK(all.bar(3).key.name(harmony::Accidentals::letters) == "Bb");
    CHECK(all.bar(5).section == "A in E flat");
    CHECK(all.bar(3).kicks == form.bar(3).kicks);
    const auto way = chart::own_road_map(all);
    REQUIRE(way);
    CHECK(way->times_through() == 12);
    CHECK(way->stretch(2).passage == chart::Passage{3, 4});
    CHECK(way->stretch(2).name == "in B flat");
}

TEST_CASE("sections with a key, a meter and a fermata of their own keep them on the way") {
    const auto all = chart::unroll(chart::through_keys(turnaround(), {4, 6}, -1, 14));
    CHECK(chords(all, {1, 3}) == "F6 Em7 A7");
    CHECK(chords(all, {4, 6}) == "E6 Ebm7 Ab7");
    CHECK(all.bar(5).meter == time::Meter(3));
    CHECK(all.bar(6).hold == time::quarter_note * 2);
    CHECK(chart::own_road_map(all)->times_through() == 14);
    CHECK(chart::own_road_map(all)->stretch(13).passage == chart::Passage{1, 3});
}

TEST_CASE("what goes through the keys is a chart that can be written and read") {
    for (const int step : {1, -1, 2, 3, 5, 6, 7}) {
        const auto all = chart::through_keys(turnaround(), {1, 6}, step, std::nullopt);
        const auto text = chart::write_chart(all);
        INFO(text);
        CHECK(tests::problems_of(text).empty());
        CHECK(chart::read_chart(text, "t") == all);
    }
}
