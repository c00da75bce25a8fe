// Two takes beside one another, place by place.

#include "report/hand_made.hpp"

#include <compline/practice/comparison.hpp>
#include <compline/report/takes.hpp>

#include <nlohmann/json.hpp>

using namespace compline;
using namespace compline::practice;
using namespace compline::tests;
using assess::Change;

namespace {

Change late(double ms) {
    auto change = a_change();
    change.verdict = assess::Verdict::late;
    change.lateness = time::from_milliseconds(ms);
    return change;
}

Change wrong() {
    auto change = a_change();
    change.tones = assess::Tones::wrong;
    return change;
}

Report three_times(const std::vector<Change>& at_bar_7, const Change& at_bar_9) {
    std::vector<Change> changes;
    for (std::size_t i = 0; i < at_bar_7.size(); ++i) {
        const int time = static_cast<int>(i) + 1;
        changes.push_back(at(at_bar_7[i], time, 7));
        changes.push_back(at(at_bar_9, time, 9, 3));
        changes.push_back(at(a_change(), time, 11));
    }
    return report_of(changes, 3);
}

const Report before = three_times({late(90), late(98), late(106)}, a_change());
const Report after = three_times({late(55), a_change(), a_change()}, wrong());

}  // namespace

TEST_CASE("a place is better or worse by what its changes cost on average") {
    const auto comparison = compare(before, after);
    REQUIRE(comparison.places.size() == 3);
    const auto& seven = comparison.places[0];
    CHECK(seven.bar == 7);
    CHECK(seven.is_better());
    CHECK(seven.before.count(PlaceFault::late) == 3);
    CHECK(*seven.before.late_ms() == Approx(98));
    CHECK(seven.after.count(PlaceFault::late) == 1);
    CHECK(comparison.places[1].is_worse());
    CHECK(comparison.places[1].gain() == Approx(-0.5));
    CHECK(!comparison.places[2].is_better());
    CHECK(!comparison.places[2].is_worse());
    CHECK(compare(after, before).places[0].is_worse());
}

TEST_CASE("a hair's breadth is no difference, nor is how often it was played") {
    const auto nearly = three_times({late(90), late(98), late(100)}, a_change());
    CHECK(!compare(before, nearly).places[0].is_better());
    const auto once = report_of({at(late(98), 1, 7), at(a_change(), 1, 9, 3)});
    const auto comparison = compare(before, once);
    CHECK(!comparison.places[0].is_worse());
    CHECK(comparison.places.size() == 2);
    CHECK(comparison.only_before == 1);
    CHECK(comparison.only_after == 0);
}

TEST_CASE("the seam of a loop and what is uncertain are not compared") {
    auto seam = at(late(150), 1, 7);
    seam.seam = true;
    auto uncertain = at(late(150), 1, 9);
    uncertain.uncertain = true;
    CHECK(compare(report_of({seam, uncertain}), after).places.empty());
}

TEST_CASE("a comparison says first how it went, then what is worse, then what is better") {
    CHECK(report::to_text(compare(before, after), before, after) ==
          "Better in 1 place, worse in 1: right and in time 6 of 9, then 5 of 9.\n"
          "\n"
          "Worse\n"
          "  bar 9 beat 3  A7 → Dm7: right 3 of 3; then wrong tones 3 of 3\n"
          "\n"
          "Better\n"
          "  bar 7  A7 → Dm7: late 3 of 3 by 98 ms; then late 1 of 3 by 55 ms\n"
          "\n"
          "The same in 1 place\n");
    CHECK(report::to_text(compare(before, before), before, before) ==
          "The same in all 3 places: right and in time 6 of 9, then 6 of 9.\n");
    const auto elsewhere = report_of({at(a_change(), 1, 20)});
    CHECK(report::to_text(compare(before, elsewhere), before, elsewhere) ==
          "The two have no place in common: right and in time 6 of 9, then 1 of 1.\n"
          "3 places only in the first\n"
          "1 place only in the second\n");
}

TEST_CASE("a comparison as JSON has every place with both of its figures") {
    const auto json = nlohmann::json::parse(report::to_json(compare(before, after), before, after));
    CHECK(json["schema"] == "compline.comparison/1");
    CHECK(json["before"]["right"] == 6);
    CHECK(json["after"]["changes"] == 9);
    REQUIRE(json["places"].size() == 3);
    const auto& seven = json["places"][0];
    CHECK(seven["is"] == "better");
    CHECK(seven["from"] == "A7");
    CHECK(seven["before"]["late"] == 3);
    CHECK(seven["before"]["late_ms"] == 98);
    CHECK(seven["after"]["of"] == 3);
    CHECK(json["places"][1]["after"]["wrong"] == 3);
    CHECK(json["places"][2]["is"] == "same");
}
