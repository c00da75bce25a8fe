// compline compare and score of a folder of takes.

#include "app/pupil_folder.hpp"

#include "support/outside_data.hpp"
#include "support/schema.hpp"

#include <nlohmann/json.hpp>

using namespace compline;
using namespace compline::tests;
using Json = nlohmann::json;

namespace {

const std::string other_tune_text =
    "title: It's Another Tune\nkey: C\ntempo: 132\nsections:\n  A: |\n"
    "    Cmaj7 | A7 | Dm7 | G7\n";

void check_refused(const Ran& ran, const std::string& words) {
    INFO(shown(ran));
    CHECK(ran.status == 2);
    CHECK(ran.out.empty());
    CHECK(contains(ran.err, words));
}

Json json_of(const Ran& ran) {
    INFO(shown(ran));
    REQUIRE(ran.status == 0);
    return Json::parse(ran.out);
}

}  // namespace

TEST_CASE("compare of a folder shows a tune over time, place by place", "[app]") {
    const PupilFolder pupil;
    pupil.save_three_evenings();
    const auto ran = pupil.compline("compare");
    INFO(shown(ran));
    CHECK(ran.status == 0);
    CHECK(ran.err.empty());
    CHECK(contains(ran.out,
                   "Eight Bars for a Clumsy Hand\n"
                   "Better in 1 place, worse in none, the same in 9, from 3 November to 28 "
                   "November,\nover 3 evenings: right and in time 5 of 10, then 6 of 10.\n"));
    CHECK(contains(ran.out, "3 Nov   12 Nov   28 Nov\n"));
    CHECK(contains(ran.out, "  2      Cmaj7 → A7       late     late    right  better\n"));
    INFO(ran.out);
    CHECK(contains(ran.out, "5 always right (--all lists them)"));
    CHECK(!contains(ran.out, "Other tunes"));
    const auto all = pupil.compline("compare", {"--all"});
    CHECK(!contains(all.out, "Not listed"));
    CHECK(contains(all.out, "\n  1 "));
    CHECK(!contains(ran.out, "\n  1 "));
}

TEST_CASE("compare of a folder as JSON has every evening and place, the same bytes each time",
          "[app][schema]") {
    const PupilFolder pupil;
    pupil.save_three_evenings();
    const auto ran = pupil.compline("compare", {"--json"});
    const auto json = json_of(ran);
    CHECK(json["schema"] == "compline.progress/1");
    REQUIRE(json["evenings"].size() == 3);
    CHECK(json["evenings"][2]["evening"] == "2026-11-28");
    CHECK(json["evenings"][2]["takes"] == Json::array({"a.mid"}));
    CHECK(json["places"].size() == 10);
    CHECK(pupil.compline("compare", {"--json"}).out == ran.out);
    if (!outside_python_module("jsonschema")) return;
    CHECK(check_schema({ran.out}, "progress-1.schema.json").status == 0);
}

TEST_CASE("of a folder with several tunes the most played is shown, the others have their lines",
          "[app]") {
    const PupilFolder pupil;
    pupil.save_three_evenings();
    pupil.save("other.mid", "2026-11-30T20:00:00+01:00", {{1, 1, "x324xx"}}, other_tune_text);
    pupil.save_text("other.yaml", other_tune_text);
    const auto ran = pupil.compline("compare", {"--strictness=written", "--bars", "1-4"});
    INFO(shown(ran));
    CHECK(ran.status == 0);
    CHECK(contains(ran.out, "Eight Bars for a Clumsy Hand\n"));
    CHECK(contains(ran.out, "\nOther tunes here\n  It's Another Tune, 1 take\n"));
    CHECK(contains(ran.out, "--strictness=written"));
    CHECK(contains(ran.out, "--bars 1-4"));
    CHECK(contains(ran.out, "--tune 'It'\\''s Another Tune'"));
    const auto other = pupil.compline("compare", {"--tune", "another"});
    INFO(shown(other));
    CHECK(contains(other.out, "It's Another Tune\nOne evening alone, 30 November"));
    CHECK(contains(other.out, "--tune 'Eight Bars for a Clumsy Hand'"));
    CHECK(!contains(other.out, "--tune another"));
    CHECK(pupil.compline("compare", {"--chart", pupil.path("other.yaml")}).out == other.out);
    check_refused(pupil.compline("compare", {"--tune", "waltz"}),
                  "--tune \"waltz\": no tune has this in its title: there are takes of Eight Bars "
                  "for a Clumsy Hand and It's Another Tune");
}

TEST_CASE("a chart that was changed since is another tune, until it is given for both", "[app]") {
    const PupilFolder pupil;
    pupil.save_three_evenings();
    std::string text = eight_bars_text;
    text.replace(text.find("A7"), 2, "A9");
    pupil.save("changed.mid", "2026-11-29T20:00:00+01:00", clumsy_hand(), text);
    pupil.save("bars.mid", "2026-11-29T20:00:00+01:00", {{1, 1, "x324xx"}},
               "title: Bars\n" + other_tune_text.substr(other_tune_text.find("key")) +
                   "    Cmaj7 | Am7 | Dm7 | G7\n");
    pupil.save_text("eight-bars.yaml", eight_bars_text);
    pupil.save_text("other.yaml", other_tune_text);
    const auto ran = pupil.compline("compare");
    INFO(shown(ran));
    CHECK(contains(ran.out, "over 3 evenings"));
    CHECK(contains(ran.out, "  Eight Bars for a Clumsy Hand by a chart with other bars, 1 take\n"));
    CHECK(contains(ran.out, "--chart CHART"));
    // A whole title counts before a part of another one.
    CHECK(contains(ran.out, "--tune Bars"));
    CHECK(contains(pupil.compline("compare", {"--tune", "bars"}).out, "Bars\nOne evening alone"));
    const auto chart = pupil.path("eight-bars.yaml");
    const auto by_one = pupil.compline("compare", {"--chart", chart});
    CHECK(contains(by_one.err, "changed.mid: bar 2 was played to A9"));
    CHECK(contains(by_one.out, "over 4 evenings"));
    check_refused(pupil.compline("compare", {"--chart", pupil.path("other.yaml")}),
                  "other.yaml: no take was played to it: there are takes of Eight Bars for a "
                  "Clumsy Hand and Bars");
    check_refused(
        pupil.compline("compare", {pupil.anna() + "/a.mid", "--chart", pupil.path("other.yaml")}),
        "anna: no take in it was played to ");
}

TEST_CASE("takes of a tune in other keys, and loops of it, are of that tune", "[app]") {
    const PupilFolder pupil;
    pupil.save_three_evenings();
    const auto form = eight_bars();
    const auto in_d = chart::unroll(
        chart::transposed(form.chart, chart::read_key_for(form.chart.key, "D"), chart::highest_fret)
            .chart);
    const auto higher = through(in_d);
    auto strums = with_bar_2_late_by(120);
    for (auto& strum : strums) {  // two frets higher; ':' stands for fret 10
        for (auto& fret : strum.frets) fret = static_cast<char>(fret == 'x' ? fret : fret + 2);
    }
    pupil.save("d.mid", "2026-11-01T20:00:00+01:00", PupilFolder::take_of(strums, higher), higher);
    const roadmap::RoadMap loop(form, roadmap::Asked::of({1, 2}, 3));
    pupil.save("loop.mid", "2026-11-20T20:00:00+01:00",
               PupilFolder::take_of({{1, 1, "x324xx"}, {2, 1, "5x56xx"}}, loop), loop);
    const auto json = json_of(pupil.compline("compare", {"--json"}));
    CHECK(json["takes"] == 5);
    CHECK(json["other_tunes"].empty());
    CHECK(json["evenings"][0]["keys"] == Json::array({"D"}));
    CHECK(json["chart"]["key"] == "C");
    const auto& bar_2 = json["places"][1];
    CHECK(bar_2["to"] == "A7");
    CHECK(bar_2["by_evening"][0]["late"] == 1);
    CHECK(bar_2["by_evening"][3]["of"] == 3);
    CHECK(json["places"][2]["by_evening"][3].is_null());
    // In the key of D they are as right as in C.
    CHECK(json["evenings"][0]["right"] == json["evenings"][1]["right"]);
    // Who asks for bars that a loop has not got does not get it.
    const auto some = pupil.compline("compare", {"--bars", "3-4", "--json"});
    CHECK(contains(some.err, "loop.mid: only bars 1-2 were played: it is left out"));
    CHECK(json_of(some)["takes"] == 4);
}

TEST_CASE("with a take by sound in the folder all are compared by time alone", "[app]") {
    const PupilFolder pupil;
    pupil.save_three_evenings();
    pupil.save("sound.mid", "2026-11-20T20:00:00+01:00", take_by_sound(slow_hand()),
               through(eight_bars()));
    const auto ran = pupil.compline("compare");
    INFO(shown(ran));
    CHECK(contains(ran.out, "Of 1 take only sound was heard: time alone is compared"));
    CHECK(!contains(ran.out, "wrong"));
    CHECK(json_of(pupil.compline("compare", {"--json"}))["time_alone"] == true);
}

TEST_CASE("what is no take in a folder is named, and the others are compared", "[app]") {
    const PupilFolder pupil;
    pupil.save_three_evenings();
    pupil.save_text("anna/text.mid", "a shopping list\n");
    pupil.save_text("anna/notes.txt", "practise more\n");
    pupil.save_text("anna/._a.mid", "hidden\n");
    auto foreign = PupilFolder::take_of(clumsy_hand(), through(eight_bars()));
    foreign.info.reset();
    pupil.save("foreign.mid", "", foreign, through(eight_bars()));
    const auto ran = pupil.compline("compare");
    INFO(shown(ran));
    CHECK(ran.status == 2);
    CHECK(contains(ran.out, "over 3 evenings"));
    CHECK(contains(ran.err, "text.mid: byte 0"));
    CHECK(contains(ran.err, "foreign.mid: it carries no chart"));
    CHECK(!contains(ran.err, "notes.txt"));
    CHECK(!contains(ran.err, "._a.mid"));
    CHECK(!contains(ran.out, "2026"));
    // Beside a chart it is one of its takes, without a date.
    pupil.save_text("eight-bars.yaml", eight_bars_text);
    const auto with_chart = pupil.compline("compare", {"--chart", pupil.path("eight-bars.yaml")});
    INFO(shown(with_chart));
    CHECK(contains(with_chart.out, "over 3 evenings and 1 take without a date"));
}

TEST_CASE("takes of old, which carry no chart, are compared by the chart they were played to",
          "[app]") {
    const std::string old = std::string(COMPLINE_SOURCE_DIR) + "/tests/practice/takes-1";
    const auto ran = run_compline(
        {"compare", old, "--chart", old + "/blue-kettle-on-the-back-stairs.yaml", "--json"});
    CHECK(ran.status == 2);
    CHECK(contains(ran.err, "silences.mid: it was played to other changes than those of this "));
    const auto json = Json::parse(ran.out);
    REQUIRE(json["evenings"].size() == 2);
    CHECK(json["evenings"][0]["takes"] == Json::array({"cut-short.mid"}));
    CHECK(json["evenings"][1]["takes"] == Json::array({"no-band.mid"}));
}

TEST_CASE("a take that hardly fits its tune, or has no notes, is left out over time", "[app]") {
    const PupilFolder pupil;
    pupil.save_three_evenings();
    const auto map = through(eight_bars(), 3);
    std::vector<Strum> capo;
    for (int time = 0; time < 3; ++time) {
        for (auto strum : with_bar_2_late_by(5)) {
            strum.bar += 8 * time;
            for (auto& fret : strum.frets) fret = static_cast<char>(fret == 'x' ? fret : fret + 1);
            capo.push_back(strum);
        }
    }
    pupil.save("capo.mid", "2026-11-20T20:00:00+01:00", PupilFolder::take_of(capo, map), map);
    pupil.save("silent.mid", "2026-11-21T20:00:00+01:00", std::vector<Strum>{});
    const auto ran = pupil.compline("compare", {"--json"});
    CHECK(json_of(ran)["takes"] == 3);
    INFO(ran.err);
    CHECK(contains(ran.err, "capo.mid: it hardly fits and is left out. It fits a semitone higher"));
    CHECK(contains(ran.err, "silent.mid: there are no notes in it"));
}

TEST_CASE("compare of a folder with a take, or of two folders, counts takes of a tune together",
          "[app][schema]") {
    const PupilFolder pupil;
    pupil.save_three_evenings();
    pupil.save("other.mid", "2026-11-30T20:00:00+01:00", {{1, 1, "x324xx"}}, other_tune_text);
    const auto last = pupil.anna() + "/a.mid";
    const auto ran = pupil.compline("compare", {last});
    INFO(shown(ran));
    CHECK(ran.status == 0);
    CHECK(contains(ran.out,
                   "Better in 1 place, worse in none: right and in time 16 of 30, then 6 "
                   "of 10.\nFirst 3 takes, 3 November to 28 November; then 1 take, 28 "
                   "November.\n"));
    CHECK(contains(ran.out, "Cmaj7 → A7: late 2 of 3 by 100 ms; then right 1 of 1"));
    CHECK(!contains(ran.out, "Other tunes"));  // the take has one
    const auto json = pupil.compline("compare", {pupil.anna(), "--json"});
    const auto both = json_of(json);
    CHECK(both["schema"] == "compline.comparison/1");
    CHECK(both["before"]["takes"] == Json::array({"c.mid", "b.mid", "a.mid"}));
    CHECK(both["before"]["take"].is_null());
    CHECK(both["places"][1]["before"] == both["places"][1]["after"]);
    CHECK(contains(pupil.compline("compare", {pupil.anna()}).out, "--tune 'It'\\''s Another"));
    const auto all = pupil.compline("compare", {last, "--all"});
    CHECK(contains(all.out, "\nThe same\n  bar 1  Cmaj7: right 3 of 3; then right 1 of 1\n"));
    if (!outside_python_module("jsonschema")) return;
    CHECK(check_schema({json.out}, "comparison-1.schema.json").status == 0);
}

TEST_CASE("compare says what it needs: one take, three, or a folder with none", "[app]") {
    const PupilFolder pupil;
    check_refused(pupil.compline("compare"), "anna: there is no take in it (*.mid)");
    check_refused(pupil.compline("score"), "anna: there is no take in it (*.mid)");
    std::filesystem::create_directory(pupil.path("anna/may"));
    check_refused(pupil.compline("score"), "folders in it are not looked into: may");
    pupil.save_three_evenings();
    const auto a = pupil.anna() + "/a.mid";
    check_refused(run_compline({"compare", a}),
                  "a.mid: it is one take alone: name a second one behind it, or a folder of takes");
    check_refused(run_compline({"compare", a, a, a}),
                  "compare takes two takes, or a folder: 3 are named");
    check_refused(run_compline({"compare"}), "TAKE");
    check_refused(run_compline({"compare", pupil.path("nowhere")}),
                  "nowhere: No such file or directory");
    std::string text = eight_bars_text;
    text.replace(text.find("A7"), 2, "A9");
    pupil.save("../changed.mid", "", clumsy_hand(), text);
    check_refused(pupil.compline("compare", {pupil.path("changed.mid")}),
                  "changed.mid carry different charts: say by --chart which one both were played");
    pupil.save_text("anna/a.mid", "");
    pupil.save_text("anna/b.mid", "");
    pupil.save_text("anna/c.mid", "");
    check_refused(pupil.compline("compare"), "anna: no take in it can be compared");
}

TEST_CASE("score of a folder judges its takes in order of when they were made", "[app]") {
    const PupilFolder pupil;
    pupil.save_three_evenings();
    pupil.save("0-undated.mid", "", clumsy_hand());
    pupil.save_text("anna/text.mid", "a shopping list\n");
    const auto ran = pupil.compline("score");
    INFO(shown(ran));
    CHECK(ran.status == 2);
    CHECK(contains(ran.err, "text.mid: byte 0"));
    const auto at = [&](const std::string& name) { return ran.out.find("\n" + name); };
    CHECK(at("c.mid") < at("b.mid"));
    CHECK(at("b.mid") < at("a.mid"));
    CHECK(at("a.mid") < at("0-undated.mid"));
    CHECK(contains(ran.out, "All together"));
    // A take that is named beside a folder stands where it is named.
    std::filesystem::remove(pupil.path("anna/text.mid"));
    const auto mixed =
        json_of(run_compline({"score", pupil.anna() + "/a.mid", pupil.anna(), "--json"}));
    CHECK(mixed["schema"] == "compline.reports/1");
    REQUIRE(mixed["takes"].size() == 5);
    CHECK(mixed["takes"][0]["take"] == "a.mid");
    CHECK(mixed["takes"][1]["take"] == "c.mid");
}
