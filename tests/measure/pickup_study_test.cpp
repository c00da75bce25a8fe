#include "measure.d/pickup_study.hpp"

#include "support/catch.hpp"
#include "support/our_forms.hpp"

using namespace compline;
using measure::PickupFigures;
using measure::PickupStudyRequest;
using simulate::Wear;
using time::Seconds;

namespace {

PickupStudyRequest dozen(Wear wear) {
    PickupStudyRequest request;
    request.takes = 12;
    request.roughness = roughness_of(wear);
    return request;
}

listen::Note heard(double ms, int string, int note) {
    listen::Note it;
    it.on = time::from_milliseconds(ms);
    it.off = it.on + Seconds(0.1);
    it.string = string;
    it.note = harmony::MidiNote(note);
    return it;
}

}  // namespace

TEST_CASE("through a pickup without faults everything is heard as it was played") {
    const auto figures = study_pickup(tests::our_forms(), dozen(Wear::none));
    CHECK(figures.takes == 12);
    CHECK(figures.strums.f_measure() == 1);
    CHECK(figures.tones().played > 2000);
    CHECK(figures.tones().f_measure() == 1);
    CHECK(figures.verdicts_changed == 0);
    CHECK(figures.elsewhere == 0);
    CHECK(figures.false_wrong == 0);
    CHECK(figures.p95_ms() < 1e-6);
    CHECK(figures.changes > 300);
    CHECK(static_cast<int>(figures.lateness_errors_ms.size()) <= figures.changes);
}

TEST_CASE("a pickup of moderate roughness is heard nearly as a clean one") {
    const auto figures = study_pickup(tests::our_forms(), dozen(Wear::moderate));
    CHECK(figures.strums.f_measure() >= 0.99);
    CHECK(figures.tones().precision() >= 0.985);
    CHECK(figures.tones().recall() >= 0.985);
    CHECK(std::abs(figures.bias_ms()) <= 1);
    CHECK(figures.sd_ms() <= 4);
    CHECK(figures.false_wrong_rate() <= 0.01);
    // It was rough.
    for (const auto fault : {simulate::Fault::ghost, simulate::Fault::double_trigger,
                             simulate::Fault::flicker, simulate::Fault::lift_off}) {
        CHECK(figures.faults.at(static_cast<std::size_t>(fault)) > 15);
    }
    CHECK(figures.faults.at(static_cast<std::size_t>(simulate::Fault::slide)) > 0);
}

TEST_CASE("a true and a heard note match on one string at one pitch within 50 ms, each once") {
    const std::vector<listen::Note> truth = {heard(0, 3, 60), heard(100, 3, 60), heard(200, 4, 60)};
    const std::vector<listen::Note> said = {heard(-30, 3, 60), heard(20, 3, 60), heard(70, 3, 60),
                                            heard(200, 5, 60), heard(251, 4, 60)};
    const auto matching = measure::match_notes(truth, said);
    CHECK(matching.heard_as[0] == 0);
    CHECK(matching.heard_as[1] == 2);
    CHECK_FALSE(matching.heard_as[2].has_value());
    CHECK(matching.extra == std::vector<bool>{false, true, false, true, true});
}

TEST_CASE("a study's figures say how much was heard and how far off it was") {
    const measure::Found found{10, 8, 6};
    CHECK(found.recall() == Approx(0.6));
    CHECK(found.precision() == Approx(0.75));
    CHECK(found.f_measure() == Approx(2 * 0.6 * 0.75 / 1.35));
    PickupFigures figures;
    figures.lateness_errors_ms = {-2, 0, 2, 4};
    CHECK(figures.bias_ms() == Approx(1));
    CHECK(figures.sd_ms() == Approx(2.582).margin(0.001));
    CHECK(figures.p95_ms() == Approx(4));
    figures.right_clean = 50;
    figures.false_wrong = 2;
    CHECK(figures.false_wrong_rate() == Approx(0.04));
}

TEST_CASE("a study shows what was invented, with the messages that came") {
    auto request = dozen(Wear::none);
    request.takes = 2;
    request.roughness.double_triggers = 0.1;
    request.cleaning.double_trigger = Seconds(0);
    request.most_slips = 3;
    const auto figures = study_pickup(tests::our_forms(), request);
    CHECK(figures.tones().precision() < 0.95);
    CHECK(figures.tones().recall() == 1);
    REQUIRE(figures.slips.size() == 3);
    for (const auto& slip : figures.slips) {
        CHECK(slip.extra);
        CHECK(slip.fault == simulate::Fault::double_trigger);
        CHECK(slip.messages.size() >= 2);
    }
}

TEST_CASE("a cleaning rule set too tight keeps what nobody played, set too wide drops what was") {
    auto request = dozen(Wear::none);
    request.takes = 6;
    request.roughness.double_triggers = 0.1;
    listen::Cleaning off;
    off.double_trigger = Seconds(0);
    const auto at = [&](double ms) {
        request.cleaning.double_trigger = time::from_milliseconds(ms);
        return study_rule(tests::our_forms(), request, simulate::Fault::double_trigger, off);
    };
    const auto tight = at(20);
    const auto right = at(51);
    const auto wide = at(300);
    CHECK(tight.faults > 50);
    CHECK(tight.false_keeps > tight.faults / 2);
    CHECK(tight.false_drops == 0);
    CHECK(right.false_keeps == 0);
    CHECK(right.false_drops == 0);
    CHECK(wide.false_drops > 5);
}
