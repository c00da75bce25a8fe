// What weeks came to as JSON, against the schemas beside the source.

#include "report/some_weeks.hpp"
#include "support/catch.hpp"
#include "support/outside_data.hpp"
#include "support/schema.hpp"

#include <nlohmann/json.hpp>

using namespace compline;
using namespace compline::tests;
using history::Task;
using nlohmann::json;

namespace {

std::string all_json() { return report::weeks_json(all_weeks("Anna"), asked_by("Anna")); }

std::vector<history::Thing> every_thing() {
    auto first = thing_of(history::ThingKind::first_take);
    first.tune = {};
    return {homework_thing("Anna"), place_thing(Task::other_grips),
            transition_thing(),     due_thing(),
            whole_thing(),          first};
}

std::vector<history::Thing> three(const std::vector<history::Thing>& things, std::size_t from) {
    return {things.begin() + static_cast<std::ptrdiff_t>(from),
            things.begin() + static_cast<std::ptrdiff_t>(from) + 3};
}

}  // namespace

TEST_CASE("the history, the advice and homework as JSON follow their schemas", "[report][schema]") {
    if (!outside_python_module("jsonschema")) return;
    auto asked = asked_by("");
    asked.since = "2026-10-01";
    CHECK(
        check_schema({all_json(), report::weeks_json({}, asked)}, "history-1.schema.json").status ==
        0);
    const auto things = every_thing();
    const auto next = check_schema({report::next_json(three(things, 0), asked_by("Anna")),
                                    report::next_json(three(things, 3), asked_by(""))},
                                   "next-1.schema.json");
    INFO(next.output);
    CHECK(next.status == 0);
    CHECK(check_schema({report::homework_json(some_homework("Anna"), asked_by("Anna")),
                        report::homework_json(std::vector<report::HomeworkSoFar>{}, asked_by(""))},
                       "homework-1.schema.json")
              .status == 0);
}

TEST_CASE("the schemas of history, advice and homework refuse spoilt ones", "[report][schema]") {
    if (!outside_python_module("jsonschema")) return;
    auto spoilt = json::parse(all_json());
    spoilt["tunes"][1]["trend"]["is"] = "fine";
    CHECK(check_schema({spoilt.dump()}, "history-1.schema.json").status == 1);
    auto next = json::parse(report::next_json({whole_thing()}, asked_by("")));
    next["things"][0].erase("lines");
    CHECK(check_schema({next.dump()}, "next-1.schema.json").status == 1);
    auto homework = json::parse(report::homework_json(some_homework(""), asked_by("")));
    homework["homework"][0]["given"] = "3 November";
    CHECK(check_schema({homework.dump()}, "homework-1.schema.json").status == 1);
}

TEST_CASE("the history as JSON says what the words say, and the same bytes each time", "[report]") {
    const auto text = all_json();
    CHECK(all_json() == text);
    const auto all = json::parse(text);
    CHECK(all["player"] == "Anna");
    CHECK(all["since"].is_null());
    const auto& tune = all["tunes"][1];
    CHECK(tune["title"] == "Lantern Street");
    CHECK(tune["minutes"] == 340.0);
    CHECK(tune["trend"]["is"] == "better");
    CHECK(tune["trend"]["points_a_week"] == 4.2);
    CHECK(tune["then_and_now"]["then"]["share_in_time"] == 0.71);
    CHECK(tune["clean"]["bpm"] == 132.0);
    CHECK(tune["weakest"][0]["late_ms"] == 84.2);
    CHECK(tune["weakest"][2]["from"].is_null());
    CHECK(tune["transitions"][0]["bars"] == json({7, 15, 23}));
    CHECK(all["homework"][0]["done"] == false);
    CHECK(all["homework"][1]["done"] == true);
    CHECK(all["others"][2]["player"].is_null());
}

TEST_CASE("advice as JSON has the lines to type, each in one", "[report]") {
    const auto next = json::parse(
        report::next_json({place_thing(Task::other_grips), transition_thing()}, asked_by("Anna")));
    CHECK(next["things"][0]["task"] == "other_grips");
    CHECK(next["things"][0]["lines"] ==
          json({"compline plan lantern-street.yaml --bars 6-9 --alternatives 3",
                "compline practice lantern-street.yaml --bars 6-9 --tempo 108 --times 8 --player "
                "Anna"}));
    CHECK(next["things"][1]["tune"].is_null());
    CHECK(next["things"][1]["weak_in"].size() == 2);
}
