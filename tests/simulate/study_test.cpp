#include "support/catch.hpp"
#include "support/comper.hpp"

#include <compline/simulate/study.hpp>

#include <algorithm>
#include <filesystem>

using namespace compline;
using simulate::Deed;

namespace {

std::vector<chart::Form> demo_forms() {
    std::vector<chart::Form> forms;
    for (const char* name : {"blue-kettle-on-the-back-stairs", "the-ferryman-counts-to-nine",
                             "three-lamps-on-weir-lane", "waltz-for-a-leaning-chimney"}) {
        forms.push_back(chart::unroll(chart::load_chart(std::filesystem::path(COMPLINE_SOURCE_DIR) /
                                                        "charts" / (std::string(name) + ".yaml"))));
    }
    return forms;
}

simulate::Confusion study(int choruses, bool deeds = true) {
    simulate::StudyRequest request;
    request.choruses = choruses;
    request.deeds = deeds;
    return simulate::study(demo_forms(), request);
}

std::string told(const simulate::Confusion& confusion) {
    std::string text;
    for (const auto& it : confusion.disagreements) {
        text += it.chart + " bar " + std::to_string(it.bar) + " " + it.chord +
                "\n  done: " + it.done + "\n  said: " + it.said + "\n";
    }
    return text;
}

simulate::Chorus blues_chorus(const chart::Form& form, std::uint64_t seed, bool deeds) {
    simulate::ChorusRequest request;
    request.seed = seed;
    request.deeds = deeds;
    const time::Bpm bpm(132);
    return simulate::play_chorus(form, {time::Timeline(bpm), form.chart.swing_at(bpm)}, request);
}

/// A chorus of the blues and what the judge made of it.
struct Judged {
    chart::Form form = demo_forms().front();
    simulate::Chorus chorus;
    assess::Assessment assessment;

    explicit Judged(std::uint64_t seed, bool deeds = true)
        : chorus(blues_chorus(form, seed, deeds)), assessment(simulate::judge(form, chorus)) {}
    simulate::Confusion compared() const {
        simulate::Confusion confusion;
        confusion.add({form.chart.title, 132, 0}, chorus, assessment);
        return confusion;
    }
};

/// The first chorus in which that deed was done, and the change it was done on.
std::pair<Judged, std::size_t> with(Deed deed) {
    for (std::uint64_t seed = 1; seed < 500; ++seed) {
        Judged judged(seed);
        const auto& changes = judged.chorus.changes;
        const auto it = std::find_if(changes.begin(), changes.end(),
                                     [&](const auto& change) { return change.deed == deed; });
        if (it != changes.end()) {
            return {std::move(judged), static_cast<std::size_t>(it - changes.begin())};
        }
    }
    throw std::runtime_error("never done");
}

}  // namespace

TEST_CASE("the judge finds every kind of mistake and forgives every liberty, at any tempo") {
    const auto confusion = study(60);
    INFO(told(confusion));
    for (int n = 0; n < simulate::deed_count; ++n) {
        const auto deed = static_cast<Deed>(n);
        INFO(simulate::name_of(deed));
        const auto& tally = confusion[deed];
        CHECK(tally.planted >= 20);
        CHECK(tally.found == tally.planted);
        CHECK(tally.right == tally.reported);
    }
    CHECK(confusion.plain.planted > 500);
    CHECK(confusion.plain.found == confusion.plain.planted);
    CHECK(confusion.early.reported == 0);
    CHECK(confusion.outside.reported == 0);
    for (const auto& band : confusion.bands) CHECK(band.planted > 50);
}

TEST_CASE("nothing is reported on choruses that are simply played") {
    const auto confusion = study(60, false);
    INFO(told(confusion));
    CHECK(confusion.disagreements.empty());
    CHECK(confusion.plain.planted > 1000);
    CHECK(confusion.plain.found == confusion.plain.planted);
    for (const auto& tally : confusion.deeds) {
        CHECK(tally.planted == 0);
        CHECK(tally.reported == 0);
    }
}

TEST_CASE("a study counts as missed what the judge does not say") {
    for (int n = 0; n < simulate::deed_count; ++n) {
        const auto deed = static_cast<Deed>(n);
        INFO(simulate::name_of(deed));
        auto [judged, i] = with(deed);
        CHECK(judged.compared()[deed].found == judged.compared()[deed].planted);
        // The judge says nothing of mistakes and passing chords; it calls the rest late.
        auto& change = judged.assessment.changes[i];
        const bool said = is_mistake(deed) || change.cost() > 0 || deed == Deed::passing_chord ||
                          change.verdict != assess::Verdict::on_time;
        change.verdict = said ? assess::Verdict::on_time : assess::Verdict::late;
        change.beats_in = 0;
        change.tones = assess::Tones::right;
        change.wrong.clear();
        change.missing.clear();
        change.passing = 0;
        const auto tally = judged.compared()[deed];
        CHECK(tally.found == tally.planted - 1);
        CHECK(judged.compared().disagreements.size() == 1);
    }
}

TEST_CASE("a study counts as false what was reported and not done") {
    const Judged plain(1, false);
    const auto reported = [&](Deed deed, const auto& report) {
        Judged judged = plain;
        report(judged.assessment.changes[3]);
        const auto confusion = judged.compared();
        INFO(simulate::name_of(deed));
        CHECK(confusion[deed].reported == 1);
        CHECK(confusion[deed].right == 0);
        CHECK(confusion.plain.found == confusion.plain.planted - 1);
        CHECK(confusion.disagreements.size() == 1);
    };
    using assess::Change;
    using assess::Verdict;
    CHECK(plain.compared().disagreements.empty());
    reported(Deed::late, [](Change& change) { change.verdict = Verdict::late; });
    reported(Deed::push, [](Change& change) { change.verdict = Verdict::pushed; });
    reported(Deed::missed, [](Change& change) { change.verdict = Verdict::missed; });
    reported(Deed::laid_out, [](Change& change) { change.verdict = Verdict::laid_out; });
    reported(Deed::later_entry, [](Change& change) { change.beats_in = 1; });
    reported(Deed::wrong_third, [](Change& change) { change.wrong.emplace_back(); });
    reported(Deed::stuck_finger,
             [](Change& change) { change.wrong.emplace_back().stuck_finger = true; });
    reported(Deed::missing_seventh,
             [](Change& change) { change.tones = assess::Tones::incomplete; });
    reported(Deed::passing_chord, [](Change& change) { change.passing = 1; });
}

TEST_CASE("a study knows which tone was wrong and which was left out, and when a chord landed") {
    auto [third, i] = with(Deed::wrong_third);
    third.assessment.changes[i].wrong.front().note = harmony::MidiNote(1);
    CHECK(third.compared()[Deed::wrong_third].found < third.compared()[Deed::wrong_third].planted);

    auto [seventh, k] = with(Deed::missing_seventh);
    seventh.assessment.changes[k].missing = {harmony::Degree{3, 0}};
    CHECK(seventh.compared()[Deed::missing_seventh].found <
          seventh.compared()[Deed::missing_seventh].planted);

    auto [late, n] = with(Deed::late);
    *late.assessment.changes[n].lateness += time::from_milliseconds(2);
    CHECK(late.compared()[Deed::late].found < late.compared()[Deed::late].planted);
}

TEST_CASE("what a study expects of a chorus is what the guitarist did") {
    for (std::uint64_t seed = 1; seed <= 40; ++seed) {
        const Judged judged(seed);
        const auto& chorus = judged.chorus;
        const auto sounds_at = [&](time::Seconds t) {
            return std::any_of(chorus.script.begin(), chorus.script.end(), [&](const auto& strum) {
                return time::abs(chorus.groove.time_of(strum.at) + strum.lateness - t) <
                       time::Seconds(1e-9);
            });
        };
        const auto tolerance = assess::auto_tolerance(chorus.groove);
        bool deed_before = false;
        for (const auto& change : chorus.changes) {
            INFO("seed " << seed << " bar " << change.bar << " " << change.words);
            if (change.landing) {
                CHECK(sounds_at(*change.landing));
                const auto off = *change.landing - chorus.groove.time_of(change.at);
                const bool elsewhere = change.deed == Deed::late || change.deed == Deed::push ||
                                       change.deed == Deed::later_entry;
                CHECK((time::abs(off) <= tolerance) != elsewhere);
            }
            // A change with a deed has a simply played one on either side.
            CHECK_FALSE((deed_before && change.deed));
            deed_before = change.deed.has_value();
        }
    }
}

TEST_CASE("the same seed is the same study, another seed is another") {
    const auto once = study(5);
    const auto again = study(5);
    simulate::StudyRequest request;
    request.choruses = 5;
    request.seed = 100;
    const auto other = simulate::study(demo_forms(), request);
    CHECK(once.plain.planted == again.plain.planted);
    CHECK(once[Deed::late].planted == again[Deed::late].planted);
    CHECK(once.plain.planted != other.plain.planted);
}
