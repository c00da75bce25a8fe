// What is said of a take of which only the sound was heard: of time, and never of tones.

#include "report/by_sound.hpp"

#include "report/hand_made.hpp"
#include "support/catch.hpp"
#include "support/golden.hpp"
#include "support/schema.hpp"

#include <compline/practice/comparison.hpp>
#include <compline/practice/time_alone.hpp>
#include <compline/practice/together.hpp>
#include <compline/report/takes.hpp>
#include <compline/report/time_through_line.hpp>

#include <nlohmann/json.hpp>

#include <regex>
#include <sstream>

using namespace compline;
using namespace compline::tests;

namespace {

constexpr const char* said_once = "Heard by sound: time alone is judged, tones are not.\n";

std::vector<std::string> lines_of(const std::string& text) {
    std::vector<std::string> lines;
    std::istringstream in(text);
    for (std::string line; std::getline(in, line);) lines.push_back(line);
    return lines;
}

bool has(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

/// Words of tones, or of what hears them.
bool speaks_of_tones(const std::string& text) {
    return std::regex_search(text, std::regex("tone|strictness|MIDI|pickup|string|channel"));
}

/// The same strokes, all in time.
std::vector<Strum> sure_hand() {
    auto strums = slow_hand();
    for (auto& strum : strums) strum.late_ms = 0;
    strums.push_back({7, 1, "", 0});
    std::stable_sort(strums.begin(), strums.end(),
                     [](const Strum& a, const Strum& b) { return a.bar < b.bar; });
    return strums;
}

}  // namespace

TEST_CASE("a report by sound says so below its first sentence, and speaks of no tones elsewhere") {
    for (const auto& strums : {slow_hand(), sure_hand(), std::vector<Strum>{}}) {
        auto report = report_by_sound(strums);
        report.machine =
            practice::Machine{"JACK: system", "capture_1", 48000, 256, 5.3, 0.25, 0, 0, 0, 0};
        for (const auto listing : {report::Listing::one_screen, report::Listing::all}) {
            auto text = report::to_text(report, listing);
            INFO(text);
            CHECK(lines_of(text).at(1) + "\n" == said_once);
            text.erase(text.find(said_once), std::string(said_once).size());
            CHECK(!speaks_of_tones(text));
        }
        CHECK(!speaks_of_tones(report::time_through_line(report.assessment, 1)));
        for (const auto& change : report.assessment.changes) {
            CHECK(!speaks_of_tones(report::verdict_line(change, report.map)));
        }
    }
    CHECK(!has(report::to_text(clumsy_report()), "by sound"));
}

TEST_CASE("the report of a take by sound reads as the golden file does", "[report][golden]") {
    check_golden(report::to_text(report_by_sound(slow_hand())), "report/golden/by-sound.txt");
}

TEST_CASE("the report of a take by sound as JSON is the golden file", "[report][golden]") {
    check_golden(report::to_json(report_by_sound(slow_hand())), "report/golden/by-sound.json");
}

TEST_CASE("by sound what is not struck is called that, while it plays too") {
    const auto report = report_by_sound(slow_hand());
    const auto& seven = report.assessment.changes.at(7);
    CHECK(seven.bar == 7);
    CHECK(report::verdict_line(seven, report.map) == "bar 7  Cmaj7 → E♭m7  not struck");
    CHECK(has(report::time_through_line(report.assessment, 1), "(1 not struck)"));
    CHECK(has(report::to_text(report), "1 not struck"));
    CHECK(!has(report::to_text(report), "laid out"));
}

TEST_CASE("all in time by sound is nothing to mend in time, and the next step is faster") {
    const auto text = report::to_text(report_by_sound(sure_hand()));
    INFO(text);
    CHECK(text.find("All 10 changes in time: nothing to mend in your time.\n") == 0);
    CHECK(has(text, "Next     the same, 4 % faster:"));
}

TEST_CASE("of a guitar that nobody heard it is asked whether it is plugged in") {
    CHECK(report::to_text(report_by_sound({}))
              .find("None of the 10 changes was struck. Is the guitar plugged in, and loud "
                    "enough?\n") == 0);
}

TEST_CASE("a ladder by sound is clean by time alone, and says so") {
    const auto by_sound = listen::HeardBy::sound;
    const auto map = through(eight_bars(), 2);
    practice::Ladder ladder({time::Bpm(96), time::Bpm(132)}, 8);
    const auto report = report_by_sound(sure_hand());
    const auto played = practice::played_changes(report.assessment, 1);
    CHECK(played.right == 10);
    const auto step = ladder.count(1, played);
    CHECK(step.judged == roadmap::LadderStep::Judged::clean);
    CHECK(report::ladder_line(step, map, by_sound) ==
          "the ladder, by time alone: clean, once more and 100");
    auto climbed = report;
    climbed.ladder = practice::ladder_course({time::Bpm(96), time::Bpm(132)}, std::vector{step});
    CHECK(has(report::to_text(climbed), "clean  best: in time\n"));
}

TEST_CASE("with a take by MIDI beside it both are compared by time alone, and it is said") {
    auto by_midi = clumsy_report();
    const auto by_sound = report_by_sound(slow_hand());
    const auto comparison = practice::compare(by_midi, by_sound);
    CHECK(comparison.time_alone);
    for (const auto& place : comparison.places) {
        CHECK(place.before.count(practice::PlaceFault::wrong) == 0);
        CHECK(place.before.count(practice::PlaceFault::incomplete) == 0);
    }
    const auto text = report::to_text(comparison, by_midi, by_sound);
    INFO(text);
    CHECK(has(text, "The second was heard by sound: time alone is compared, tones are not.\n"));
    CHECK(has(text, ": in time 8 of 10, then 7 of 10.\n"));
    CHECK(has(report::to_text(practice::compare(by_sound, by_midi), by_sound, by_midi),
              "The first was heard by sound: "));
    CHECK(has(report::to_text(practice::compare(by_sound, by_sound), by_sound, by_sound),
              "Both were heard by sound: "));
    const auto same = practice::compare(by_midi, by_midi);
    CHECK(!same.time_alone);
    CHECK(!has(report::to_text(same, by_midi, by_midi), "by sound"));
    CHECK(same.right_before.right == 5);
}

TEST_CASE("takes by MIDI and by sound together are judged by time alone") {
    const std::vector<practice::Report> mixed{
        practice::hear_and_judge(eight_bars(), take_by_sound(slow_hand()), {}), [] {
            auto take = take_by_sound({});
            take.info->heard = practice::HeardBy::midi;
            take.messages = play(clumsy_hand(), through(eight_bars()));
            return practice::hear_and_judge(eight_bars(), take, {});
        }()};
    CHECK(mixed[1].assessment.totals.right_tones > 0);
    const auto whole = practice::together(mixed);
    REQUIRE(whole);
    CHECK(!practice::judges_tones(*whole));
    CHECK(whole->assessment.totals.right_tones == 0);
    const auto text = report::to_text(mixed);
    INFO(text);
    CHECK(has(text, "  -        1-4\n"));
    CHECK(has(text, "  6 right  "));
    CHECK(has(text, "\nAll together, as if all had been heard by sound\n\n"));
    CHECK(has(text, said_once));
    const std::vector<practice::Report> alike{mixed[0], mixed[0]};
    CHECK(has(report::to_text(alike), "\nAll together\n\n"));
}

TEST_CASE("reports and comparisons by sound follow their schemas, and claim no tones",
          "[report][schema]") {
    if (!outside_python_module("jsonschema")) return;
    const auto by_sound = report_by_sound(slow_hand());
    const auto by_midi = clumsy_report();
    const auto json = report::to_json(by_sound);
    const auto compared = report::to_json(practice::compare(by_midi, by_sound), by_midi, by_sound);
    CHECK(has(compared, "\"time_alone\": true"));
    CHECK(check_schema({compared}, "comparison-1.schema.json").status == 0);
    std::vector<std::string> reports{json, report::to_json(report_by_sound({}))};
    const auto good = reports.size();
    for (const auto& [path, value] : {std::pair("/heard", "\"radio\""),
                                      {"/changes/0/tones", "\"right\""},
                                      {"/changes/0/verdict", "\"held\""},
                                      {"/changes/0/spread_ms", "3"},
                                      {"/totals/right_tones", "1"},
                                      {"/strums/0/read_as", "\"approach\""}}) {
        auto spoilt = nlohmann::json::parse(json);
        spoilt.at(nlohmann::json::json_pointer(path)) = nlohmann::json::parse(value);
        reports.push_back(spoilt.dump());
    }
    const auto checked = check_schema(reports);
    INFO(checked.output);
    for (std::size_t i = 0; i < reports.size(); ++i) {
        const bool refused = has(checked.output, "report " + std::to_string(i + 1) + ".json: ");
        INFO("report " << i + 1);
        CHECK(refused == (i >= good));
    }
}
