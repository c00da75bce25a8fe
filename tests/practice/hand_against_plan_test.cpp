// The hand of a take beside a plan made by hand. Grips that slide as they are leave no doubt about
// the fingers, so that each sum can be counted on the neck.

#include "report/by_sound.hpp"
#include "report/rehearsed.hpp"
#include "support/catch.hpp"
#include "support/comper.hpp"
#include "support/voicings.hpp"

#include <compline/guitar/near_grips.hpp>
#include <compline/guitar/pinning.hpp>
#include <compline/practice/hand_against_plan.hpp>

using namespace compline;
using namespace compline::tests;

namespace {

/// Minor sevenths a fret apart, and a plan of two fingers for them.
const Grips two_fingers = {
    {"Dm7", {"xx35xx", "xx13xx"}}, {"Ebm7", {"xx46xx", "xx13xx"}}, {"Em7", {"xx57xx", "xx13xx"}}};

struct Tune {
    std::string bars = "Dm7 | Ebm7 | Em7";
    int times = 1;
    std::vector<Strum> strums;
    Grips grips = two_fingers;

    [[nodiscard]] chart::Form form() const { return tests::form_of(bars); }
    [[nodiscard]] practice::Report report() const {
        const auto map = through(form(), times);
        return judged(map, play(strums, map));
    }
    [[nodiscard]] practice::HandAgainstPlan hand() const {
        return practice::hand_against_plan(report(), plan_by_hand(form(), grips), nullptr);
    }
};

std::vector<Strum> bars_of(const std::vector<std::string>& grips) {
    std::vector<Strum> strums;
    for (std::size_t i = 0; i < grips.size(); ++i) {
        strums.push_back({static_cast<int>(i) + 1, 1, grips[i], 0, 3});
    }
    return strums;
}

std::vector<double> frets_of(const practice::HandAgainstPlan& hand) {
    std::vector<double> frets;
    for (const auto& move : hand.moves) frets.push_back(move.frets);
    return frets;
}

}  // namespace

TEST_CASE("the frets of all fingers are added up, and those of the plan in the same places",
          "[practice]") {
    const Tune tune{.strums = bars_of({"x5x56x", "x6x67x", "x7x78x"})};
    const auto hand = tune.hand();
    CHECK(frets_of(hand) == std::vector<double>{3, 3});
    CHECK(hand.hand.frets == 6);
    CHECK(hand.plan.frets == 4);
    CHECK(hand.moves[0].bar == 2);
    CHECK(hand.moves[0].held.shape == shape("x6x67x"));
    CHECK(hand.moves[0].planned.shape == shape("xx46xx"));
    CHECK(hand.moves[0].move.hand == 1);
    CHECK(hand.hand.guided == 2);
    CHECK(hand.passed.all() == 0);
}

TEST_CASE("a time through has the way back to its top in it where it was played twice",
          "[practice]") {
    const Tune tune{
        .times = 2,
        .strums = bars_of({"x5x56x", "x6x67x", "x7x78x", "x5x56x", "x6x67x", "x7x78x"})};
    const auto hand = tune.hand();
    CHECK(frets_of(hand) == std::vector<double>{6, 3, 3});
    CHECK(hand.hand.frets == 12);
    CHECK(hand.plan.frets == 8);
    CHECK(hand.moves[1].of == 2);
    CHECK(hand.moves[1].times == 2);
}

TEST_CASE("the way that was taken most often is the usual one, and the mean is of all",
          "[practice]") {
    const Tune tune{.times = 3,
                    .strums = bars_of({"x5x56x", "x6x67x", "x7x78x", "x5x56x", "xx46xx", "x7x78x",
                                       "x5x56x", "x6x67x", "x7x78x"})};
    const auto hand = tune.hand();
    const auto& move = hand.moves[1];
    CHECK(move.of == 3);
    CHECK(move.times == 2);
    CHECK(move.held.shape == shape("x6x67x"));
    CHECK(move.move.travel() == 3);
    CHECK(move.frets < 3);
    CHECK(move.frets >= 2);
}

TEST_CASE("from a wrong chord and to it nothing is measured, of the plan neither", "[practice]") {
    const Tune tune{.strums = bars_of({"x5x56x", "x6x68x", "x7x78x"})};
    const auto hand = tune.hand();
    CHECK(hand.passed.wrong == 1);
    CHECK(hand.moves.empty());
    CHECK(hand.plan.frets == 0);
}

TEST_CASE("what was not struck is passed over", "[practice]") {
    Tune tune{.strums = bars_of({"x5x56x", "x6x67x", "x7x78x"})};
    tune.strums.erase(tune.strums.begin() + 1);
    CHECK(tune.hand().passed.not_struck == 1);
    CHECK(tune.hand().moves.empty());
}

TEST_CASE("a chord that is held asks nothing of the hand", "[practice]") {
    Tune tune{.bars = "Dm7 | F6 | Ebm7", .strums = bars_of({"x5756x", "x6867x"})};
    tune.strums[0].beats = 8;
    tune.strums[1].bar = 3;
    const auto hand = tune.hand();
    CHECK(frets_of(hand) == std::vector<double>{0, 4});
    CHECK(hand.moves[0].held.shape == shape("x5756x"));
}

TEST_CASE("on one channel, or by sound, nobody knows where the hand was", "[practice]") {
    const Tune tune{.strums = bars_of({"x5x56x", "x6x67x", "x7x78x"})};
    const auto map = through(tune.form());
    const auto plan = plan_by_hand(tune.form(), two_fingers);
    const auto poly = judged(map, on_one_channel(play(tune.strums, map)));
    const auto hand = practice::hand_against_plan(poly, plan, nullptr);
    CHECK(hand.unknown == practice::HandUnknown::one_channel);
    CHECK(hand.moves.empty());
    auto heard = tune.report();
    heard.heard.heard_by = listen::HeardBy::sound;
    CHECK(practice::hand_against_plan(heard, plan, nullptr).unknown ==
          practice::HandUnknown::by_sound);
}

TEST_CASE("a nearer grip is right, nearer, and keeps a finger that was lifted", "[practice]") {
    const Tune tune{.bars = "Dm7 | G7", .strums = bars_of({"x5x56x", "3x34xx"})};
    const auto form = tune.form();
    guitar::NearGrips near(form, form.whole(), guitar::Fretboard::standard(), {});
    const auto hand = practice::hand_against_plan(tune.report(), plan_by_hand(form, {}), &near);
    REQUIRE(hand.moves.size() == 1);
    const auto& move = hand.moves.front();
    REQUIRE(move.nearer.has_value());
    CHECK(move.nearer->move.travel() < move.move.travel());
    REQUIRE_FALSE(move.nearer->guides.empty());
    for (const auto& guide : move.nearer->guides) {
        const int string = guide.to_string;
        CHECK(move.held_before.on(string) == guide.finger);
        CHECK(move.nearer->grip.on(string) == guide.finger);
        CHECK(move.held.on(string) != guide.finger);
    }
}

TEST_CASE("what went further than the plan comes first where it went furthest", "[practice]") {
    Tune tune{.bars = "Dm7 | Em7 | Ebm7",
              .strums = bars_of({"x5x56x", "x7x78x", "x6x67x"}),
              .grips = two_fingers};
    const auto far = tune.hand().furthest();
    REQUIRE(far.size() == 2);
    CHECK(far[0].bar == 2);
    CHECK(far[0].beyond() == 2);
    CHECK(far[1].beyond() == 1);
    tune.grips["Em7"] = {"x-x-8-10-x-x", "xx13xx"};
    CHECK(tune.hand().furthest().empty());
}
