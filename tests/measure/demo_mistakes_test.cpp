#include "measure.d/compare.hpp"
#include "measure.d/confusion.hpp"
#include "support/catch.hpp"
#include "support/comper.hpp"

#include <compline/guitar/voicing_plan.hpp>

#include <algorithm>

using namespace compline;
using simulate::Deed;

namespace {

const std::vector<Deed> five = {Deed::stuck_finger, Deed::wrong_fret, Deed::missed,
                                Deed::missing_seventh, Deed::late};

chart::Form blues() {
    return tests::form_of(
        "F7 | Bb7 | F7 | Cm7 F7 | Bb7 | Bdim7 | F7 | Am7b5 D7b9 | Gm7 | C7 | F7 D7 | Gm7 C7", "F");
}

guitar::VoicingPlan plan_of(const chart::Form& form, std::vector<int> strings) {
    guitar::VoicingWishes wishes;
    wishes.strings = std::move(strings);
    return guitar::plan_voicings(form, form.whole(), time::Bpm(132), guitar::Fretboard::standard(),
                                 wishes)
        .front();
}

/// Two choruses by a plan, with each of the five mistakes once.
measure::Pupil pupil_of(const chart::Form& form, const guitar::VoicingPlan& plan,
                        std::uint64_t seed) {
    simulate::Habits habits;
    habits.voicings = &plan;
    habits.scatter = time::Seconds(0.009);
    habits.overlap = time::Seconds(0);
    habits.once = five;
    habits.rate(Deed::push) = 0.12;
    auto asked = roadmap::Asked::of(form.whole(), 2);
    asked.tempo = time::Bpm(132);
    return {{form, asked}, habits, simulate::ChannelLayout::high_string_first, seed};
}

simulate::PlayedTune played_by(const measure::Pupil& pupil) {
    return simulate::play(pupil.map, pupil.habits, pupil.seed);
}

}  // namespace

TEST_CASE("in planned voicings each of five mistakes finds its place, whatever the seed") {
    const auto form = blues();
    const auto plan = plan_of(form, {6, 5, 4, 3});
    for (std::uint64_t seed = 0; seed <= 200; ++seed) {
        const auto played = played_by(pupil_of(form, plan, seed));
        INFO("seed " << seed);
        for (const auto deed : five) {
            INFO(simulate::name_of(deed));
            CHECK(std::count_if(played.changes.begin(), played.changes.end(),
                                [&](const auto& change) { return change.deed == deed; }) == 1);
        }
    }
}

TEST_CASE("the judge names what was planted in planned voicings, and nothing else") {
    const auto form = blues();
    for (const auto& strings : {std::vector{6, 5, 4, 3}, std::vector<int>{}}) {
        const auto plan = plan_of(form, strings);
        measure::Confusion confusion;
        for (std::uint64_t seed = 0; seed < 40; ++seed) {
            const auto pupil = pupil_of(form, plan, seed);
            const auto played = played_by(pupil);
            confusion.add(pupil, played, measure::judged(pupil, played));
        }
        std::string differences;
        for (const auto& it : confusion.disagreements)
            differences += it.where + "\n  done: " + it.done + "\n  said: " + it.said + "\n";
        INFO(differences);
        // Not every plan has a place for a finger that sticks.
        CHECK(confusion.all.mistakes >= 160);
        CHECK(confusion.all.named == confusion.all.mistakes);
        CHECK(confusion.all.false_alarms == 0);
    }
}
