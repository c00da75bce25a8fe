// Voicings as JSON: against the schema beside the source, and what stands in it.

#include "report/planned.hpp"
#include "report/rows.hpp"
#include "support/catch.hpp"
#include "support/command.hpp"
#include "support/schema.hpp"

#include <nlohmann/json.hpp>

#include <clocale>
#include <set>

using namespace compline;
using namespace compline::tests;
using nlohmann::json;

namespace {

constexpr const char* schema = "voicings-1.schema.json";

json parsed(const report::Voicings& voicings) {
    return json::parse(report::voicings_json(voicings));
}

report::Voicings with_all_wishes() {
    auto voicings = voicings_of_four_doors();
    auto& wishes = voicings.wishes;
    wishes.style = guitar::VoicingStyle::rootless;
    wishes.strings = {5, 4, 3, 2};
    wishes.right_hand = guitar::RightHand::fingers;
    wishes.low_root = guitar::LowRoot::disliked;
    wishes.near_fret = 5;
    wishes.position = 7;
    wishes.open_strings = wishes.thumb = wishes.long_chords_move = true;
    wishes.strictness = harmony::Strictness::substitutions;
    return voicings;
}

}  // namespace

TEST_CASE("voicings as JSON agree with their schema", "[report]") {
    if (!outside_python_module("jsonschema")) return;
    report::Voicings silent;
    silent.form = form_in_rows({"N.C."});
    silent.plans.push_back(plan_of(silent.form, {1, 1}, {}));
    report::Voicings one;
    one.form = form_in_rows({"C7alt"});
    one.plans.push_back(plan_of(one.form, {1, 1}, {{"1 3 2 3 4 x", "T2134x"}}));
    const auto checked = check_schema(
        {report::voicings_json(voicings_of_four_doors()), report::voicings_json(with_all_wishes()),
         report::voicings_json(silent), report::voicings_json(one)},
        schema);
    INFO(checked.output);
    CHECK(checked.status == 0);
}

TEST_CASE("behind a capo each chord has the name of its shape, without one none", "[report]") {
    auto voicings = voicings_of_four_doors();
    CHECK(parsed(voicings)["plans"][0]["voicings"][0]["shape_name"].is_null());
    const auto sounding = voicings.plans.front().voicings.front().change.to;
    const auto bare = guitar::Fretboard::standard();
    std::vector<harmony::MidiNote> open;
    for (int string = 1; string <= 6; ++string) open.emplace_back(bare.open(string).number());
    voicings.plans.front().fretboard = guitar::Fretboard(open, bare.frets(), 2);
    const auto named = parsed(voicings)["plans"][0]["voicings"][0];
    CHECK(named["chord"] == sounding.symbol(harmony::Accidentals::letters));
    const auto shape = harmony::read_chord(named["shape_name"].get<std::string>());
    CHECK((sounding.root.pitch_class() - shape.root.pitch_class() + 12) % 12 == 2);
    CHECK(shape.quality == sounding.quality);
}

TEST_CASE("the schema of voicings notices what is wrong", "[report]") {
    if (!outside_python_module("jsonschema")) return;
    const std::vector<std::string> patches = {
        R"([{"op": "remove", "path": "/guitar"}])",
        R"([{"op": "replace", "path": "/plans", "value": []}])",
        R"([{"op": "replace", "path": "/plans/0/voicings/0/fingers", "value": "x5x56x"}])",
        R"([{"op": "replace", "path": "/plans/0/voicings/0/notes/0/degree", "value": "R"}])",
        R"([{"op": "replace", "path": "/plans/0/voicings/0/notes/0/string", "value": 0}])",
        R"([{"op": "replace", "path": "/plans/0/voicings/0/move/fingers/0/act", "value": "hops"}])",
        R"([{"op": "replace", "path": "/wishes/root", "value": "low"}])",
        R"([{"op": "replace", "path": "/passage/from_bar", "value": 0}])",
    };
    for (const auto& patch : patches) {
        const auto spoilt = parsed(voicings_of_four_doors()).patch(json::parse(patch));
        INFO(patch);
        CHECK(check_schema({spoilt.dump()}, schema).status == 1);
    }
}

TEST_CASE("JSON has a voicing's place, shape, fingers and each note with its role", "[report]") {
    const auto all = parsed(voicings_of_four_doors());
    CHECK(all["chart"]["title"] == "Four Doors");
    CHECK(all["guitar"]["tuning"] == json({"E2", "A2", "D3", "G3", "B3", "E4"}));
    CHECK(all["plans"].size() == 2);
    const auto& a7 = all["plans"][0]["voicings"][4];
    CHECK(a7["bar"] == 4);
    CHECK(a7["beat"] == 4);
    CHECK(a7["section"] == "A");
    CHECK(a7["chord"] == "A7");
    CHECK(a7["shape"] == "x0202x");
    CHECK(a7["fingers"] == "x0102x");
    CHECK(a7["notes"][0] ==
          json({{"name", "A2"}, {"string", 5}, {"fret", 0}, {"finger", nullptr}, {"degree", "1"}}));
    CHECK(a7["notes"][3] ==
          json({{"name", "C#4"}, {"string", 2}, {"fret", 2}, {"finger", "2"}, {"degree", "3"}}));
    CHECK(all["plans"][0]["voicings"][11]["notes"][2]["name"] == "F4");
    CHECK(all["plans"][0]["cost"] == 13 * 170);
    CHECK(all["plans"][1]["cost"] == 13 * 170 + 75);
}

TEST_CASE("JSON has the move to a voicing, the first one's from the last", "[report]") {
    const auto plan = parsed(voicings_of_four_doors())["plans"][0];
    const auto& first = plan["voicings"][0]["move"];
    CHECK(first["from_bar"] == 10);
    const auto& to_g = plan["voicings"][1]["move"];
    CHECK(to_g["from_bar"] == 1);
    CHECK(to_g["fingers"][0] == json({{"finger", "1"},
                                      {"act", "lifts"},
                                      {"from_string", 3},
                                      {"to_string", nullptr},
                                      {"frets", 0}}));
    CHECK(to_g["top"]["from"] == "F4");
    CHECK(to_g["top"]["to"] == "B3");
    CHECK(plan["totals"]["changes"] == 13);
    CHECK(plan["totals"]["widest_jump"]["frets"].is_number_integer());
}

TEST_CASE("tones are named as a comper names them", "[report]") {
    report::Voicings voicings;
    voicings.form = form_in_rows({"G7 | C"});
    voicings.plans.push_back(
        plan_of(voicings.form, {1, 2}, {{"x x 3 4 5 5", "xx1234"}, {"x x 2 2 3 3", "xx1123"}}));
    const auto notes = parsed(voicings)["plans"][0]["voicings"];
    CHECK(notes[0]["notes"][2]["degree"] == "13");
    CHECK(notes[0]["notes"][3]["degree"] == "9");
    CHECK(has(report::voicings_text(voicings), "♭7 3 13 9"));
}

TEST_CASE("JSON is the same bytes whatever the locale", "[report]") {
    const auto before = report::voicings_json(voicings_of_four_doors());
    std::setlocale(LC_NUMERIC, "de_DE.UTF-8");
    const auto after = report::voicings_json(voicings_of_four_doors());
    std::setlocale(LC_NUMERIC, "C");
    CHECK(before == after);
}
