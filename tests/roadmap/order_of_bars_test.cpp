#include "chart/support.hpp"
#include "support/catch.hpp"

#include <compline/chart/road_map_text.hpp>
#include <compline/roadmap/road_map.hpp>
#include <compline/text/bad_input.hpp>

#include <string>
#include <vector>

using namespace compline;

namespace {

/// A tune of bars with one chord each, so that a bar is known by its chord.
struct Tune {
    const char* name;
    std::string above;     ///< form and signs
    std::string sections;  ///< as they stand under `sections:`
    std::string road_map;
    std::string order;  ///< what is played, bar by bar, written by hand
};

chart::Form form_of(const Tune& tune) {
    const auto road_map = tune.road_map.empty() ? "" : "road map: \"" + tune.road_map + "\"\n";
    return chart::unroll(
        chart::read_chart(tune.above + road_map + tests::chart_text(tune.sections), "t.yaml"));
}

std::string order_of(const Tune& tune) {
    const auto form = form_of(tune);
    roadmap::Asked asked;
    asked.way = chart::own_road_map(form).value_or(chart::Way::of(form.whole(), 1));
    const roadmap::RoadMap map(form, asked);
    std::string order;
    for (std::int64_t number = 1; number <= *map.bars(); ++number) {
        const auto bar = map.bar(number);
        for (const auto& span : map.form().spans_in(bar.in_form())) {
            order += (order.empty() ? "" : " ") + span.chord->symbol();
        }
    }
    return order;
}

const std::string two_endings = "  A: {bars: C | D, endings: {1: E, 2: F}}\n  B: G\n";
const std::string with_coda = "  A: C | D | E\n  B: F | G\n  Coda: A | B\n";

const std::vector<Tune>& tunes() {
    static const std::vector<Tune> all = {
        {"a first and a second ending", "form: [A x2, B]\n", two_endings, "", "C D E C D F G"},
        {"a row begins anew behind another section", "form: [A x2, B, A]\n", two_endings, "",
         "C D E C D F G C D E"},
        {"the ending that is named", "form: [A x2, B, A ending 2]\n", two_endings, "",
         "C D E C D F G C D F"},
        {"without a form a section comes once for each ending", "", two_endings, "",
         "C D E C D F G"},
        {"an ending for several times", "form: [A x4]\n",
         "  A: {bars: C, endings: {1-3: D, 4: E}}\n", "", "C D C D C D C E"},
        {"past the last ending the last one comes again", "form: [A x3]\n", two_endings, "",
         "C D E C D F C D F"},
        {"nested: a section with endings inside what comes again", "form: [A x2, B, A x2, B]\n",
         two_endings, "head x2", "C D E C D F G C D E C D F G C D E C D F G C D E C D F G"},
        {"the head, then the head to the coda", "form: [A, B, A]\nto coda: \"A:2\"\n", with_coda,
         "head; head al coda", "C D E F G C D E C D E F G C D A B"},
        {"from the sign to the coda", "form: [A, B, A]\nto coda: \"A:2\"\nsegno: B\n", with_coda,
         "head; D.S. al coda", "C D E F G C D E F G C D A B"},
        {"a coda from a bar that is numbered", "form: [A, B]\nto coda: 4\n", with_coda,
         "head al coda", "C D E F A B"},
        {"from the beginning to the fine", "form: [A, B]\nfine: A\n", "  A: C | D\n  B: E | F\n",
         "head; D.C. al fine", "C D E F C D"},
        {"from the sign to the fine", "form: [A, B, A]\nsegno: \"A:2\"\nfine: B\n",
         "  A: C | D\n  B: E | F\n", "head; DS al Fine", "C D E F C D D E F"},
        {"from the sign to the end, with a lead-in that is played once",
         "lead-in: {beats: 2, chords: G7}\nform: [A, B]\nsegno: B\n", "  A: C | D\n  B: E | F\n",
         "head; D.S.", "C D E F E F"},
        {"a vamp for which nobody gives the cue, so often as is written", "form: [A, B]\n",
         "  A: C | D\n  B: E | F\n", "vamp until cue x3: bars=B; head", "E F E F E F C D E F"},
        {"... or four times", "form: [A]\n", "  A: C\n", "solo until cue; head", "C C C C C"},
        {"a coda in another meter, an intro and a tag", "form: [A, B]\nto coda: B\n",
         "  A: C | D | E\n  B: F | G\n  Coda: {meter: 3/4, bars: A | B}\n",
         "intro 2; head; head al coda; tag 2; held ending", "F G C D E F G C D E F G A B A B"},
        {"two sections with endings, each in a row of its own", "form: [A x2, B x2, A ending 1]\n",
         "  A: {bars: C, endings: {1: D, 2: E}}\n  B: {bars: F, endings: {1: G, 2: A}}\n", "",
         "C D C E F G F A C D"},
    };
    return all;
}

}  // namespace

TEST_CASE("forms with endings, signs, codas and vamps are played in the order written by hand") {
    for (const auto& tune : tunes()) {
        INFO(tune.name);
        CHECK(order_of(tune) == tune.order);
    }
}

TEST_CASE("bars are counted on into the coda, and named by section and ending") {
    const auto form = form_of(tunes()[7]);
    CHECK(form.whole() == chart::Passage{1, 8});
    CHECK(form.coda_from == 9);
    CHECK(form.to_coda == 7);
    CHECK(chart::read_passage(form, "Coda:1-2") == chart::Passage{9, 10});
    const auto endings = form_of(tunes()[2]);
    CHECK(chart::read_passage(endings, "A@2:1-3") == chart::Passage{4, 6});
    CHECK(chart::read_passage(endings, "A ending 2") == chart::Passage{6, 6});
    CHECK(chart::read_passage(endings, "A@3 ending 2") == chart::Passage{10, 10});
    CHECK_THROWS_AS(chart::read_passage(endings, "B ending 1"), text::BadInput);
    const auto refused = [&](const char* name) -> std::string {
        try {
            (void)chart::read_passage(endings, name);
        } catch (const text::BadInput& error) {
            return error.what();
        }
        return "";
    };
    CHECK(refused("A@2 ending 1") ==
          "A@2 does not take ending 1: write A ending 1 for the one that does");
    CHECK(refused("A@2 ending 9") == "no A of the form takes an ending 9");
    CHECK_THROWS_AS(chart::read_passage(form, "8-9"), text::BadInput);
}

TEST_CASE("what a band leads into is no seam: the coda, the sign, the beginning") {
    for (const int tune : {7, 8, 10}) {
        const auto form = form_of(tunes()[static_cast<std::size_t>(tune)]);
        roadmap::Asked asked;
        asked.way = *chart::own_road_map(form);
        for (const auto& change : roadmap::RoadMap(form, asked).changes()) CHECK(!change.seam);
    }
}

TEST_CASE("words of the bandstand are no names of parts") {
    const auto form = form_of(tunes()[2]);
    for (const char* road_map :
         {"head; fade", "half-time", "head; trading 4s", "head; trading fours", "trade 8s",
          "head; coda", "head; D.S. al nowhere", "segno", "rubato head", "head; ritardando",
          "head accelerando", "repeat head", "ending 2", "a tempo head", "solo until", "on cue"}) {
        INFO(road_map);
        try {
            (void)chart::read_road_map(form, road_map);
            FAIL_CHECK("it was read");
        } catch (const text::BadInput& error) {
            CHECK(std::string(error.what()).find("cannot name a part: ") != std::string::npos);
        }
    }
}

TEST_CASE("signs that the chart has not are asked for in words") {
    const auto form = form_of(tunes()[2]);
    const auto error = [&](const char* road_map) -> std::string {
        try {
            (void)chart::read_road_map(form, road_map);
        } catch (const text::BadInput& refused) {
            return refused.what();
        }
        return "";
    };
    CHECK(error("head; head al coda") ==
          "character 7: the chart has no to coda: write one such as `to coda: \"A:6\"` beside its "
          "form");
    CHECK(error("D.S.") ==
          "character 1: the chart has no segno: write one such as `segno: B` beside its form");
    CHECK(error("D.C. al fine") ==
          "character 1: the chart has no fine: write one such as `fine: \"A:8\"` beside its form");
    CHECK(error("head x2 al coda").find("al coda and al fine are for the last time") == 13);
    CHECK(error("head al coda x2").find("al coda and al fine are for the last time") == 13);
    CHECK(error("vamp until cue al coda").find("until cue and al coda in one part") == 13);
    CHECK(error("rit 2; head").find("a rit slows down the end of what stands before it") == 13);
    CHECK(error("head; rit 40").find("a rit over 40 bars: what stands before it has 10") == 13);
    CHECK(error("head; rit: a tempo").find("a colon behind rit: it stands alone") !=
          std::string::npos);
}

TEST_CASE("a way that the signs do not allow is refused with what to write in its place") {
    const auto error = [](const std::string& signs, const char* road_map) -> std::string {
        const auto text = "title: T\nkey: F\ntempo: 120\nform: [A, B]\n" + signs +
                          "sections: {A: C, B: F, Coda: G}\n";
        try {
            const auto form = chart::unroll(chart::read_chart(text, "t.yaml"));
            (void)chart::read_road_map(form, road_map);
        } catch (const text::BadInput& refused) {
            return refused.what();
        }
        return "";
    };
    CHECK(error("to coda: B\n", "head al coda; rit 2") ==
          "character 15: a rit over 2 bars: what stands before it has 1, write 1");
    CHECK(
        error("to coda: A\nsegno: B\n", "head; D.S. al coda") ==
        "character 7: from bar 2 to bar 1, as the signs of the chart have it, there is nothing to "
        "play: let the segno stand before that bar, or write D.C.");
}
