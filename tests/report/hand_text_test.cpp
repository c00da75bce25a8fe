// What is said of the hand: values made by hand, so that each word has its number.

#include "report/rehearsed.hpp"
#include "report/some_hands.hpp"
#include "support/catch.hpp"
#include "support/outside_data.hpp"
#include "support/schema.hpp"

#include <compline/report/columns.hpp>
#include <compline/report/hand.hpp>

#include <nlohmann/json.hpp>

using namespace compline;
using namespace compline::tests;

namespace {

void check_width(const std::string& text) {
    for (const auto& line : report::in_lines(text, 1000)) {
        INFO(line);
        CHECK(report::columns_of(line) <= report::terminal_columns);
    }
}

}  // namespace

TEST_CASE("how far the hand went is said in whole frets, beside the plan", "[report]") {
    const auto hand = hand_of({a_jump()});
    CHECK(report::hand_sentence(hand) ==
          "Your fingers went 118 frets in one time through, the plan's go 46.");
    const auto text = report::hand_text(hand);
    CHECK(has(text, "Your hand against the plan of voicings\n"));
    CHECK(has(text, "A finger stays or slides in 9 of 1 change, in the plan in 20."));
}

TEST_CASE("where it went furthest both ways stand there, and what lay nearer", "[report]") {
    const auto text = report::hand_text(hand_of({a_jump()}));
    CHECK(has(text,
              "  bar 7  Am7♭5 → D7  8 frets, the hand 3 up; the plan 0\n"
              "    yours  xx7888 → x-x-10-11-10-x\n"
              "    plan   xx7888 → xx7778\n"
              "    near   xx7778, no fret: 1 stays on string 4; you lifted it\n"));
    check_width(text);
}

TEST_CASE("the same way in several bars is said once", "[report]") {
    const auto text = report::hand_text(hand_of({a_jump(), a_jump(15)}));
    CHECK(has(text, "  bar 7 and bar 15  Am7♭5 → D7  8 frets"));
    CHECK(text.find("yours") == text.rfind("yours"));
}

TEST_CASE("a way that was not always taken says how often, and the mean of all", "[report]") {
    auto move = a_jump();
    move.of = 3;
    move.frets = 5.26;
    CHECK(has(report::hand_text(hand_of({move})),
              "5.3 frets on average; the plan 0; mostly, 2 of 3 times:"));
}

TEST_CASE("what is passed over is counted by its reason", "[report]") {
    auto hand = hand_of({a_jump()});
    hand.passed = {2, 1, 3, 4, 5};
    const auto text = report::hand_text(hand);
    CHECK(has(text, "Passed over, and the ways on from there: 2 not struck, 1 with wrong"));
    check_width(text);
    hand.moves.clear();
    CHECK(has(report::hand_text(hand), "No two changes in a row were struck"));
    CHECK(report::hand_sentence(hand).empty());
}

TEST_CASE("why nothing is known of the hand is said", "[report]") {
    practice::HandAgainstPlan hand;
    hand.unknown = practice::HandUnknown::one_channel;
    CHECK(has(report::hand_text(hand), "all strings came on one channel"));
    hand.unknown = practice::HandUnknown::by_sound;
    CHECK(has(report::hand_text(hand), "by sound alone"));
    check_width(report::hand_text(hand));
}

TEST_CASE("a hand that goes no further than the plan is told so", "[report]") {
    auto move = a_jump();
    move.plan_frets = move.frets;
    CHECK(has(report::hand_text(hand_of({move})), "Nowhere did it go further than the plan."));
}

TEST_CASE("more than one screen has is listed where all is asked for", "[report]") {
    std::vector<practice::HandMove> moves;
    for (int bar = 1; bar <= 6; ++bar) {
        moves.push_back(a_jump(bar));
        moves.back().frets += bar;
        moves.back().of = 2 + bar;
    }
    CHECK(has(report::hand_text(hand_of(moves)), "  and 2 more (--all)\n"));
    CHECK_FALSE(has(report::hand_text(hand_of(moves), report::Listing::all), "(--all)"));
}

TEST_CASE("the report ends with the hand where it is asked for, and JSON has it", "[report]") {
    auto report = clumsy_report();
    CHECK_FALSE(has(report::to_text(report), "Your hand"));
    CHECK_FALSE(nlohmann::json::parse(report::to_json(report)).contains("hand"));
    report.hand = hand_of({a_jump()});
    CHECK(has(report::to_text(report), "\n\nYour hand against the plan of voicings\n"));
    const auto whole = report::to_json(report);
    const auto json = nlohmann::json::parse(whole)["hand"];
    CHECK(json["totals"]["frets"] == 118.2);
    CHECK(json["moves"][0]["usual"]["to"]["shape"] == "x-x-10-11-10-x");
    CHECK(json["moves"][0]["usual"]["hand"] == 3);
    CHECK(json["moves"][0]["nearer"]["lifted_guides"][0]["finger"] == "1");
    CHECK(json["unknown"].is_null());
    if (!outside_python_module("jsonschema")) return;
    const auto checked = check_schema({whole});
    INFO(checked.output);
    CHECK(checked.status == 0);
    auto broken = nlohmann::json::parse(whole);
    broken["hand"]["moves"][0]["usual"]["to"]["fingers"] = "5";
    CHECK(check_schema({broken.dump()}).status == 1);
}
