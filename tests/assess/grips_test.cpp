#include "support/catch.hpp"
#include "support/comper.hpp"
#include "support/said.hpp"

#include <string>
#include <vector>

using namespace compline;
using assess::Verdict;
using tests::Comper;
using tests::readings;
using tests::said;

// Grips of three strings, of four or five and of all six are read alike.

namespace {

const std::vector<std::string> first = {"x5x56x", "x5756x", "x57565"};   // Dm7
const std::vector<std::string> second = {"2x23xx", "2x232x", "242322"};  // F#7
const std::string third = "5x55xx";                                      // Am7

/// Calls test(grip of Dm7, grip of F#7) for each pair.
template <typename Test>
void each_pair(Test test) {
    for (const auto& from : first) {
        for (const auto& to : second) {
            INFO(from << " to " << to);
            test(from, to);
        }
    }
}

/// Dm7 on its beat, so much of the second bar, Am7 on its beat.
Comper between(const std::string& from) {
    Comper comper("Dm7 | F#7 | Am7", 120);
    comper.strum(1, 1, from).strum(1, 3, from).strum(3, 1, third);
    return comper;
}

/// A wrong grip lands its chord, late or not, and only that one is wrong.
void check_wrong(const std::string& from, const std::string& grip, double late) {
    auto comper = between(from);
    comper.strum(2, 1, grip, late);
    INFO(grip << " " << late << " ms late: " << readings(comper.judged()));
    CHECK(comper.change(2).verdict == (late > 50 ? Verdict::late : Verdict::on_time));
    CHECK(comper.change(2).lateness->milliseconds() == Approx(late).margin(0.001));
    CHECK(said(comper.change(3)) == "on_time +0 at 0");
}

}  // namespace

TEST_CASE("a finger a fret off on any string is a slip, on the beat or late, in any size of grip") {
    each_pair([](const std::string& from, const std::string& to) {
        for (std::size_t string = 0; string < to.size(); ++string) {
            for (const int off : {-1, 1}) {
                if (to[string] == 'x') continue;
                auto grip = to;
                grip[string] = static_cast<char>(grip[string] + off);
                check_wrong(from, grip, 0);
                check_wrong(from, grip, 90);
            }
        }
    });
}

TEST_CASE("a finger that stays on any string is not a chord missed, in any size of grip") {
    each_pair([](const std::string& from, const std::string& to) {
        for (std::size_t string = 0; string < to.size(); ++string) {
            if (to[string] == 'x' || from[string] == 'x') continue;
            auto grip = to;
            grip[string] = from[string];
            check_wrong(from, grip, 0);
        }
    });
}

TEST_CASE("the old grip once more on the beat is the old chord, in any size of grip") {
    each_pair([](const std::string& from, const std::string& to) {
        auto comper = between(from);
        comper.strum(2, 1, from).strum(2, 2, to, 5);
        CHECK(readings(comper.judged()) == "landing again old landing landing");
        CHECK(said(comper.change(2)) == "late +505 at 0");
    });
}

TEST_CASE("the old grip on the last off-beat hides no late change, in any size of grip") {
    each_pair([](const std::string& from, const std::string& to) {
        for (const double late : {75.0, 100.0, 130.0, 160.0}) {
            auto comper = between(from);
            comper.strum(1, 4.5, from, 0, 0.4).strum(2, 1, to, late);
            INFO(late);
            CHECK(readings(comper.judged()) == "landing again again landing landing");
            CHECK(comper.change(2).verdict == Verdict::late);
            CHECK(comper.change(2).lateness->milliseconds() == Approx(late).margin(0.001));
        }
    });
}

TEST_CASE(
    "a broken chord is one landing from the lowest string or the highest, in any size of grip") {
    each_pair([](const std::string& from, const std::string& to) {
        for (const double late : {0.0, 90.0}) {
            for (const double step : {70.0, 110.0, 150.0}) {
                for (const bool downwards : {false, true}) {
                    auto comper = between(from);
                    double at = late;
                    for (int n = 0; n < 6; ++n) {
                        const int string = downwards ? 1 + n : 6 - n;
                        const char fret = to[static_cast<std::size_t>(6 - string)];
                        if (fret == 'x') continue;
                        comper.note(2, 1, string, fret - '0', at, 2);
                        at += step;
                    }
                    INFO((downwards ? "down" : "up") << " every " << step << ", late " << late);
                    CHECK(readings(comper.judged()) == "landing again landing landing");
                    CHECK(comper.change(2).verdict ==
                          (late > 50 ? Verdict::late : Verdict::on_time));
                    CHECK(comper.change(2).tones == assess::Tones::right);
                }
            }
        }
    });
}

TEST_CASE("four to the bar each first strum lands, in any size of grip") {
    each_pair([](const std::string& from, const std::string& to) {
        Comper comper("Dm7 | F#7 | Am7", 120);
        for (const int beat : {1, 2, 3, 4}) {
            comper.strum(1, beat, from, 4, 0.8).strum(2, beat, to, -6, 0.8);
            comper.strum(3, beat, third, 8, 0.8);
        }
        const std::string bar = "landing again again again";
        CHECK(readings(comper.judged()) == bar + " " + bar + " " + bar);
        CHECK(comper.verdicts() == "on_time on_time on_time");
    });
}
