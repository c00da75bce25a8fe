#pragma once

// Some weeks of practice as values, written by hand: what a guitarist and a teacher are shown.

#include <compline/report/weeks.hpp>

#include <string>

namespace compline::tests {

inline constexpr const char* a_monday = "2026-11-30";

/// Charts lie in the folder where the player is, those in /lost do not.
inline report::WeeksAsked asked_by(const std::string& player) {
    report::WeeksAsked asked;
    asked.today = a_monday;
    asked.player = player;
    asked.name_player = !player.empty();
    asked.chart_word = [](const history::KnownTune& tune) -> std::optional<std::string> {
        const auto& file = tune.chart_file;
        if (file.empty() || file.rfind("/lost", 0) == 0) return std::nullopt;
        return file.substr(file.rfind('/') + 1);
    };
    return asked;
}

inline history::KnownTune lantern_street() {
    return {1, "Lantern Street", "00112233aabbccdd", "", "/charts/lantern-street.yaml", false};
}
inline history::KnownTune kettle() {
    return {2,    "Blue Kettle on the Back Stairs", "44556677aabbccdd", "", "/lost/kettle.yaml",
            false};
}
inline history::KnownTune two_five() {
    return {3, "Dm7 | G7 | Cmaj7", "8899aabbccddeeff", "", "", true};
}

inline history::ChangeSums sums(int of, int in_time, int right, int both, double cost = 1) {
    return {of, in_time, right, both, cost};
}

inline history::Trend trend(history::Course course, int evenings) {
    history::Trend trend;
    trend.course = course;
    trend.evenings = evenings;
    trend.slope = course == history::Course::worse ? -0.006 : 0.006;
    trend.least = trend.slope / 2;
    trend.most = trend.slope * 2;
    trend.first = 0.71;
    trend.last = 0.88;
    return trend;
}

inline history::PlaceStory place_of(int bar, const char* from, const char* to) {
    history::PlaceStory place;
    place.bar = bar;
    place.section = "A";
    place.from = from;
    place.to = to;
    place.evenings = 9;
    place.last = "2026-11-24";
    place.sums = sums(14, 5, 13, 5, 8);
    place.trend = trend(history::Course::none, 9);
    return place;
}

/// Late for weeks.
inline history::PlaceStory bar_seven() {
    auto place = place_of(7, "Am7b5", "D7");
    place.late = 9;
    place.late_ms = 84.2;
    place.stuck_for = 4;
    return place;
}

inline history::PlaceStory bar_twelve() {
    auto place = place_of(12, "Gm7", "C7");
    place.beat = time::BeatOfBar(3);
    place.early = 1;
    place.missed = 2;
    place.waits = 1;
    place.wrong = 3;
    place.incomplete = 2;
    place.trend = trend(history::Course::better, 9);
    return place;
}

inline history::PlaceStory bar_one() {
    auto place = place_of(1, "", "F6");
    place.trend = trend(history::Course::too_few, 4);
    return place;
}

inline history::TransitionStory transition_of(const char* from, const char* to,
                                              std::vector<int> bars, history::Course course) {
    history::TransitionStory one;
    one.from = from;
    one.to = to;
    one.bars = std::move(bars);
    one.evenings = 9;
    one.sums = sums(40, 20, 36, 18, 20);
    one.trend = trend(course, 9);
    return one;
}

/// Twelve evenings of a player who gets better.
inline report::TuneWeeks better_weeks() {
    report::TuneWeeks weeks;
    auto& story = weeks.story;
    story.tune = lantern_street();
    story.first_played = "2026-09-03";
    story.last_played = "2026-11-24";
    story.evenings = 12;
    story.seconds = 340 * 60;
    story.takes = 31;
    story.lately = sums(200, 175, 186, 170);
    story.trend = trend(history::Course::better, 12);
    story.then_and_now = {"2026-10-28", "2026-11-04", "2026-11-21", "2026-11-24",
                          0.71,         0.88,         120,          122};
    story.clean = {132, "2026-11-24", 120};
    story.tempi = {{96, sums(120, 114, 118, 112), 5, 4, "2026-10-20"},
                   {100, sums(200, 196, 195, 193), 9, 8, "2026-10-20"},
                   {120, sums(1040, 880, 990, 860), 40, 22, "2026-11-20", sums(900, 750, 860, 730)},
                   {132, sums(64, 58, 60, 57), 3, 2, "2026-11-24", sums(64, 58, 60, 57)}};
    story.weakest = {bar_seven(), bar_twelve(), bar_one()};
    story.transitions = {transition_of("Am7b5", "D7", {7, 15, 23}, history::Course::better),
                         transition_of("Gm7", "C7", {12}, history::Course::too_few)};
    story.due = "2026-12-03";
    story.spacing_days = 8;
    weeks.bars = 32;
    return weeks;
}

/// Two evenings, the chart's file gone since.
inline report::TuneWeeks two_evenings() {
    report::TuneWeeks weeks;
    auto& story = weeks.story;
    story.tune = kettle();
    story.first_played = "2026-11-01";
    story.last_played = "2026-11-03";
    story.evenings = 2;
    story.seconds = 41 * 60;
    story.takes = 3;
    story.lately = sums(50, 37, 40, 33);
    story.trend = trend(history::Course::too_few, 2);
    story.tempi = {{120, sums(100, 74, 81, 70), 4, 0, "2026-11-03"}};
    story.due = "2026-11-04";
    weeks.bars = 12;
    return weeks;
}

inline report::TuneWeeks drill_weeks() {
    report::TuneWeeks weeks;
    auto& story = weeks.story;
    story.tune = two_five();
    story.first_played = "2026-11-20";
    story.last_played = "2026-11-29";
    story.evenings = 3;
    story.seconds = 14 * 60;
    story.takes = 3;
    story.lately = sums(40, 36, 38, 35);
    story.trend = trend(history::Course::too_few, 3);
    weeks.bars = 3;
    return weeks;
}

inline history::Homework homework_of(const std::string& player) {
    return {5, player, "2026-11-03", lantern_street(), 9, 12, 96, 120};
}

inline std::vector<report::HomeworkSoFar> some_homework(const std::string& player) {
    auto done = homework_of(player);
    done.from_bar = done.to_bar = 7;
    auto long_done = homework_of(player);
    long_done.from_bar = 1;
    long_done.to_bar = 2;
    return {{homework_of(player), {"2026-11-24"}},
            {done, {"2026-11-20", "2026-11-25"}},
            {long_done, {"2026-11-10", "2026-11-12"}}};
}

inline report::AllWeeks all_weeks(const std::string& player) {
    report::AllWeeks all;
    all.tunes = {drill_weeks(), better_weeks(), two_evenings()};
    all.homework = some_homework(player);
    all.others = {{"Ben", 12, "2026-11-29"}, {"Carla", 3, "2026-10-01"}, {"", 1, "2026-09-01"}};
    return all;
}

/// Twelve bars, the last four in D.
inline chart::Form lantern_form() {
    return chart::unroll(
        chart::read_chart("title: Lantern Street\nkey: F\ntempo: 132\nform: [A, B]\nsections:\n"
                          "  A: F6 | D7 | Gm7 | C7 | F6 | D7 | Gm7 C7 | F6\n"
                          "  B: {key: D, bars: Em7 | A7 | Dmaj7 | Bm7}\n",
                          "lantern-street.yaml"));
}

// What to do.

inline history::Thing thing_of(history::ThingKind kind) {
    history::Thing thing;
    thing.kind = kind;
    thing.tune = lantern_street();
    thing.from_bpm = thing.to_bpm = 132;
    return thing;
}

inline history::Thing homework_thing(const std::string& player) {
    auto thing = thing_of(history::ThingKind::homework);
    thing.homework = homework_of(player);
    thing.from_bar = 9;
    thing.to_bar = 12;
    thing.from_bpm = 96;
    thing.to_bpm = 120;
    thing.times = 0;
    thing.minutes = 8;
    thing.days_done = 1;
    return thing;
}

inline history::Thing place_thing(history::Task task) {
    auto thing = thing_of(history::ThingKind::place);
    thing.task = task;
    thing.place = bar_seven();
    thing.from_bar = 6;
    thing.to_bar = task == history::Task::two_bars ? 7 : 9;
    thing.from_bpm = thing.to_bpm = 108;
    thing.times = 8;
    if (task == history::Task::ladder) {
        thing.times = 0;
        thing.to_bpm = 132;
        thing.place->stuck_for = 0;
    }
    return thing;
}

inline history::Thing transition_thing() {
    auto thing = thing_of(history::ThingKind::transition);
    thing.tune = {};
    thing.transition = transition_of("Am7b5", "D7", {}, history::Course::none);
    thing.titles = {"Lantern Street", "Blue Kettle on the Back Stairs"};
    thing.changes = "Am7b5 | D7 | Am7b5 | D7";
    thing.from_bpm = thing.to_bpm = 104;
    thing.times = 8;
    thing.minutes = 2;
    return thing;
}

inline history::Thing due_thing() {
    auto thing = thing_of(history::ThingKind::due);
    thing.tune = kettle();
    thing.last_played = "2026-11-03";
    thing.due = "2026-11-04";
    thing.from_bpm = thing.to_bpm = 120;
    thing.minutes = 3;
    return thing;
}

inline history::Thing whole_thing() {
    auto thing = thing_of(history::ThingKind::whole_tune);
    thing.last_played = "2026-11-24";
    thing.minutes = 2;
    return thing;
}

}  // namespace compline::tests
