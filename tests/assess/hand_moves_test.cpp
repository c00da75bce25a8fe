#include "support/catch.hpp"
#include "support/comper.hpp"

using namespace compline;
using tests::Comper;

// What a hand had to do for a change, of which habits are made.

namespace {

std::vector<bool> wide_moves(const assess::Assessment& judged) {
    std::vector<bool> wide;
    for (const auto& change : judged.changes) wide.push_back(change.wide_move);
    return wide;
}

}  // namespace

TEST_CASE("over four frets the hand moves far, and open strings say nothing of where it is") {
    Comper comper("Dm7 | G7 | Cmaj7 | A7", 120);
    comper.strum(1, 1, "x5x56x").strum(2, 1, "x-10-x-10-12-x").strum(3, 1, "x-x-10-9-8-x");
    comper.strum(4, 1, "x0565x");
    CHECK(wide_moves(comper.judged()) == std::vector{false, true, false, false});
}

TEST_CASE("without a channel per string nobody knows where a hand is") {
    Comper comper("Dm7 | G7", 120);
    comper.strum(1, 1, "x5x56x").strum(2, 1, "x-10-x-10-12-x");
    assess::Performance heard;
    heard.notes = comper.notes();
    for (auto& note : heard.notes) {
        note.string.reset();
        note.fret.reset();
    }
    const auto judged = assess::assess(comper.map(), heard, {});
    CHECK(wide_moves(judged) == std::vector{false, false});
    CHECK(judged.changes.front().strings == 0);
}

TEST_CASE("the strings that a landing struck are known") {
    Comper comper("Dm7 | G7", 120);
    comper.strum(1, 1, "x5x56x").strum(2, 1, "3x34xx");
    CHECK(comper.judged().changes[0].strings == 0b010110);
    CHECK(comper.judged().changes[1].strings == 0b101100);
}

TEST_CASE("a line just before a change is a fill before it, however late the change comes") {
    for (const double late : {0.0, 150.0}) {
        Comper comper("Dm7 | G7 | Cmaj7", 120);
        comper.strum(1, 1, "x5x56x").note(1, 3, 1, 5).note(1, 3.5, 1, 6).note(1, 4, 2, 6);
        comper.strum(2, 1, "3x34xx", late).strum(3, 1, "x3x45x");
        const auto judged = comper.judged();
        INFO(late);
        CHECK_FALSE(judged.changes[0].after_fill);
        CHECK(judged.changes[1].after_fill);
        CHECK_FALSE(judged.changes[2].after_fill);
    }
}

TEST_CASE("a line that runs over the bar line is why the chord is late") {
    Comper comper("Dm7 | G7", 120);
    comper.strum(1, 1, "x5x56x").note(2, 1, 1, 5, 30).strum(2, 1, "3x34xx", 260);
    CHECK(comper.judged().changes[1].after_fill);
}

TEST_CASE("a line long before a change is no fill into it") {
    Comper comper("Dm7 | G7", 120);
    comper.strum(1, 1, "x5x56x").note(1, 1.5, 1, 5).note(1, 2, 1, 6).strum(2, 1, "3x34xx");
    CHECK_FALSE(comper.judged().changes[1].after_fill);
}

TEST_CASE("a section is entered with its first change, and not where the take begins") {
    Comper comper(tests::form_of({{"A", "Dm7 | G7"}, {"B", "Cmaj7 A7 | Dm7"}}, "A, B, A"), 120);
    int bar = 0;
    for (const auto* grip : {"x5x56x", "3x34xx", "x3x45x", "x5x56x", "x5x56x", "3x34xx"}) {
        comper.strum(++bar, 1, grip);
        if (bar == 3) comper.strum(3, 3, "5x56xx");
    }
    std::vector<bool> into;
    for (const auto& change : comper.judged().changes) into.push_back(change.into_section);
    // The second A begins with the chord that B ended on: nothing changes there.
    CHECK(into == std::vector{false, false, true, false, false, false});
}

TEST_CASE("the grip of a change is all that rings when it has landed, a fret a string") {
    Comper comper("Dm7 | G7 | Cmaj7", 120);
    comper.strum(1, 1, "x5x56x", 0, 6).note(2, 1, 3, 4, 0, 3).strum(3, 1, "x3x45x");
    const auto judged = comper.judged();
    CHECK(judged.changes[0].grip == tests::shape("x5x56x"));
    CHECK(judged.changes[1].grip == tests::shape("x5x46x"));
    CHECK(judged.changes[2].grip == tests::shape("x3x45x"));
}

TEST_CASE("a change that nobody struck has no grip") {
    Comper comper("Dm7 | G7 | Cmaj7", 120);
    comper.strum(1, 1, "x5x56x").strum(3, 1, "x3x45x");
    CHECK_FALSE(comper.judged().changes[1].grip.has_value());
}
