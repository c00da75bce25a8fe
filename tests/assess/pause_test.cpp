// A pause on the way: what is played in it is nobody's business, what lies around it is judged as
// usual.

#include "support/catch.hpp"
#include "support/comper.hpp"

#include <compline/assess/assessment.hpp>

#include <algorithm>
#include <string>
#include <vector>

using namespace compline;
using assess::Verdict;
using roadmap::RoadMap;

namespace {

constexpr double beat = 0.5;  // seconds, at 120

/// Eight bars, paused from the fifth on for nine beats, and from bar 5 of the form on again.
struct Paused {
    chart::Form form = tests::form_of("Dm7 | G7 | Dm7 | G7 | Dm7 | G7 | Dm7 | G7");
    RoadMap before = tests::map_of(form, 120);
    RoadMap map = before.with({5, roadmap::Paused{}})
                      .with({5, roadmap::Waited{9, chart::Way::of({5, 8}, 1)}});
    std::vector<listen::Note> notes;

    /// A shell, so many seconds from bar 1 on.
    void strum(double at, const std::string& grip) {
        for (int string = 6; string >= 1; --string) {
            const char fret = grip.at(static_cast<std::size_t>(6 - string));
            if (fret == 'x') continue;
            listen::Note note;
            note.on = time::Seconds(at);
            note.off = time::Seconds(at + 0.45);
            note.string = string;
            note.fret = fret - '0';
            note.velocity = 80;
            note.note = harmony::MidiNote(open(string) + fret - '0');
            notes.push_back(note);
        }
    }

    static int open(int string) {
        constexpr int strings[] = {64, 59, 55, 50, 45, 40};
        return strings[string - 1];
    }

    [[nodiscard]] assess::Assessment judged() const {
        assess::Performance heard;
        heard.notes = notes;
        return assess::assess(map, heard, {});
    }

    /// Every bar on 1, `late` seconds behind.
    void play_the_tune(double late) {
        for (int bar = 1; bar <= 8; ++bar) {
            const double wait = bar > 4 ? 9 * beat : 0;
            if (bar == 5) at_wait();
            if (bar == left_out) continue;
            strum((bar - 1) * 4 * beat + wait + late, bar % 2 == 1 ? "x5x56x" : "3x34xx");
        }
    }

    int left_out = 0;     ///< a bar
    std::string noodles;  ///< a grip, played all through the wait,
    int often = 16;       ///< so often
    void at_wait() {
        if (noodles.empty()) return;
        for (int n = 1; n <= often; ++n) strum(16 * beat + n * beat * 0.53, noodles);
    }
};

}  // namespace

TEST_CASE("what is played in a pause is in no list and no figure, around it all is as usual") {
    Paused quiet;
    quiet.play_the_tune(0.004);
    Paused noodler;
    noodler.noodles = "x7x78x";
    noodler.play_the_tune(0.004);
    const auto usual = quiet.judged();
    const auto judged = noodler.judged();
    REQUIRE(usual.changes.size() == 8);
    REQUIRE(judged.changes.size() == 8);
    for (std::size_t i = 0; i < 8; ++i) {
        CAPTURE(i);
        CHECK(usual.changes[i].verdict == Verdict::on_time);
        CHECK(judged.changes[i].verdict == Verdict::on_time);
        CHECK(judged.changes[i].lateness == usual.changes[i].lateness);
    }
    CHECK(judged.changes[4].time_through == 2);
    CHECK(usual.strums.size() == 8);
    CHECK(judged.strums.size() == 8);
    CHECK(judged.time.all.count == usual.time.all.count);
}

TEST_CASE("a chord that is played in a pause is not the one due before it, nor the one after it") {
    for (const int left_out : {4, 5}) {
        CAPTURE(left_out);
        Paused quiet;
        quiet.left_out = left_out;
        quiet.play_the_tune(0);
        Paused noodler;
        noodler.left_out = left_out;
        noodler.often = 13;  // what comes still later is a push into what comes
        noodler.noodles = left_out == 4 ? "3x34xx" : "x5x56x";
        noodler.play_the_tune(0);
        const auto i = static_cast<std::size_t>(left_out - 1);
        CHECK(noodler.judged().changes[i].verdict == quiet.judged().changes[i].verdict);
    }
}

TEST_CASE("a chord that was struck early in a pause is not held into what comes") {
    Paused paused;
    paused.left_out = 5;
    paused.play_the_tune(0);
    const auto without = paused.judged().changes[4].verdict;
    paused.strum(16 * beat + 6 * beat, "x5x56x");
    for (auto& note : paused.notes) {
        if (note.on == time::Seconds(22 * beat)) note.off = time::Seconds(28 * beat);
    }
    std::sort(paused.notes.begin(), paused.notes.end(),
              [](const auto& a, const auto& b) { return a.on < b.on; });
    CHECK(paused.judged().changes[4].verdict == without);
}

TEST_CASE("a silence does not go on over a pause") {
    Paused paused;
    paused.map = paused.before.with({4, roadmap::LaysOut{roadmap::everybody}})
                     .with({5, roadmap::Paused{}})
                     .with({5, roadmap::Waited{8, chart::Way::of({5, 8}, 1)}})
                     .with({7, roadmap::LaysOut{roadmap::everybody, false}});
    paused.play_the_tune(0);
    const auto silences = paused.judged().time.silences;
    REQUIRE(silences.size() == 2);
    CHECK(silences[0].first_bar == 4);
    CHECK(silences[0].bars == 1);
    CHECK(silences[1].first_bar == 6);
    CHECK(silences[1].bars == 1);
}
