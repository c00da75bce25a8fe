#include "support/catch.hpp"
#include "support/comper.hpp"

#include <compline/midi/smf.hpp>
#include <compline/practice/take.hpp>
#include <compline/simulate/guitarist.hpp>

#include <cmath>

using namespace compline;
using time::eighth_note;
using time::Ticks;

namespace {

struct Feel {
    const char* name;
    int beats;
    bool swung;
};

struct Script {
    roadmap::RoadMap map;
    std::vector<simulate::ScriptedStrum> strums;
};

/// A take that went through a file, judged.
assess::Assessment judged(const Script& script, const assess::Settings& settings) {
    practice::Take take;
    const auto& map = script.map;
    take.messages = simulate::perform(script.strums, map, guitar::Fretboard::standard());
    take.end = map.time_of(map.end());
    const auto bytes = midi::write_smf(practice::to_file(take, map));
    const auto read = practice::read_take(midi::read_smf(bytes).file);
    assess::Performance heard;
    heard.notes = listen::hear(read.messages, {}, read.end).notes;
    heard.end = read.end;
    return assess::assess(map, heard, settings);
}

constexpr const char* eleven_bars =
    "Dm7 | F#m7 | Dm7 | F#m7 | Dm7 | F#m7 | Dm7 | F#m7 | Dm7 | F#m7 | Dm7";

Script script_for(const char* bars, const Feel& feel, double tempo) {
    const double ratio = feel.swung ? time::Swing::at(time::Bpm(tempo)).ratio() : 1;
    return {tests::map_of(tests::form_of(bars, "C", feel.beats), tempo, ratio), {}};
}

guitar::Shape grip(int n) { return tests::shape(n % 2 == 0 ? "x5x56x" : "2x22xx"); }

constexpr Feel feels[] = {{"straight", 4, false}, {"swung", 4, true}, {"waltz", 3, true}};
constexpr double tempos[] = {60, 132, 240};

}  // namespace

TEST_CASE("known lateness comes back to a tenth of a millisecond, through a file, at any tempo") {
    for (const auto& feel : feels) {
        for (const double tempo : tempos) {
            auto script = script_for(eleven_bars, feel, tempo);
            assess::Settings settings;
            settings.rhythm = assess::read_rhythm("four", time::Meter(4));
            settings.pushes = false;
            std::vector<double> lateness;
            for (int n = 0; n < 11; ++n) {
                lateness.push_back(-80 + 20 * n);
                simulate::ScriptedStrum strum;
                strum.at = script.map.bar(n + 1).start;
                strum.lateness = time::from_milliseconds(lateness.back());
                strum.shape = grip(n);
                strum.length = script.map.tempo().beat() * 1.5;
                script.strums.push_back(strum);
            }
            const auto assessment = judged(script, settings);
            const double tolerance = tests::tolerance_of(script.map).milliseconds();
            REQUIRE(assessment.changes.size() == lateness.size());
            for (std::size_t n = 0; n < lateness.size(); ++n) {
                const auto& change = assessment.changes[n];
                INFO(feel.name << " " << tempo << " scripted " << lateness[n]);
                REQUIRE(change.lateness.has_value());
                CHECK(change.lateness->milliseconds() == Approx(lateness[n]).margin(0.1));
                // Three strings, 3 ms apart: the last onset of an early strum may still be in time.
                const bool in_time = lateness[n] <= tolerance && lateness[n] + 6 >= -tolerance;
                const auto expected = in_time           ? assess::Verdict::on_time
                                      : lateness[n] > 0 ? assess::Verdict::late
                                                        : assess::Verdict::early;
                // On the very edge a take's ticks (0.03 ms) decide.
                if (std::fabs(lateness[n] - tolerance) > 0.1) CHECK(change.verdict == expected);
                CHECK(change.tones == assess::Tones::right);
            }
        }
    }
}

TEST_CASE("pushes, held chords and chords laid out come back as scripted, at any tempo") {
    using assess::Verdict;
    for (const auto& feel : feels) {
        for (const double tempo : tempos) {
            auto script = script_for("C6 | Am7 | F#m7 | Dm7 | F#m7 | C6", feel, tempo);
            const auto bar = script.map.bar(1).meter().bar();
            const auto beat = script.map.tempo().beat();
            const auto add = [&](Ticks at, const char* shape, double late, double beats) {
                simulate::ScriptedStrum strum;
                strum.at = at;
                strum.lateness = time::from_milliseconds(late);
                strum.shape = tests::shape(shape);
                strum.length = beat * beats;
                script.strums.push_back(strum);
            };
            const double bar_beats = feel.beats;
            add(Ticks(0), "x32213", 12, 2 * bar_beats - 1.2);  // C6, held through Am7
            add(bar * 2 - eighth_note, "2x22xx", -5, 1);       // F sharp minor, pushed
            add(bar * 4, "2x22xx", 9, 1);                      // Dm7 laid out
            add(bar * 5 - eighth_note, "x3x25x", 14, 1);       // C6, pushed
            const auto assessment = judged(script, {});
            REQUIRE(assessment.changes.size() == 6);
            const Verdict expected[] = {Verdict::on_time,  Verdict::held,    Verdict::pushed,
                                        Verdict::laid_out, Verdict::on_time, Verdict::pushed};
            const double late[] = {12, 0, -5, 0, 9, 14};
            for (std::size_t n = 0; n < 6; ++n) {
                INFO(feel.name << " " << tempo << " change " << n);
                const auto& change = assessment.changes[n];
                CHECK(assess::name_of(change.verdict) == assess::name_of(expected[n]));
                if (!change.lateness) continue;
                CHECK(change.lateness->milliseconds() == Approx(late[n]).margin(0.1));
            }
        }
    }
}
