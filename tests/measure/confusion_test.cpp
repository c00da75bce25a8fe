#include "measure.d/confusion.hpp"

#include "measure.d/charts.hpp"
#include "support/catch.hpp"
#include "support/our_forms.hpp"

#include <compline/simulate/hand_voicings.hpp>

#include <cmath>
#include <set>

using namespace compline;
using measure::Confusion;
using measure::Pupil;
using simulate::Deed;
using simulate::Outcome;
using simulate::PlayedChange;

namespace {

assess::Verdict verdict_of(Outcome landing) {
    switch (landing) {
        case Outcome::pushed:
            return assess::Verdict::pushed;
        case Outcome::placed:
            return assess::Verdict::placed;
        case Outcome::early:
            return assess::Verdict::early;
        case Outcome::late:
            return assess::Verdict::late;
        case Outcome::laid_out:
            return assess::Verdict::laid_out;
        case Outcome::missed:
            return assess::Verdict::missed;
        default:
            return assess::Verdict::on_time;
    }
}

/// What a judge would say who had seen what was done.
assess::Change said_of(const PlayedChange& done, const roadmap::RoadMap& map) {
    assess::Change said;
    said.to = done.chord;
    said.at = map.time_of(done.at);
    said.verdict = verdict_of(done.landings.front());
    said.tones = done.landing ? assess::Tones::right : assess::Tones::none;
    if (done.landing) {
        said.beats_in = done.beats_in.value_or(0);
        const time::Ticks grid(std::llround(*said.beats_in * 960));
        said.lateness = *done.landing - map.time_of(done.at + grid);
    }
    if (done.wrong) {
        said.tones = assess::Tones::wrong;
        said.wrong.emplace_back().note = *done.wrong;
        said.wrong.back().stuck_finger = done.deed == Deed::stuck_finger;
    }
    if (done.missing) {
        said.tones = assess::Tones::incomplete;
        said.missing = {harmony::Degree{7, *done.missing - 11}};
    }
    return said;
}

Pupil pupil_with(const simulate::Habits& habits) {
    auto form = tests::our_forms().front();
    auto asked = roadmap::Asked::of(form.whole(), 2);
    asked.tempo = time::Bpm(120);
    return {{std::move(form), asked}, habits, simulate::ChannelLayout::high_string_first, 1};
}

/// Two choruses, and a judge who is right about them.
struct Scene {
    Pupil pupil;
    simulate::PlayedTune played;
    assess::Assessment assessment;

    explicit Scene(const simulate::Habits& habits = {})
        : pupil(pupil_with(habits)), played(simulate::play(pupil.map, habits, 1)) {
        for (const auto& done : played.changes)
            assessment.changes.push_back(said_of(done, pupil.map));
    }
    [[nodiscard]] std::size_t first(std::optional<Deed> deed) const {
        for (std::size_t i = 0; i < played.changes.size(); ++i) {
            if (played.changes[i].deed == deed) return i;
        }
        throw std::runtime_error("never done");
    }
    [[nodiscard]] Confusion compared() const {
        Confusion confusion;
        confusion.add(pupil, played, assessment);
        return confusion;
    }
};

/// A scene in which that was done once.
Scene with(Deed deed) {
    simulate::Habits habits;
    habits.once = {deed};
    return Scene(habits);
}

constexpr Deed mistakes[] = {Deed::late,         Deed::wrong_third,     Deed::wrong_fret,
                             Deed::stuck_finger, Deed::missing_seventh, Deed::missed};

}  // namespace

TEST_CASE("a judge who says what was done is right about everything") {
    simulate::Habits habits;
    habits.rates.fill(0.08);
    habits.rate(Deed::lost) = 0;
    const auto confusion = Scene(habits).compared();
    CHECK(confusion.all.mistakes > 5);
    CHECK(confusion.all.clean > 40);
    CHECK(confusion.all.false_alarms_in_100() == 0);
    CHECK(confusion.all.own_word_rate() == 1);
    CHECK(confusion.all.strum_rate() == 1);
    CHECK(confusion.all.found_rate() == 1);
    CHECK(confusion.all.named_rate() == 1);
    CHECK(confusion.all.missed_precision() == 1);
    CHECK(confusion.disagreements.empty());
}

TEST_CASE("a mistake of which nothing is said is not found") {
    for (const auto deed : mistakes) {
        INFO(simulate::name_of(deed));
        auto scene = with(deed);
        CHECK(scene.compared().all.named == 1);
        auto& said = scene.assessment.changes[scene.first(deed)];
        said.verdict = assess::Verdict::on_time;
        said.tones = assess::Tones::right;
        said.wrong.clear();
        said.missing.clear();
        CHECK(scene.compared().all.found == 0);
        CHECK(scene.compared().all.named == 0);
        CHECK(scene.compared().disagreements.size() == 1);
    }
}

TEST_CASE("a mistake that is called another is found and not named") {
    auto third = with(Deed::wrong_third);
    third.assessment.changes[third.first(Deed::wrong_third)].wrong.front().note =
        harmony::MidiNote(1);
    auto seventh = with(Deed::missing_seventh);
    seventh.assessment.changes[seventh.first(Deed::missing_seventh)].missing = {{3, 0}};
    auto late = with(Deed::late);
    *late.assessment.changes[late.first(Deed::late)].lateness += time::from_milliseconds(2);
    auto stuck = with(Deed::stuck_finger);
    stuck.assessment.changes[stuck.first(Deed::stuck_finger)].wrong.front().stuck_finger = false;
    for (const auto& scene : {third, seventh, late, stuck}) {
        CHECK(scene.compared().all.found == 1);
        CHECK(scene.compared().all.named == 0);
    }
}

TEST_CASE("what is held against a clean change is a false alarm") {
    for (const auto verdict :
         {assess::Verdict::late, assess::Verdict::early, assess::Verdict::missed}) {
        Scene scene;
        auto& said = scene.assessment.changes[3];
        said.verdict = verdict;
        said.lateness = time::Seconds(0.1);
        const auto all = scene.compared().all;
        CHECK(all.false_alarms == 1);
        CHECK(all.own_word == all.clean - 1);
        CHECK(all.clean_called_late == (verdict == assess::Verdict::late ? 1 : 0));
        CHECK(all.called_missed - all.truly_missed == (verdict == assess::Verdict::missed ? 1 : 0));
        CHECK(all.called_early - all.truly_early == (verdict == assess::Verdict::early ? 1 : 0));
    }
    Scene scene;
    scene.assessment.changes[3].tones = assess::Tones::incomplete;
    CHECK(scene.compared().all.false_alarms == 1);
}

TEST_CASE("the right word said of another strum is told apart") {
    Scene scene;
    *scene.assessment.changes[3].lateness += time::Seconds(0.03);
    const auto all = scene.compared().all;
    CHECK(all.own_word == all.clean);
    CHECK(all.strum == all.clean - 1);
}

TEST_CASE("every change of every pupil is judged, and every row has takes") {
    const auto confusion = measure::confusion(tests::our_forms(), 48, 1);
    CHECK(confusion.all.takes == 48);
    CHECK(confusion.all.unjudged == 0);
    CHECK(confusion.all.clean > 2000);
    CHECK(confusion.all.mistakes > 100);
    for (const auto& row : confusion.by_comping) CHECK(row.takes >= 4);
    for (const auto& row : confusion.by_tempo) CHECK(row.takes >= 4);
    for (const auto& row : confusion.by_sustain) CHECK(row.takes >= 4);
    for (const auto& row : confusion.by_channels) CHECK(row.takes >= 4);
    for (const auto& row : confusion.by_place) CHECK(row.takes >= 4);
    for (const auto& deed : confusion.deeds) CHECK(deed.done > 0);
}

TEST_CASE("the same seed gives the same figures, another seed gives others") {
    const auto once = measure::confusion(tests::our_forms(), 6, 1);
    const auto again = measure::confusion(tests::our_forms(), 6, 1);
    const auto other = measure::confusion(tests::our_forms(), 6, 2);
    CHECK(once.all.clean == again.all.clean);
    CHECK(once.all.mistakes == again.all.mistakes);
    CHECK(once.all.clean != other.all.clean);
}

TEST_CASE("tunes by chance are charts, and the guitarist knows grips of all their chords") {
    std::set<std::string> symbols;
    for (std::uint64_t seed = 1; seed <= 60; ++seed) {
        simulate::Chance chance(seed);
        const auto form = measure::any_chart(chance);
        CHECK(form.bars.size() == 32);
        for (const auto& span : form.spans) {
            if (!span.chord) continue;
            INFO(span.chord->symbol());
            CHECK(simulate::known_grips(*span.chord).size() >= 2);
            symbols.insert(span.chord->symbol());
        }
    }
    CHECK(symbols.size() > 150);
}
