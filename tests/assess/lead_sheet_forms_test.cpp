// Takes of forms as lead sheets have them: meters, tempi and keys that change, fermatas, chords on
// off-beats, codas. What is due when is worked out by hand, in seconds.

#include "support/catch.hpp"
#include "support/comper.hpp"

#include <compline/chart/road_map_text.hpp>
#include <compline/guitar/voicing_plan.hpp>
#include <compline/listen/listener.hpp>
#include <compline/time/beat_name.hpp>

#include <array>
#include <cmath>
#include <string>
#include <vector>

using namespace compline;
using time::Seconds;

namespace {

struct Struck {
    double due;  ///< seconds, by hand
    const char* grip;
    double late_ms;
};

/// Strums at seconds, by a clock of their own: a bar of four at 60 bpm is four seconds.
std::vector<listen::Note> notes_of(const std::vector<Struck>& all, double rings) {
    const auto clock = tests::map_of(tests::form_of("C | C | C | C | C | C | C | C"), 60, 1, 40);
    std::vector<simulate::ScriptedStrum> script;
    for (const auto& struck : all) {
        simulate::ScriptedStrum strum;
        strum.at = time::Ticks(std::llround(std::floor(struck.due * 960)));
        strum.lateness = Seconds(struck.due + struck.late_ms / 1000) -
                         Seconds(static_cast<double>(strum.at.count()) / 960);
        strum.shape = tests::shape(struck.grip);
        strum.length = Seconds(rings);
        strum.per_string = Seconds(0);
        script.push_back(strum);
    }
    listen::PickupSettings ears;
    ears.strings = listen::Strings{};
    return listen::hear(simulate::perform(script, clock, guitar::Fretboard::standard()), ears,
                        Seconds(1e6))
        .notes;
}

chart::Form read(const std::string& text) {
    return chart::unroll(chart::read_chart("title: T\nfeel: straight\n" + text, "t.yaml"));
}

}  // namespace

TEST_CASE("lateness is exact across meters, tempi, a fermata and a chord on an off-beat") {
    const auto form = read(
        "key: C\ntempo: 120\nsections:\n"
        "  A: Dm7 | G7\n"
        "  B: {meter: 6/8, tempo: 180, bars: Cmaj7 A7}\n"
        "  C: {meter: 2/2, tempo: 240, bars: Dm7 G7}\n"
        "  D: {meter: 9/8, key: D, bars: C6 Em7 A7}\n"
        "  E: Dm7~4 | G7 / / &C6 | C6\n");
    const roadmap::RoadMap map(form, roadmap::Asked::of(form.whole(), 1));
    // A: two bars of two seconds; B: a bar of three quarters of a third; C: four of a quarter; D:
    // three beats of 0.75 s; E: a bar of four beats that is held for four more, then a chord on 4&.
    const std::vector<Struck> struck = {
        {0, "x5x56x", 4},     {2, "3x34xx", -9},   {4, "x324xx", 11},     {4.5, "5x56xx", 17},
        {5, "x5x56x", -12},   {5.5, "3x34xx", 8},  {6, "x3221x", 72},     {6.75, "x7x78x", 3},
        {7.5, "5x56xx", -15}, {8.25, "x5x56x", 1}, {12.25, "3x34xx", 75}, {14, "x3221x", 6}};
    assess::Performance heard;
    heard.notes = notes_of(struck, 0.4);
    const auto judged = assess::assess(map, heard, {});
    REQUIRE(judged.changes.size() == struck.size());
    for (std::size_t i = 0; i < struck.size(); ++i) {
        const auto& change = judged.changes[i];
        INFO(i << " bar " << change.bar << " " << change.to.symbol());
        REQUIRE(change.lateness);
        CHECK(std::fabs(change.lateness->milliseconds() - struck[i].late_ms) < 0.1);
        CHECK(change.verdict ==
              (struck[i].late_ms > 50 ? assess::Verdict::late : assess::Verdict::on_time));
        CHECK(change.tones == assess::Tones::right);
    }
    // The foot taps the second beat of 6/8 and both of 2/2; only the last chord is between beats.
    CHECK(judged.time.on_beats.count == 11);
    CHECK(judged.time.off_beats.count == 1);
    CHECK(judged.changes[3].beat == time::BeatOfBar(4));
    CHECK(judged.changes[5].beat == time::BeatOfBar(3));
    CHECK(judged.changes[11].beat == time::BeatOfBar(4.5));
}

TEST_CASE("a take by road map, with a rit, a rubato and a coda, is judged where they are played") {
    const auto form = read(
        "key: C\ntempo: 120\nform: [A, R, B]\nto coda: A\nsections:\n"
        "  A: Dm7 | G7\n  R: {tempo: rubato, bars: C6 | A7}\n  B: Dm7 | G7\n  Coda: C6 | %\n");
    roadmap::Asked asked;
    asked.way = chart::read_road_map(form, "head; head al coda");
    const roadmap::RoadMap map(form, asked);
    const std::vector<Struck> struck = {{0, "x5x56x", 0},  {2, "3x34xx", 0},  {8, "x5x56x", 70},
                                        {10, "3x34xx", 0}, {12, "x5x56x", 0}, {14, "3x34xx", 0},
                                        {16, "x3221x", 9}};
    assess::Performance heard;
    heard.notes = notes_of(struck, 1.2);
    const auto judged = assess::assess(map, heard, {});
    std::string said;
    for (const auto& change : judged.changes) {
        said += std::to_string(change.time_through) + "." + std::to_string(change.bar) + " " +
                change.to.symbol() + " " + std::string(assess::name_of(change.verdict)) + ", ";
    }
    CHECK(said ==
          "1.1 Dm7 on_time, 1.2 G7 on_time, 1.5 Dm7 late, 1.6 G7 on_time, 2.1 Dm7 on_time, "
          "2.2 G7 on_time, 3.7 C6 on_time, ");
}

TEST_CASE("what a section's rhythm asks for is due there, and nowhere else") {
    const auto form = read(
        "key: C\ntempo: 120\nrhythm: four\nform: [A, B, A]\nsections:\n"
        "  A: Dm7 | G7\n  B: {rhythm: \"1 2&\", bars: Cmaj7 | A7}\n");
    const roadmap::RoadMap map(form, roadmap::Asked::of(form.whole(), 1));
    // A: four to the bar, the third strum of bar 2 left out; B: on 1 and the off-beat after 2,
    // which is left out in bar 4; A again: nothing but the changes.
    const std::vector<Struck> struck = {{0, "x5x56x", 0},   {0.5, "x5x56x", 0}, {1, "x5x56x", 0},
                                        {1.5, "x5x56x", 0}, {2, "3x34xx", 0},   {2.5, "3x34xx", 0},
                                        {3.5, "3x34xx", 0}, {4, "x324xx", 0},   {4.75, "x324xx", 0},
                                        {6, "5x56xx", 0},   {8, "x5x56x", 0},   {10, "3x34xx", 0}};
    assess::Performance heard;
    heard.notes = notes_of(struck, 0.3);
    const auto missing = [&](const assess::Settings& settings) {
        const auto judged = assess::assess(map, heard, settings);
        std::string said;
        for (const auto& beat : judged.time.per_beat) {
            said += time::beat_name(beat.in_bar) + " " + std::to_string(beat.missing) + ", ";
        }
        return said;
    };
    CHECK(missing({}) == "1 0, 2 2, 2& 1, 3 3, 4 2, ");
    assess::Settings asked;
    asked.rhythm = assess::read_rhythm("1", time::Meter(4));
    CHECK(missing(asked) == "1 0, ");
    CHECK(assess::rhythm_words({}, form.chart) == "as written");
    CHECK(assess::rhythm_words(asked, form.chart) == "1");
}

TEST_CASE("a chord may be laid out where a section is free, and is missed where it says four") {
    const auto form = read(
        "key: C\ntempo: 120\nrhythm: four\nform: [A, B]\nsections:\n"
        "  A: Dm7 | G7\n  B: {rhythm: free, bars: Dm7 | G7}\n");
    const roadmap::RoadMap map(form, roadmap::Asked::of(form.whole(), 1));
    assess::Performance heard;
    heard.notes = notes_of({{0, "x5x56x", 0}, {4, "x5x56x", 0}}, 0.3);
    const auto judged = assess::assess(map, heard, {});
    REQUIRE(judged.changes.size() == 4);
    CHECK(judged.changes[1].verdict == assess::Verdict::missed);
    CHECK(judged.changes[3].verdict == assess::Verdict::laid_out);
}

TEST_CASE("who plays the plan of a lead sheet's form in time is right in all of it") {
    for (const char* name : {"lanterns-along-the-towpath", "the-miller-winds-his-clock"}) {
        const auto form = chart::unroll(
            chart::load_chart(std::string(COMPLINE_SOURCE_DIR "/charts/") + name + ".yaml"));
        roadmap::Asked asked;
        asked.way = *chart::own_road_map(form);
        const roadmap::RoadMap map(form, asked);
        const auto plan = guitar::plan_voicings(form, form.all(), map.tempo(),
                                                guitar::Fretboard::standard(), {}, 1)
                              .front();
        std::vector<simulate::ScriptedStrum> script;
        int n = 0;
        for (const auto& change : map.changes()) {
            simulate::ScriptedStrum strum;
            strum.at = change.at;
            strum.lateness = time::from_milliseconds(n++ % 3 * 6 - 6);
            strum.shape = plan.at(change.in_form)->grip.shape;
            strum.length = Seconds(0.25);
            script.push_back(strum);
        }
        listen::PickupSettings ears;
        ears.strings = listen::Strings{};
        assess::Performance heard;
        heard.notes = listen::hear(simulate::perform(script, map, guitar::Fretboard::standard()),
                                   ears, Seconds(1e6))
                          .notes;
        const auto judged = assess::assess(map, heard, {});
        REQUIRE(judged.changes.size() == script.size());
        for (const auto& change : judged.changes) {
            INFO(name << " time " << change.time_through << " bar " << change.bar << " "
                      << change.to.symbol());
            CHECK((change.verdict == assess::Verdict::on_time ||
                   change.verdict == assess::Verdict::pushed));
            CHECK(change.tones == assess::Tones::right);
        }
    }
}
