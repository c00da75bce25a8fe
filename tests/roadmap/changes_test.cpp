#include "chart/support.hpp"
#include "roadmap/slow_walk.hpp"
#include "support/catch.hpp"

#include <compline/roadmap/road_map.hpp>

#include <string>
#include <utility>
#include <vector>

using namespace compline;
using roadmap::DueChange;
using roadmap::RoadMap;
using time::Ticks;

namespace {

std::vector<DueChange> changes_of(const std::string& bars, const std::string& key = "C",
                                  chart::Passage passage = {0, 0}, int times = 1) {
    auto text = tests::chart_text("  A: " + bars + "\n");
    text.replace(text.find("key: F"), 6, "key: " + key);
    const auto form = chart::unroll(chart::read_chart(text, "t"));
    if (passage.to == 0) passage = form.whole();
    return RoadMap(form, roadmap::Asked::of(passage, times)).changes();
}

std::string symbol(const std::optional<harmony::Chord>& chord) {
    return chord ? chord->symbol(harmony::Accidentals::letters) : "-";
}

/// "bar.beat from>to quarters", one after the other.
std::string words(const std::vector<DueChange>& changes) {
    std::string text;
    for (const auto& change : changes) {
        text += fmt::format("{}{}.{} {}>{} {}", text.empty() ? "" : ", ", change.bar,
                            change.beat.number(), symbol(change.from), symbol(change.to),
                            time::Beats(change.length).count());
    }
    return text;
}

/// The chords of which this is true, in order.
std::string which(const std::vector<DueChange>& changes, bool harmony::Surroundings::*is) {
    std::string text;
    for (const auto& change : changes) {
        if (change.around.*is) text += (text.empty() ? "" : " ") + symbol(change.to);
    }
    return text;
}

}  // namespace

TEST_CASE("a chord that differs from the one before is a change, and lasts until the next") {
    CHECK(words(changes_of("Dm7 / G7 / | Cmaj7 | % | A7")) ==
          "1.1 ->Dm7 2, 1.3 Dm7>G7 2, 2.1 G7>Cmaj7 8, 4.1 Cmaj7>A7 4");
}

TEST_CASE("a chord lasts until nobody plays changes, and after that the first one counts") {
    CHECK(words(changes_of("F6 / N.C. / | F6 | F6 C7/E / /")) ==
          "1.1 ->F6 2, 2.1 ->F6 5, 3.2 F6>C7/E 3");
}

TEST_CASE("a chord that goes on over the end of a time through is no change there") {
    CHECK(words(changes_of("C6 | G7 | C6", "C", {0, 0}, 2)) ==
          "1.1 ->C6 4, 2.1 C6>G7 4, 3.1 G7>C6 8, 2.1 C6>G7 4, 3.1 G7>C6 4");
}

TEST_CASE("changes are those that who writes every bar down comes to") {
    for (unsigned seed = 0; seed < 200; ++seed) {
        const auto scene = tests::random_scene(seed);
        const auto map = scene.map();
        if (map.goes_on()) continue;
        const tests::SlowWalk walk(scene);
        std::string expected;
        std::optional<harmony::Chord> sounding;
        for (const auto& bar : walk.bars(1'000'000)) {
            if (bar.waits) sounding.reset();
            for (const auto& span : scene.form.spans) {
                if (span.bar != bar.in_form || span.chord == sounding) continue;
                const auto in_bar = span.start - walk.written(bar.in_form).start;
                const bool seam = bar.seam && in_bar == Ticks(0);
                expected += fmt::format("{} {} {} {} {}>{}{}\n", bar.time_through, bar.in_form,
                                        (bar.start + in_bar).count(), span.start.count(),
                                        symbol(sounding), symbol(span.chord), seam ? " seam" : "");
                sounding = span.chord;
            }
        }
        std::string found;
        for (const auto& change : map.changes()) {
            found += fmt::format("{} {} {} {} {}>{}{}\n", change.time_through, change.bar,
                                 change.at.count(), change.in_form.count(), symbol(change.from),
                                 symbol(change.to), change.seam ? " seam" : "");
            CHECK(change.section == "A");
        }
        CAPTURE(seed);
        REQUIRE(found == expected);
    }
}

TEST_CASE("changes fill what is played where somebody plays changes all the time") {
    for (unsigned seed = 0; seed < 100; ++seed) {
        const auto map = tests::random_scene(seed).map().first(3);
        Ticks at;
        const auto wait_here = [&] {
            const auto bar = map.bar_at(at);
            if (bar.waits && bar.start == at) at = bar.end();
            return bar.waits && at < map.end();
        };
        for (const auto& change : map.changes()) {
            while (wait_here()) {
            }
            REQUIRE(change.at == at);
            at += change.length;
        }
        while (wait_here()) {
        }
        REQUIRE(at == map.end());
    }
}

TEST_CASE("a dominant falls that leads a fifth or a semitone down, at once or past a ii-V") {
    const auto falls = &harmony::Surroundings::falls;
    CHECK(which(changes_of("Dm7 | G7 | Cmaj7 | A7"), falls) == "G7 A7");  // A7: back to Dm7
    CHECK(which(changes_of("Cmaj7 | Db7 | Cmaj7 | Bb7"), falls) == "Db7");
    CHECK(which(changes_of("G7 | Dm7 G7 | Cmaj7 | Fmaj7"), falls) == "G7 G7");
    CHECK(which(changes_of("D7 | Dm7 G7 | Cmaj7 | Fmaj7"), falls) == "D7 G7");
    CHECK(which(changes_of("G7sus | G7 | Cmaj7"), falls) == "G7sus4 G7");
    CHECK(which(changes_of("C7 | G7 | Fmaj7"), falls).empty());
}

TEST_CASE("at the end of a loop a dominant leads where the tune goes, and where the loop does") {
    const auto falls = &harmony::Surroundings::falls;
    const std::string tune = "Dm7 | G7 | Cmaj7 | Fmaj7";
    CHECK(which(changes_of(tune, "C", {1, 2}, 2), falls) == "G7 G7");  // the tune goes to C
    CHECK(which(changes_of("Cmaj7 | G7 | Am7", "C", {1, 2}, 2), falls) == "G7 G7");  // the loop
    CHECK(which(changes_of("Cmaj7 | G7 | Am7", "C"), falls).empty());
}

TEST_CASE("a seam is where the loop leads and the tune does not") {
    const auto changes = changes_of("Dm7 | G7 | Cmaj7 | A7", "C", {2, 3}, 3);
    std::vector<bool> seams;
    for (const auto& change : changes) seams.push_back(change.seam);
    CHECK(seams == std::vector<bool>{false, false, true, false, true, false});
    for (const auto& change : changes_of("Dm7 | G7 | Cmaj7 | A7", "C", {0, 0}, 3)) {
        CHECK_FALSE(change.seam);
    }
}

TEST_CASE("a dominant that falls into a minor chord is known by it") {
    const auto minor = &harmony::Surroundings::into_minor;
    CHECK(which(changes_of("A7 | Dm7 | G7 | Cmaj7"), minor) == "A7");
    CHECK(which(changes_of("Ab7 | Gm7 | C7 | Fmaj7"), minor).empty());  // a semitone
}

TEST_CASE("the tonic of a minor key and the fourth of a major one are known") {
    CHECK(which(changes_of("Am6 | E7 | Am7 | Dm7", "Am"), &harmony::Surroundings::tonic_minor) ==
          "Am6 Am7");
    CHECK(which(changes_of("Am6 | E7 | Am7 | Dm7"), &harmony::Surroundings::tonic_minor).empty());
    CHECK(which(changes_of("Cmaj7 | Fmaj7 | G7"), &harmony::Surroundings::subdominant) == "Fmaj7");
    CHECK(which(changes_of("Am7 | Dm7 | E7", "Am"), &harmony::Surroundings::subdominant).empty());
}

TEST_CASE("a blues is known by its first and fourth chords, dominants that follow one another") {
    const auto blues = &harmony::Surroundings::blues;
    CHECK(which(changes_of("F7 | Bb7 | F7 | C7", "F"), blues) == "F7 Bb7 F7");
    CHECK(which(changes_of("Fmaj7 | Bb7 | C7", "F"), blues).empty());
    CHECK(which(changes_of("F7 | C7 | Bb7 | C7", "F"), blues).empty());
}

TEST_CASE("two beats and more are two beats of the bar's own meter") {
    const auto two_beats = &harmony::Surroundings::two_beats;
    CHECK(which(changes_of("Dm7 G7 / / | Cmaj7"), two_beats) == "G7 Cmaj7");
    chart::Form form;
    chart::FormBar bar;
    bar.meter = time::Meter(time::eighth_note, {2, 2, 3});
    form.bars = {bar};
    form.spans = {{Ticks(0), Ticks(960), harmony::read_chord("Dm7"), 1},
                  {Ticks(960), Ticks(480), harmony::read_chord("G7"), 1},
                  {Ticks(1440), Ticks(1920), harmony::read_chord("Cmaj7"), 1}};
    const RoadMap map(form, roadmap::Asked::of({1, 1}, 1));
    CHECK(which(map.changes(), two_beats) == "Dm7 Cmaj7");
}
