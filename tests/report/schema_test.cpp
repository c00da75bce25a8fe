// Every kind of report against the JSON Schema beside the source, by Debian's python3-jsonschema.

#include "support/schema.hpp"

#include "report/rehearsed.hpp"
#include "support/catch.hpp"
#include "support/command.hpp"
#include "support/forms.hpp"

#include <compline/simulate/played.hpp>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

using namespace compline;
using namespace compline::tests;

namespace {

/// A simulated guitarist with mistakes of every kind, two times through.
std::vector<midi::TimedMessage> rehearsed(const chart::Form& form) {
    simulate::Habits habits;
    habits.rates.fill(0.1);
    const auto groove = own_groove(form);
    const auto route = chart::Route::of(form.whole(), 2);
    return simulate::perform(simulate::play(form, route, groove, habits, 7).script, groove,
                             guitar::Fretboard::standard());
}

std::string rehearsed_json(const chart::Form& form, const assess::Settings& settings = {}) {
    return report::to_json(judged(form, rehearsed(form), settings, 2));
}

chart::Form our_chart(const std::string& name) {
    return chart::unroll(
        chart::load_chart(std::string(COMPLINE_SOURCE_DIR) + "/charts/" + name + ".yaml"));
}

chart::Form straight(chart::Form form) {
    form.chart.style.feel = chart::Feel::straight;
    return form;
}

assess::Settings substitutions_in_four() {
    assess::Settings settings;
    settings.strictness = harmony::Strictness::substitutions;
    settings.rhythm = {assess::Rhythm::Kind::four, {}};
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

nlohmann::json clumsy_json() { return nlohmann::json::parse(report::to_json(clumsy_report())); }

}  // namespace

TEST_CASE("every kind of report follows the schema", "[report][schema]") {
    if (!outside_python_module("jsonschema")) return;
    const auto form = eight_bars();
    const auto played = play(clumsy_hand(), form, own_groove(form));
    const auto blues = our_chart("blue-kettle-on-the-back-stairs");
    auto troubled = clumsy_report();
    troubled.machine =
        practice::Machine{"JACK: system", "JACK: \xFFguitar", 48000, 256, 5.3, 0.25, 2, 3, 1, 4};
    troubled.assessment.changes[1].uncertain = true;
    const auto checked = check_schema({
        report::to_json(clumsy_report()),
        report::to_json(judged(form, on_one_channel(played))),
        report::to_json(judged(form, {})),
        report::to_json(judged(form, {}, substitutions_in_four())),
        report::to_json(judged(make_form(time::Meter(4), time::Bpm(400), {"N.C."}), {})),
        report::to_json(troubled),
        rehearsed_json(blues),
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
        {R"([{"op": "replace", "path": "/schema", "value": "compline.report/2"}])", "schema: "},
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
    };
    std::vector<std::string> reports;
    for (const auto& [patch, words] : spoilt) {
        reports.push_back(clumsy_json().patch(nlohmann::json::parse(patch)).dump());
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

TEST_CASE("numbers in a report have three decimals at most and no negative zero", "[report]") {
    auto report = clumsy_report();
    report.assessment.changes[0].lateness = time::Seconds(-0.0000001);
    report.assessment.changes[1].lateness = time::Seconds(0.0612345678);
    const auto json = nlohmann::json::parse(report::to_json(report));
    CHECK(json["changes"][0]["lateness_ms"].dump() == "0.0");
    CHECK(json["changes"][1]["lateness_ms"].dump() == "61.235");
}

TEST_CASE("without a channel per string, strings and frets are null", "[report]") {
    const auto form = eight_bars();
    const auto played = on_one_channel(play(clumsy_hand(), form, own_groove(form)));
    const auto json = nlohmann::json::parse(report::to_json(judged(form, played)));
    CHECK(json["played"]["strings"] == "one channel");
    const auto& wrong = json["changes"][4]["wrong"][0];
    CHECK(wrong["note"] == "A3");
    CHECK(wrong["string"].is_null());
    CHECK(wrong["fret"].is_null());
    CHECK(wrong["nearest_fret"].is_null());
}
