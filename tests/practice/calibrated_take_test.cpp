// What calibration is for: the lateness that is judged is the player's, not that of his gear.

#include "support/calibrating.hpp"
#include "support/catch.hpp"

#include <compline/practice/pickup_delay.hpp>
#include <compline/practice/scoring.hpp>
#include <compline/practice/take_file.hpp>
#include <compline/simulate/guitarist.hpp>

#include <algorithm>
#include <cmath>

using namespace compline;
using namespace compline::practice;
using simulate::Chance;
using tests::TruePickup;
using time::Seconds;

namespace {

const time::SampleRate rate(48000);

constexpr const char* chart_text =
    "title: Round the Pond\nkey: C\ntempo: 120\nfeel: straight\nsections:\n"
    "  A: Dm7 | G7 | Em7 | A7 | Dm7 | G7 | Cmaj7 | Am7\n";
constexpr int bars = 8;
constexpr int times = 8;

/// Of three strings each, by fret from string 6 to 1 (-1: muted); the lowest is struck first.
constexpr int frets[bars][6] = {{-1, 5, -1, 5, 6, -1}, {3, -1, 3, 4, -1, -1}, {-1, 7, -1, 7, 8, -1},
                                {5, -1, 5, 6, -1, -1}, {-1, -1, 3, 5, 6, -1}, {-1, -1, 3, 4, 3, -1},
                                {-1, -1, 2, 4, 5, -1}, {5, -1, 5, 5, -1, -1}};

guitar::Shape grip(int bar) {
    guitar::Shape shape;
    for (int string = 6; string >= 1; --string) {
        const int fret = frets[bar][6 - string];
        if (fret >= 0) shape.on(string) = fret;
    }
    return shape;
}

double lateness_played_ms(int n) { return static_cast<double>(n * 37 % 41) - 20; }

struct Played {
    std::vector<midi::TimedMessage> messages;
    roadmap::RoadMap map;
    TakeInfo info;
};

Played played() {
    TakeInfo info;
    info.chart_text = chart_text;
    info.asked = roadmap::Asked::of({1, bars}, times);
    info.asked.tempo = time::Bpm(120);
    info.settings.against = assess::Against::beat;
    info.settings.tolerance = time::from_milliseconds(60);
    info.ended = true;
    auto map = map_of(info, form_of(info, "chart"));
    std::vector<simulate::ScriptedStrum> script;
    for (int n = 0; n < bars * times; ++n) {
        script.push_back({time::quarter_note * (4 * n),
                          time::from_milliseconds(lateness_played_ms(n)), grip(n % bars),
                          Seconds(1.5), Seconds(0.006)});
    }
    auto messages = simulate::perform(script, map, guitar::Fretboard::standard());
    return {std::move(messages), std::move(map), std::move(info)};
}

/// As the pickup sends it: each note later by what it needs, and scattered.
std::vector<midi::TimedMessage> sent(std::vector<midi::TimedMessage> messages,
                                     const TruePickup& pickup, Chance& chance) {
    for (auto& [at, message] : messages) {
        const int string = message.channel();
        at = at + time::from_milliseconds(pickup.delay_ms(string, message.data1));
        if (message.starts_note()) {
            at = at + time::from_milliseconds(chance.scatter() * pickup.noise_ms);
        }
    }
    std::stable_sort(messages.begin(), messages.end(),
                     [](const auto& a, const auto& b) { return a.at < b.at; });
    return messages;
}

/// Mean and standard deviation of what the judge says less what was played.
struct Error {
    double bias_ms = 0;
    double sd_ms = 0;
    int changes = 0;
};

Error error_of(const Played& played, const std::vector<midi::TimedMessage>& messages,
               const listen::Delay& delay) {
    Take take;
    take.info = played.info;
    take.info->delay = delay;
    take.messages = messages;
    take.end = Seconds(4.0 * bars * times / 2 + 1);
    const auto file = to_file(take, played.map);
    const auto report =
        hear_and_judge(form_of(played.info, "chart"), read_take(file), ScoreRequest{});
    std::vector<double> errors;
    for (std::size_t n = 0; n < report.assessment.changes.size(); ++n) {
        const auto& change = report.assessment.changes[n];
        if (!change.lateness) continue;
        errors.push_back(change.lateness->milliseconds() - lateness_played_ms(static_cast<int>(n)));
    }
    Error error;
    error.changes = static_cast<int>(errors.size());
    for (const double one : errors) error.bias_ms += one / error.changes;
    for (const double one : errors) {
        error.sd_ms += std::pow(one - error.bias_ms, 2) / (error.changes - 1);
    }
    error.sd_ms = std::sqrt(error.sd_ms);
    return error;
}

listen::Delay found_by_sound(const TruePickup& pickup, Chance& chance) {
    const std::vector<int> strings{1, 2, 3, 4, 5, 6};
    const auto notes = tests::notes_by_string(enough_notes, chance);
    const auto found = fit_pickup_delay(
        pair_up(tests::heard(notes, rate), rate, pickup.sent(notes, chance)), strings);
    REQUIRE(found.is_known());
    auto delay = found.common;
    for (const auto& string : found.strings) delay.by_string.push_back(string.difference);
    return delay;
}

}  // namespace

TEST_CASE("after calibration the lateness judged is the player's, to half a millisecond") {
    TruePickup pickup;
    pickup.constant_ms = 9;
    pickup.cycles = 1.8;
    pickup.string_ms[5] = 8;
    pickup.noise_ms = 0.8;
    Chance chance(20);
    const auto evening = played();
    const auto messages = sent(evening.messages, pickup, chance);
    const auto calibrated = error_of(evening, messages, found_by_sound(pickup, chance));
    CHECK(calibrated.changes == bars * times);
    CHECK(std::fabs(calibrated.bias_ms) < 0.5);
    CHECK(calibrated.sd_ms < 1);
    const auto guessed = error_of(evening, messages, {Seconds(0), 1.5});
    CHECK(guessed.bias_ms > 8);
    CHECK(guessed.sd_ms > 2);
}
