#include "support/catch.hpp"
#include "support/comper.hpp"

#include <compline/listen/listener.hpp>
#include <compline/simulate/chance.hpp>
#include <compline/simulate/played.hpp>

#include <algorithm>
#include <set>
#include <string>
#include <vector>

using namespace compline;
using assess::ReadAs;
using assess::Tones;
using assess::Verdict;
using tests::Comper;
using time::Seconds;

// A guitar of which only the sound is heard: when something is struck. 120 bpm, straight: the
// tolerance is 50 ms, off-beats lie 250 ms apart from beats.

namespace {

constexpr const char* any_grip = "x5x56x";

/// What is struck at these places (bar and beat, and ms late), heard by sound.
struct Stroke {
    int bar;
    double beat;
    double late = 0;
};

Comper heard(const std::string& bars, const std::vector<Stroke>& strokes) {
    Comper comper(bars, 120);
    comper.by_sound();
    bool higher = false;  // no string is struck twice at once
    for (const auto& stroke : strokes) {
        comper.strum(stroke.bar, stroke.beat, higher ? "x-6-x-6-7-x" : any_grip, stroke.late);
        higher = !higher;
    }
    return comper;
}

double lateness(const assess::Change& change) {
    return change.lateness ? change.lateness->milliseconds() : 999;
}

std::string read_as(const Comper& comper) {
    std::string words;
    for (const auto& strum : comper.judged().strums) {
        words += std::string(words.empty() ? "" : " ") + std::string(name_of(strum.read_as));
    }
    return words;
}

/// When a change was landed, by what is said of it.
Seconds landing_of(const assess::Change& change, const roadmap::RoadMap& map) {
    const auto beat = map.tempi().beat_at(change.at).count() + *change.beats_in;
    const time::Ticks grid(std::llround(beat * 960));
    return map.time_of(grid) + *change.lateness;
}

}  // namespace

TEST_CASE("heard by sound, a change is as late as what was struck for it, whatever its tones") {
    for (const double late : {-45.0, 0.0, 38.5, 75.0, 160.0}) {
        INFO(late);
        const auto change = heard("Dm7 | G7", {{1, 1}, {1, 3}, {2, 1, late}, {2, 3}}).change(2);
        CHECK(change.verdict == (late > 50 ? Verdict::late : Verdict::on_time));
        CHECK(lateness(change) == Approx(late).margin(0.001));
        CHECK(change.tones == Tones::none);
        CHECK(!change.spread);
        CHECK(change.heard_by == listen::HeardBy::sound);
    }
}

TEST_CASE("heard by sound, a chord struck on the off-beat before and not on its beat is pushed") {
    const auto change = heard("Dm7 | G7", {{1, 1}, {1, 4.5, 8}, {2, 3}}).change(2);
    CHECK(change.verdict == Verdict::pushed);
    CHECK(*change.beats_in == -0.5);
    CHECK(lateness(change) == Approx(8).margin(0.001));
}

TEST_CASE("heard by sound, off-beat and beat both struck, the chord comes on its beat") {
    const auto comper = heard("Dm7 | G7", {{1, 1}, {1, 4.5}, {2, 1}, {2, 3}});
    CHECK(comper.verdicts() == "on_time on_time");
    CHECK(read_as(comper) == "landing again landing again");
}

TEST_CASE("heard by sound, who pushes every chord pushes the one that is struck on the beat too") {
    std::string bars = "Dm7";
    std::vector<Stroke> strokes{{1, 1}};
    for (int bar = 2; bar <= 16; ++bar) {
        bars += bar % 2 == 0 ? " | G7" : " | Dm7";
        strokes.push_back({bar - 1, 4.5});
        if (bar == 9) strokes.push_back({bar, 1});
        strokes.push_back({bar, 2.5});
    }
    const auto judged = heard(bars, strokes).judged();
    CHECK(judged.totals.count(Verdict::pushed) == 15);
}

TEST_CASE("heard by sound, a chord that nobody struck is not struck, and missed only in a rhythm") {
    const auto comper = heard("Dm7 | G7 | Cmaj7", {{1, 1}, {1, 2}, {3, 1}});
    CHECK(comper.verdicts() == "on_time laid_out on_time");
    CHECK(comper.judged().totals.right_tones == 0);
    CHECK(comper.verdicts(tests::with_rhythm("four")) == "on_time missed on_time");
    CHECK(comper.verdicts(tests::with_rhythm("1")) == "on_time missed on_time");
}

TEST_CASE("what would be held for its tones is only not struck where nobody heard tones") {
    Comper comper("Dm7 F6 | G7", 120);
    comper.strum(1, 1, "x5756x", 0, 4).strum(2, 1, "3x34xx");
    CHECK(comper.verdicts() == "on_time held on_time");
    comper.by_sound();
    CHECK(comper.verdicts() == "on_time laid_out on_time");
}

TEST_CASE("heard by sound, old chord, wrong grip and one from elsewhere are not told from right") {
    Comper comper("Dm7 | G7 | Cmaj7 | A7", 120);
    for (int bar = 1; bar <= 4; ++bar) comper.strum(bar, 1, "x5x56x").strum(bar, 3, "x6867x");
    comper.by_sound();
    const auto judged = comper.judged();
    CHECK(judged.totals.count(Verdict::on_time) == 4);
    CHECK(judged.totals.right_tones == 0);
    CHECK(judged.astray.empty());
    for (const auto& change : judged.changes) {
        CHECK(change.tones == Tones::none);
        CHECK(change.cost() == 0);
        CHECK(change.inside + change.passing + change.outside == 0);
    }
}

TEST_CASE("what is struck within 60 ms is one strum, and in time where any of it is") {
    const auto together = heard("Dm7 | G7", {{1, 1}, {2, 1, -85}, {2, 1, -30}});
    CHECK(together.verdicts() == "on_time on_time");
    CHECK(lateness(together.change(2)) == Approx(-85).margin(0.001));
    CHECK(together.judged().strums.size() == 2);
    const auto apart = heard("Dm7 | G7", {{1, 1}, {2, 1, -95}, {2, 1, -30}});
    CHECK(apart.judged().strums.size() == 3);
    CHECK(lateness(apart.change(2)) == Approx(-30).margin(0.001));
}

TEST_CASE("heard by sound, the old chord struck on the beat before is not the new one, early") {
    const auto comper = heard("Dm7 | G7 | Cmaj7", {{1, 1}, {1, 4}, {3, 1}});
    CHECK(comper.verdicts() == "on_time laid_out on_time");
    // Nearer to its beat than the off-beat is, what is struck for nothing else is.
    const auto early = heard("Dm7 | G7 | Cmaj7", {{1, 1}, {2, 1, -120}, {3, 1}}).change(2);
    CHECK(early.verdict == Verdict::early);
    CHECK(lateness(early) == Approx(-120).margin(0.001));
}

TEST_CASE("heard by sound, what leads into a chord is not the one before, very late") {
    const auto comper = heard("Dm7 | G7 | Cmaj7", {{1, 1}, {2, 4.75}, {3, 1}});
    CHECK(comper.verdicts() == "on_time laid_out on_time");
    CHECK(heard("Dm7 | G7 | Cmaj7", {{1, 1}, {2, 4}, {3, 1}}).verdicts() ==
          "on_time placed on_time");
}

TEST_CASE("heard by sound, chords of two beats have a stroke each where there are two") {
    CHECK(heard("Dm7 G7 | Cmaj7", {{1, 1}, {1, 4.5}, {2, 3}}).verdicts() ==
          "on_time placed placed");
    CHECK(heard("Dm7 G7 | Cmaj7", {{1, 2}, {1, 4}, {2, 2}}).verdicts() == "placed placed placed");
    CHECK(heard("Dm7 G7 | Cmaj7", {{1, 1}, {1, 2.5}, {2, 1}}).verdicts() ==
          "on_time pushed on_time");
}

TEST_CASE(
    "heard by sound, what lies between beats and off-beats is left out of the player's time") {
    std::vector<Stroke> strokes;
    for (int beat = 0; beat < 16; ++beat) strokes.push_back({1 + beat / 4, 1.0 + beat % 4, 10});
    const auto even = heard("Dm7 | % | % | %", strokes).judged();
    for (int bar = 1; bar <= 4; ++bar) strokes.push_back({bar, 2.25, 5});
    std::sort(strokes.begin(), strokes.end(), [](const Stroke& a, const Stroke& b) {
        return std::pair(a.bar, a.beat) < std::pair(b.bar, b.beat);
    });
    const auto comper = heard("Dm7 | % | % | %", strokes);
    const auto judged = comper.judged();
    CHECK(judged.strums.size() == 20);
    CHECK(judged.time.all.count == 16);
    CHECK(*judged.time.all.mean_ms == Approx(*even.time.all.mean_ms));
    CHECK(judged.own_place.on_beats->milliseconds() == Approx(10).margin(0.001));
    CHECK(read_as(comper).find("landing again fill again again again again fill") == 0);
}

TEST_CASE("heard by sound, a laid-back player is in time where he always stands") {
    std::vector<Stroke> strokes{{1, 1, 26}};
    for (int n = 1; n <= 14; ++n) strokes.push_back({1 + n / 4, 1.0 + n % 4, 26});
    strokes.push_back({5, 1, 70});
    const auto judged = heard("Dm7 | % | % | % | G7", strokes).judged();
    CHECK(judged.own_place.told_apart);
    CHECK(judged.own_place.on_beats->milliseconds() == Approx(26).margin(0.001));
    CHECK(judged.changes[1].verdict == Verdict::on_time);
}

TEST_CASE("heard by sound, a late place is a habit, and no habit speaks of hands or tones") {
    std::string bars = "Dm7 | G7 | Cmaj7 | A7";
    Comper comper(bars, 120);
    comper.by_sound().times(6);
    for (int bar = 1; bar <= 24; ++bar) {
        const bool slow = bar % 4 == 2;
        comper.strum(bar, 1, slow ? "10-x-9-10-x-x" : any_grip, slow ? 110 : 0)
            .strum(bar, 3, any_grip);
    }
    const auto habits = comper.judged().habits;
    REQUIRE(!habits.empty());
    CHECK(habits.front().kind == assess::HabitKind::place);
    CHECK(habits.front().bar == 2);
    CHECK(habits.front().mean_ms == Approx(110));
    for (const auto& habit : habits) {
        CHECK(habit.kind != assess::HabitKind::wide_move);
        CHECK(habit.kind != assess::HabitKind::after_fill);
    }
}

TEST_CASE("a place that is never struck is left out, by sound it may be held and is not") {
    Comper comper("Dm7 F6 | G7", 120);
    comper.times(4);
    for (int bar = 1; bar <= 8; ++bar) comper.strum(bar, 1, any_grip, 0, 0.9);
    CHECK(comper.change(2).left_out);
    comper.by_sound();
    CHECK(comper.change(2).verdict == Verdict::laid_out);
    CHECK(!comper.change(2).left_out);
    CHECK(comper.judged().habits.empty());
}

TEST_CASE("heard by sound, no chord stays empty while something was struck for no other in it") {
    int empty = 0;
    for (std::uint64_t seed = 1; seed <= 40; ++seed) {
        simulate::Chance chance(seed);
        Comper comper("Dm7 G7 | Cmaj7 | Fm7 Bb7 | Em7 A7 | Dm7 | G7 | Cmaj7 | A7", 96);
        comper.by_sound();
        std::vector<double> struck;
        for (double at = 0; at < 31.5; at += 0.3 + (seed % 2 == 0 ? 6 : 2) * chance.uniform()) {
            comper.strum(1, 1 + at, any_grip, 0, 0.2);
            struck.push_back(at);
        }
        const auto map = comper.map();
        const auto tolerance = tests::tolerance_of(map);
        const auto judged = comper.judged();
        std::vector<Seconds> landings;
        for (const auto& change : judged.changes) {
            if (change.lateness) landings.push_back(landing_of(change, map));
        }
        for (std::size_t i = 0; i < judged.changes.size(); ++i) {
            const auto& change = judged.changes[i];
            if (change.lateness) continue;
            ++empty;
            const auto end =
                i + 1 < judged.changes.size() ? judged.changes[i + 1].at : map.time_of(map.end());
            for (const double at : struck) {
                const auto t = map.time_of(time::Ticks(std::llround(at * 960)));
                if (t < change.at - tolerance || t > end - map.tempo().beat() * 0.5) continue;
                INFO("seed " << seed << ", change " << i << ", struck " << at);
                const auto lands = [&](Seconds other) {
                    return time::abs(other - t) < Seconds(0.002);
                };
                CHECK(std::any_of(landings.begin(), landings.end(), lands));
            }
        }
    }
    CHECK(empty > 20);
}

TEST_CASE("of a guitarist who errs in every way nothing of his tones is said by sound") {
    const auto form = tests::form_of("Dm7 | G7 | Cmaj7 | A7 | Fm7 | Bb7 | Em7b5 | A7");
    const auto map = tests::map_of(form, 132, 2, 6);
    simulate::Habits habits;
    habits.rates.fill(0.1);
    const auto script = simulate::play(map, habits, 3).script;
    assess::Performance heard;
    heard.end = map.time_of(map.end());
    heard.notes =
        listen::hear(simulate::perform(script, map, guitar::Fretboard::standard()), {}, heard.end)
            .notes;
    const auto by_midi = assess::assess(map, heard, {});
    CHECK(by_midi.totals.right_tones > 0);
    heard.heard_by = listen::HeardBy::sound;
    const auto judged = assess::assess(map, heard, {});
    REQUIRE(judged.changes.size() == by_midi.changes.size());
    CHECK(judged.totals.right_tones + judged.totals.count(Verdict::held) +
              judged.totals.count(Verdict::astray) + judged.totals.count(Verdict::missed) ==
          0);
    for (const auto& change : judged.changes) {
        CHECK(change.tones_cost() == 0);
        CHECK(change.wrong.empty());
        CHECK(change.missing.empty());
        CHECK(!change.meant);
        CHECK(change.strings == 0);
        CHECK(!change.wide_move);
    }
    const std::set<ReadAs> told{ReadAs::landing, ReadAs::again, ReadAs::fill, ReadAs::passing};
    for (const auto& strum : judged.strums) CHECK(told.count(strum.read_as) == 1);
}

TEST_CASE("heard by sound, a chord that may be left out is nothing to be mended when it is") {
    const auto comper = heard("Dm7 (G7) | Cmaj7", {{1, 1}, {2, 1}});
    CHECK(comper.verdicts() == "on_time laid_out on_time");
    CHECK(comper.change(2).optional);
    CHECK(comper.verdicts(tests::with_rhythm("four")) == "on_time laid_out on_time");
    // Struck on its beat it is played; struck on elsewhere the chord before goes on.
    CHECK(heard("Dm7 (G7) | Cmaj7", {{1, 1}, {1, 3}, {2, 1}}).verdicts() ==
          "on_time on_time on_time");
    const auto goes_on = heard("Dm7 (G7) | Cmaj7", {{1, 1}, {1, 4}, {1, 4.25}, {2, 1}});
    CHECK(goes_on.verdicts() == "on_time laid_out on_time");
    CHECK(goes_on.judged().totals.right_tones == 0);
}

TEST_CASE("heard by sound, a chord on the off-beat does not stand before its beat is over") {
    const std::vector<Stroke> so_far{{1, 1}, {1, 2}, {1, 3}, {1, 4},  {2, 1},
                                     {2, 2}, {2, 3}, {2, 4}, {2, 4.5}};
    auto comper = heard("Dm7 | G7 | Cmaj7", so_far);
    comper.until(3, 1.01);
    CHECK(comper.verdicts() == "on_time on_time pushed");
    CHECK(comper.judged().settled == 2);
    auto goes_on = so_far;
    goes_on.insert(goes_on.end(), {{3, 1, 10}, {3, 2}, {3, 3}});
    const auto later = heard("Dm7 | G7 | Cmaj7", goes_on);
    CHECK(later.verdicts() == "on_time on_time on_time");
    CHECK(later.judged().settled == 3);
}

TEST_CASE("heard by sound, what stands is judged the same when more is played") {
    simulate::Habits habits;
    const auto map = tests::map_of(tests::form_of("Dm7 | G7 | Cmaj7 | A7"), 132, 2, 6);
    const auto script = simulate::play(map, habits, 5).script;
    assess::Performance all;
    all.heard_by = listen::HeardBy::sound;
    for (const auto& strum : script) {
        const auto at = map.time_of(strum.at) + strum.lateness;
        auto& note = all.notes.emplace_back();
        note.on = at;
        note.off = at + Seconds(0.03);
    }
    all.end = map.time_of(map.end());
    const auto whole = assess::assess(map, all, {});
    std::size_t most = 0;
    for (double end = 4; end < all.end.count(); end += 3.1) {
        auto part = all;
        part.end = Seconds(end);
        std::erase_if(part.notes, [&](const auto& note) { return note.on > part.end; });
        const auto judged = assess::assess(map, part, {});
        for (std::size_t i = 0; i < judged.settled; ++i) {
            INFO(end << " " << i);
            CHECK(judged.changes[i].verdict == whole.changes[i].verdict);
            CHECK(judged.changes[i].lateness == whole.changes[i].lateness);
        }
        most = std::max(most, judged.settled);
    }
    CHECK(most > 15);
}
