// Every kind of report against the JSON Schema beside the source, by Debian's python3-jsonschema.

#include "support/schema.hpp"

#include "report/hand_made.hpp"
#include "support/catch.hpp"
#include "support/command.hpp"

#include <compline/report/takes.hpp>
#include <compline/simulate/played.hpp>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

using namespace compline;
using namespace compline::tests;

namespace {

/// A simulated guitarist with mistakes of every kind, two times through.
std::vector<midi::TimedMessage> rehearsed(const roadmap::RoadMap& map) {
    simulate::Habits habits;
    habits.rates.fill(0.1);
    return simulate::perform(simulate::play(map, habits, 7).script, map,
                             guitar::Fretboard::standard());
}

std::string rehearsed_json(const roadmap::RoadMap& map, const assess::Settings& settings = {}) {
    return report::to_json(judged(map, rehearsed(map), settings));
}

roadmap::RoadMap our_chart(const std::string& name) {
    const auto file = std::string(COMPLINE_SOURCE_DIR) + "/charts/" + name + ".yaml";
    return through(chart::unroll(chart::load_chart(file)), 2);
}

roadmap::RoadMap straight(const roadmap::RoadMap& map) {
    auto asked = map.asked();
    asked.manner.feel = chart::Feel::straight;
    return {map.form(), asked};
}

assess::Settings substitutions_in_four() {
    assess::Settings settings;
    settings.strictness = harmony::Strictness::substitutions;
    settings.rhythm = assess::read_rhythm("four", time::Meter(4));
    settings.pushes = false;
    return settings;
}

assess::Settings written_pattern() {
    assess::Settings settings;
    settings.strictness = harmony::Strictness::written;
    settings.rhythm = assess::read_rhythm("1 2&", time::Meter(4));
    settings.tolerance = time::from_milliseconds(12.5);
    return settings;
}

/// Bars 5-8 from bar 11 on, then a pause; in three tempi.
roadmap::RoadMap looped_and_paused(const roadmap::RoadMap& map) {
    const auto loop = chart::Way::of({5, 8}, 3);
    return map.with({11, roadmap::NewWay{loop}})
        .with({13, roadmap::NewTempo{time::Bpm(137.28)}})
        .with({17, roadmap::Paused{}})
        .with({17, roadmap::NewTempo{time::Bpm(120)}})
        .with({17, roadmap::Waited{16, loop}});
}

assess::Habit habit(assess::HabitKind kind, assess::HabitFault fault) {
    assess::Habit habit;
    habit.kind = kind;
    habit.fault = fault;
    habit.cases = 5;
    habit.of = 6;
    habit.cost = 1.25;
    return habit;
}

/// One of a place, one of a transition and so on, each with what it has.
std::vector<assess::Habit> every_habit() {
    using Kind = assess::HabitKind;
    using HabitFault = assess::HabitFault;
    std::vector<assess::Habit> habits;
    for (int kind = 0; kind < assess::habit_kinds; ++kind) {
        habits.push_back(habit(static_cast<Kind>(kind), HabitFault::mixed));
    }
    const auto of = [&](Kind kind) -> assess::Habit& {
        return habits[static_cast<std::size_t>(kind)];
    };
    for (const auto kind : {Kind::place, Kind::left_out}) {
        of(kind).bar = 14;
        of(kind).beat = time::BeatOfBar(2.5);
        of(kind).section = "B";
    }
    for (const auto kind : {Kind::place, Kind::left_out, Kind::transition, Kind::wait}) {
        of(kind).to = chord("Bb7");
    }
    of(Kind::transition).from = chord("Fm7");
    of(Kind::place).fault = HabitFault::late;
    of(Kind::place).mean_ms = 106.25;
    of(Kind::quality).quality = "dominant ♭9";
    of(Kind::tone).quality = "half-diminished";
    of(Kind::tone).tone = harmony::Degree{5, -1};
    of(Kind::string).string = 3;
    return habits;
}

/// What the clumsy hand did not do: the first change waited for, the second left out, the third
/// astray; strums, and a place behind the beat.
practice::Report wandering_report() {
    auto report = clumsy_report();
    auto& assessment = report.assessment;
    auto& changes = assessment.changes;
    changes[0].verdict = assess::Verdict::placed;
    changes[0].beats_in = 1;
    changes[0].wait = true;
    changes[1].verdict = assess::Verdict::laid_out;
    changes[1].lateness.reset();
    changes[1].beats_in.reset();
    changes[1].left_out = true;
    changes[2].verdict = assess::Verdict::astray;
    changes[2].meant = chord("Bb7");
    assessment.strums = {{1, 1, time::BeatOfBar(2.5), time::Seconds(0.5),
                          time::from_milliseconds(-3.25), assess::ReadAs::landing},
                         {2, 8, time::BeatOfBar(1), time::Seconds(28), time::from_milliseconds(12),
                          assess::ReadAs::up_stroke}};
    assessment.own_place.on_beats = time::from_milliseconds(26);
    assessment.own_place.off_beats = time::from_milliseconds(-1.5);
    assessment.own_place.told_apart = true;
    assessment.astray = {{1, 3, 4, 0.5, 4}, {2, 7, 2, -1, 4}};
    assessment.totals.uncertain = 2;
    assessment.habits = every_habit();
    return report;
}

nlohmann::json wandering_json() {
    return nlohmann::json::parse(report::to_json(wandering_report()));
}

nlohmann::json clumsy_json() { return nlohmann::json::parse(report::to_json(clumsy_report())); }

}  // namespace

TEST_CASE("every kind of report follows the schema", "[report][schema]") {
    if (!outside_python_module("jsonschema")) return;
    const auto map = through(eight_bars());
    const auto played = play(clumsy_hand(), map);
    const auto blues = our_chart("blue-kettle-on-the-back-stairs");
    auto troubled = clumsy_report();
    troubled.machine =
        practice::Machine{"JACK: system", "JACK: \xFFguitar", 48000, 256, 5.3, 0.25, 2, 3, 1, 4};
    troubled.machine->round_trip_ms = 11.3541;
    troubled.delays =
        practice::DelaysTaken{{time::from_milliseconds(9), 1.5, {time::from_milliseconds(8)}}};
    troubled.assessment.changes[1].uncertain = true;
    troubled.heard.unheard = {{time::Seconds(1.25), time::Seconds(4.5)}};
    CHECK(nlohmann::json::parse(report::to_json(troubled))["cable_out"] ==
          nlohmann::json::parse(R"([{"from_s": 1.25, "to_s": 4.5}])"));
    CHECK(nlohmann::json::parse(report::to_json(troubled))["machine"]["round_trip_ms"] == 11.354);
    CHECK(nlohmann::json::parse(report::to_json(troubled))["delays"] ==
          nlohmann::json::parse(R"({"by": "settings", "constant_ms": 9.0, "cycles": 1.5,
                                    "by_string_ms": [8.0], "moved_ms": null})"));
    auto moved = troubled;
    moved.delays->round_trip = practice::RoundTripNow::taken;
    moved.delays->moved = time::from_milliseconds(-6.0004);
    CHECK(nlohmann::json::parse(report::to_json(moved))["delays"]["moved_ms"] == -6.0);
    const auto checked = check_schema({
        report::to_json(clumsy_report()),
        report::to_json(judged(map, on_one_channel(played))),
        report::to_json(judged(map, {})),
        report::to_json(judged(map, {}, substitutions_in_four())),
        report::to_json(judged(through(make_form(time::Meter(4), time::Bpm(400), {"N.C."})), {})),
        report::to_json(troubled),
        report::to_json(moved),
        report::to_json(wandering_report()),
        rehearsed_json(blues),
        rehearsed_json(looped_and_paused(blues)),
        rehearsed_json(straight(blues)),
        rehearsed_json(blues, substitutions_in_four()),
        rehearsed_json(blues, written_pattern()),
        rehearsed_json(our_chart("waltz-for-a-leaning-chimney")),
        rehearsed_json(our_chart("three-lamps-on-weir-lane")),
        rehearsed_json(our_chart("the-ferryman-counts-to-nine")),
    });
    INFO(checked.output);
    CHECK(checked.status == 0);
}

TEST_CASE("the schema refuses spoilt reports", "[report][schema]") {
    if (!outside_python_module("jsonschema")) return;
    const std::vector<std::pair<std::string, std::string>> spoilt{
        // What is spoilt (a JSON Patch), and what is then said of it.
        {R"([{"op": "replace", "path": "/schema", "value": "compline.report/1"}])", "schema: "},
        {R"([{"op": "remove", "path": "/weakest"}])", "'weakest' is a required property"},
        {R"([{"op": "replace", "path": "/changes/0/verdict", "value": "fine"}])", "'fine' is not"},
        {R"([{"op": "replace", "path": "/changes/0/lateness_ms", "value": "6"}])", "lateness_ms: "},
        {R"([{"op": "replace", "path": "/changes/0/lateness_ms", "value": null}])",
         "changes/0/lateness_ms: None is not of type 'number'"},
        {R"([{"op": "replace", "path": "/changes/7/lateness_ms", "value": 3}])",
         "changes/7/lateness_ms: 3 is not of type 'null'"},
        {R"([{"op": "replace", "path": "/changes/4/wrong", "value": []}])", "changes/4/wrong: "},
        {R"([{"op": "replace", "path": "/changes/4/wrong/0/string", "value": 0}])", "string: 0"},
        {R"([{"op": "replace", "path": "/changes/0/bar", "value": 0}])", "changes/0/bar: 0"},
        {R"([{"op": "replace", "path": "/changes/0/bar", "value": 1.5}])", "changes/0/bar: 1.5"},
        {R"([{"op": "replace", "path": "/chart/meter", "value": "7/4"}])", "chart/meter: '7/4'"},
        {R"([{"op": "replace", "path": "/totals/late", "value": -1}])", "totals/late: -1"},
        {R"([{"op": "remove", "path": "/totals/uncertain"}])", "'uncertain' is a required"},
        {R"([{"op": "replace", "path": "/settings/against", "value": "me"}])", "against: 'me'"},
        {R"([{"op": "replace", "path": "/changes/2/verdict", "value": "on_time"}])",
         "changes/2/meant: 'Bb7' is not of type 'null'"},
        {R"([{"op": "replace", "path": "/changes/0/verdict", "value": "late"}])",
         "changes/0/verdict: 'placed' was expected"},
        {R"([{"op": "replace", "path": "/changes/1/verdict", "value": "held"}])",
         "changes/1/verdict: 'laid_out' was expected"},
        {R"([{"op": "replace", "path": "/strums/0/read_as", "value": "noise"}])",
         "strums/0/read_as: 'noise' is not"},
        {R"([{"op": "replace", "path": "/own_place_ms/told_apart", "value": null}])",
         "told_apart: None is not of type 'boolean'"},
        {R"([{"op": "replace", "path": "/astray/0/bars", "value": null}])", "bars: None is not"},
        {R"([{"op": "remove", "path": "/habits/0/bar"}])", "'bar' is a required property"},
        {R"([{"op": "remove", "path": "/habits/6/tone"}])", "'tone' is a required property"},
        {R"([{"op": "replace", "path": "/habits/7/what", "value": "luck"}])",
         "what: 'luck' is not"},
        {R"([{"op": "replace", "path": "/habits/0/cases", "value": 2}])", "habits/0/cases: 2 is"},
        {R"([{"op": "replace", "path": "/played/tempi/0/tempo_bpm", "value": "fast"}])",
         "tempo_bpm: 'fast' is not of type 'number'"},
        {R"([{"op": "remove", "path": "/played/tempi/0/time_through"}])",
         "'time_through' is a required property"},
        {R"([{"op": "replace", "path": "/played/tempi/0/from_bar_played", "value": 0}])",
         "from_bar_played: 0"},
        {R"([{"op": "replace", "path": "/played/tempi", "value": 132}])",
         "played/tempi: 132 is not of type 'array'"},
    };
    std::vector<std::string> reports;
    for (const auto& [patch, words] : spoilt) {
        reports.push_back(wandering_json().patch(nlohmann::json::parse(patch)).dump());
    }
    const auto checked = check_schema(reports);
    INFO(checked.output);
    CHECK(checked.status == 1);
    for (std::size_t i = 0; i < spoilt.size(); ++i) {
        const std::string file = fmt::format("report {}.json: ", i + 1);
        const auto at = checked.output.find(file);
        INFO(spoilt[i].first);
        REQUIRE(at != std::string::npos);
        // One fault of its own each: looked for from its first line to the next report's.
        const auto lines = checked.output.substr(
            at, checked.output.find("report " + std::to_string(i + 2) + ".json: ", at) - at);
        CHECK(lines.find(spoilt[i].second) != std::string::npos);
    }
}

TEST_CASE("what a strum was read as, where the player stood and where he went astray stand there",
          "[report]") {
    const auto text = report::to_json(wandering_report());
    const auto json = nlohmann::json::parse(text);
    CHECK(json["strums"] == nlohmann::json::parse(R"([
        {"time_through": 1, "bar": 1, "beat": 2.5, "asynchrony_ms": -3.25, "read_as": "landing"},
        {"time_through": 2, "bar": 8, "beat": 1, "asynchrony_ms": 12.0, "read_as": "up_stroke"}])"));
    // One line each, however long the evening.
    CHECK(text.find("\n    {\"time_through\":1,\"bar\":1,\"beat\":2.5,") != std::string::npos);
    CHECK(json["own_place_ms"] ==
          nlohmann::json::parse(R"({"on_beats": 26, "off_beats": -1.5, "told_apart": true})"));
    CHECK(json["astray"] == nlohmann::json::parse(R"([
        {"time_through": 1, "from_bar": 3, "to_bar": 4, "bars": 0.5, "changes": 4},
        {"time_through": 2, "from_bar": 7, "to_bar": 2, "bars": -1, "changes": 4}])"));
    CHECK(json["changes"][2]["meant"] == "Bb7");
    CHECK(json["totals"]["uncertain"] == 2);
}

TEST_CASE("a report without strums or a place of the player's own says so", "[report]") {
    auto report = wandering_report();
    report.assessment.strums.clear();
    report.assessment.own_place = {};
    const auto json = nlohmann::json::parse(report::to_json(report));
    CHECK(json["strums"] == nlohmann::json::array());
    CHECK(json["own_place_ms"]["on_beats"].is_null());
    CHECK(json["own_place_ms"]["off_beats"].is_null());
    CHECK(json["own_place_ms"]["told_apart"] == false);
}

namespace {

/// The bars that a report lists as silent: eight bars twice, with what is asked of them.
nlohmann::json silent_bars(const char* silence, chart::AskedManner manner = {},
                           bool melody = false) {
    auto asked = through(eight_bars(), 2).asked();
    if (*silence != '\0') asked.silence = roadmap::read_silence(silence);
    asked.manner = manner;
    asked.melody = melody;
    const auto report = judged({eight_bars(), asked}, {});
    return nlohmann::json::parse(report::to_json(report))["played"]["silent_bars"];
}

}  // namespace

TEST_CASE("bars in which nothing of the band sounds are listed as they were played, from 0",
          "[report]") {
    CHECK(silent_bars("") == nlohmann::json::array());
    CHECK(silent_bars("3:3") == nlohmann::json({3, 4, 5, 9, 10, 11, 15}));
    CHECK(silent_bars("1:1 times") == nlohmann::json({8, 9, 10, 11, 12, 13, 14, 15}));
    CHECK(silent_bars("3:3 drums") == nlohmann::json::array());
    chart::AskedManner no_bass;
    no_bass.bass = chart::Bass::off;
    CHECK(silent_bars("3:3 drums", no_bass) == nlohmann::json({3, 4, 5, 9, 10, 11, 15}));
    auto nobody = no_bass;
    nobody.drums = chart::Drums::off;
    CHECK(silent_bars("", nobody).size() == 16);
    CHECK(silent_bars("", nobody, true) == nlohmann::json::array());  // a melody is no silence
}

TEST_CASE("a silence is named by its first bar as it was played, from 1", "[report]") {
    auto report = clumsy_report();
    report.assessment.time.silences = {{5, 4, 3, -12.5}};
    CHECK(nlohmann::json::parse(report::to_json(report))["time"]["silences"] ==
          nlohmann::json::parse(
              R"([{"first_bar_played": 5, "bars": 4, "strums": 3, "came_back_ms": -12.5}])"));
}

TEST_CASE("the tolerance in a report is the judge's own", "[report]") {
    auto report = clumsy_report();
    report.assessment.tolerance = time::from_milliseconds(51.5);
    const auto json = nlohmann::json::parse(report::to_json(report));
    CHECK(json["settings"]["tolerance_ms"] == 51.5);
    CHECK(report::to_text(report).find("in time within 52 ms") != std::string::npos);
}

TEST_CASE("the totals of the verdicts make up the changes", "[report]") {
    const auto totals = clumsy_json()["totals"];
    int sum = 0;
    for (const auto* verdict :
         {"on_time", "pushed", "placed", "early", "late", "held", "laid_out", "missed", "astray"}) {
        sum += totals[verdict].get<int>();
    }
    CHECK(sum == totals["changes"]);
    CHECK(totals["uncertain"] == 0);
}

TEST_CASE("numbers in a report have three decimals at most and no negative zero", "[report]") {
    auto report = clumsy_report();
    report.assessment.changes[0].lateness = time::Seconds(-0.0000001);
    report.assessment.changes[1].lateness = time::Seconds(0.0612345678);
    const auto json = nlohmann::json::parse(report::to_json(report));
    CHECK(json["changes"][0]["lateness_ms"].dump() == "0.0");
    CHECK(json["changes"][1]["lateness_ms"].dump() == "61.235");
}

TEST_CASE("without a channel per string, strings and frets are null", "[report]") {
    const auto map = through(eight_bars());
    const auto played = on_one_channel(play(clumsy_hand(), map));
    const auto json = nlohmann::json::parse(report::to_json(judged(map, played)));
    CHECK(json["played"]["strings"] == "one channel");
    const auto& wrong = json["changes"][4]["wrong"][0];
    CHECK(wrong["note"] == "A3");
    CHECK(wrong["string"].is_null());
    CHECK(wrong["fret"].is_null());
    CHECK(wrong["nearest_fret"].is_null());
}

TEST_CASE("a habit stands there with what its kind speaks of and nothing else", "[report]") {
    const auto json = wandering_json()["habits"];
    REQUIRE(json.size() == assess::habit_kinds);
    CHECK(json[0] == nlohmann::json::parse(R"(
        {"what": "place", "fault": "late", "cases": 5, "of": 6, "mean_ms": 106.25, "cost": 1.25,
         "bar": 14, "beat": 2.5, "section": "B", "from": null, "to": "Bb7"})"));
    CHECK(json[1]["from"] == "Fm7");
    CHECK_FALSE(json[1].contains("bar"));
    CHECK(json[2] == nlohmann::json::parse(R"(
        {"what": "wide_move", "fault": "mixed", "cases": 5, "of": 6, "mean_ms": null,
         "cost": 1.25})"));
    CHECK(json[5]["quality"] == "dominant ♭9");
    CHECK(json[6]["tone"] == "b5");
    CHECK(json[7]["string"] == 3);
}

TEST_CASE("a ladder stands there rung by rung, as the schema has it", "[report]") {
    auto report = clumsy_report();
    using roadmap::LadderStep;
    LadderStep clean{1, time::Bpm(96), LadderStep::Judged::clean, 8, 8, 7, {}, time::Bpm(96), {}};
    LadderStep top{2, time::Bpm(100), LadderStep::Judged::not_clean, 8, 6, 4, {}, time::Bpm(96),
                   {}};
    clean.next = LadderStep::Next::faster;
    const std::vector<LadderStep> steps{clean, top};
    report.ladder = practice::ladder_course({time::Bpm(96), time::Bpm(132)}, steps);
    const auto text = report::to_json(report);
    CHECK(nlohmann::json::parse(text)["ladder"] == nlohmann::json::parse(R"(
        {"from_bpm": 96, "to_bpm": 132, "clean_bpm": 96, "top_is_clean": false,
         "enough_for_today": false, "rungs": [
            {"tempo_bpm": 96, "times_through": 1, "clean": 1, "best": {"right": 7, "of": 8}},
            {"tempo_bpm": 100, "times_through": 1, "clean": 0, "best": {"right": 4, "of": 8}}]})"));
    CHECK(nlohmann::json::parse(report::to_json(clumsy_report()))["ladder"].is_null());
    if (!outside_python_module("jsonschema")) return;
    const auto checked = check_schema({text});
    INFO(checked.output);
    CHECK(checked.status == 0);
    auto broken = nlohmann::json::parse(text);
    broken["ladder"]["rungs"][0]["clean"] = -1;
    CHECK(check_schema({broken.dump()}).status == 1);
}

TEST_CASE("two takes compared, and several together, agree with schemas of their own", "[report]") {
    if (!outside_python_module("jsonschema")) return;
    const std::vector<practice::Report> takes{clumsy_report(), wandering_report()};
    const auto compared =
        report::to_json(practice::compare(takes[0], takes[1]), takes[0], takes[1]);
    const auto checked = check_schema({compared}, "comparison-1.schema.json");
    INFO(checked.output);
    CHECK(checked.status == 0);
    const auto several = report::to_json(std::span<const practice::Report>(takes));
    const auto all = check_schema({several}, "reports-1.schema.json");
    INFO(all.output);
    CHECK(all.status == 0);
    std::vector<std::string> each;
    const auto parsed = nlohmann::json::parse(several);
    for (const auto& take : parsed["takes"]) each.push_back(take.dump());
    CHECK(check_schema(each).status == 0);
    auto broken = nlohmann::json::parse(compared);
    broken["places"][0]["is"] = "much better";
    CHECK(check_schema({broken.dump()}, "comparison-1.schema.json").status == 1);
    auto short_of = nlohmann::json::parse(several);
    short_of["takes"][1].erase("habits");
    CHECK(check_schema({short_of.dump()}, "reports-1.schema.json").status == 1);
}
