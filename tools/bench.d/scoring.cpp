#include "benches.hpp"

#include <compline/chart/chart_hash.hpp>
#include <compline/midi/smf.hpp>
#include <compline/practice/scoring.hpp>
#include <compline/report/report.hpp>
#include <compline/report/take_page.hpp>
#include <compline/simulate/played.hpp>

#include <fmt/format.h>

#include <cmath>

namespace compline::bench {

namespace {

constexpr time::Seconds ten_minutes{600};

/// A simulated guitarist's choruses until ten minutes are over, as a file's bytes.
std::vector<std::uint8_t> long_take(const chart::Form& form) {
    const roadmap::RoadMap whole(form, roadmap::Asked::of(form.whole(), std::nullopt));
    const double choruses = ten_minutes / whole.time_of(whole.start(2));
    const auto map = whole.first(static_cast<int>(std::ceil(choruses)));
    const auto played = simulate::play(map, {}, 1);
    practice::Take take;
    take.messages = simulate::perform(played.script, map, guitar::Fretboard::standard());
    take.end = map.time_of(map.end());
    take.info.emplace();
    take.info->chart_hash = chart::chart_hash(form.chart);
    take.info->asked = roadmap::Asked::of(form.whole(), map.times_through());
    take.info->asked.tempo = map.tempo();
    take.info->ended = true;
    return midi::write_smf(practice::to_file(take, map));
}

practice::Take read(const std::vector<std::uint8_t>& bytes) {
    return practice::read_take(midi::read_smf(bytes).file);
}

Row hearing(Pace pace, const practice::Take& take) {
    const auto took = measure(pace, [&] { keep(listen::hear(take.messages, {}, take.end)); });
    const auto heard = listen::hear(take.messages, {}, take.end);
    return {"  of it: notes on strings", took, fmt::format("{} notes", heard.notes.size())};
}

Row judging(Pace pace, const practice::Report& report) {
    const auto judge = [&] { return assess::assess(report.map, report.heard, {}); };
    const auto took = measure(pace, [&] { keep(judge()); });
    return {"  of it: judging", took, fmt::format("{} changes", judge().changes.size())};
}

/// An hour's changes, with faults in every seventh of them and one place that always goes wrong.
Row finding_habits(Pace pace, const practice::Report& report) {
    constexpr std::size_t an_hour = 5000;
    std::vector<assess::Change> changes;
    while (changes.size() < an_hour) {
        changes.push_back(
            report.assessment.changes[changes.size() % report.assessment.changes.size()]);
        const bool fault = changes.size() % 7 == 0 || changes.back().bar == 5;
        if (!fault) continue;
        changes.back().verdict = assess::Verdict::late;
        changes.back().lateness = time::Seconds(0.1);
    }
    const auto& strums = report.assessment.strums;
    const auto took = measure(pace, [&] { keep(assess::find_habits(changes, strums)); });
    return {"  of it: habits, of an hour", took,
            fmt::format("{} changes, {} habits", changes.size(),
                        assess::find_habits(changes, strums).size())};
}

/// Twenty times through 64 bars, with faults of every kind, as a page to look at.
Row drawing_page(Pace pace) {
    auto chart = aaba().chart;
    const auto once = chart.form;
    chart.form.insert(chart.form.end(), once.begin(), once.end());
    const auto form = chart::unroll(chart);
    const roadmap::RoadMap map(form, roadmap::Asked::of(form.whole(), 20));
    simulate::Habits clumsy;
    clumsy.rates.fill(0.03);
    practice::Take take;
    take.messages = simulate::perform(simulate::play(map, clumsy, 1).script, map,
                                      guitar::Fretboard::standard());
    take.end = map.time_of(map.end());
    const auto report = practice::hear_and_judge(form, take, {});
    const auto took = measure(pace, [&] { keep(report::take_html(report)); });
    return {"score: 20 times 64 bars as a page", took,
            fmt::format("{} changes, {} kB", report.assessment.changes.size(),
                        report::take_html(report).size() / 1000)};
}

/// What no guitarist plays: every note of MIDI over and over at one tick, as a file's bytes.
std::vector<std::uint8_t> crowded_take(const chart::Form& form, int notes) {
    practice::Take take;
    for (int i = 0; i < notes; ++i) {
        take.messages.push_back({time::Seconds(0), midi::note_on(1, i % 128, 80)});
    }
    take.end = time::Seconds(4);
    const roadmap::RoadMap map(form, roadmap::Asked::of(form.whole(), 1));
    return midi::write_smf(practice::to_file(take, map));
}

Row crowd(Pace pace, const chart::Form& form) {
    constexpr int notes = 100'000;
    const auto bytes = crowded_take(form, notes);
    const auto took = measure(
        pace, [&] { keep(report::to_json(practice::hear_and_judge(form, read(bytes), {}))); });
    return {"score: notes that all begin at once", took, fmt::format("{} notes", notes)};
}

}  // namespace

std::vector<Row> scoring(Pace pace) {
    const auto form = aaba();
    const auto bytes = long_take(form);
    const auto take = read(bytes);
    const auto whole = measure(
        pace, [&] { keep(report::to_json(practice::hear_and_judge(form, read(bytes), {}))); });
    const auto reading_it = measure(pace, [&] { keep(read(bytes)); });
    const auto report = practice::hear_and_judge(form, take, {});
    const auto json = measure(pace, [&] { keep(report::to_json(report)); });
    return {
        {"score: ten-minute take to JSON", whole,
         fmt::format("{:.1f} minutes, {} messages", take.end.count() / 60, take.messages.size())},
        {"  of it: reading the take", reading_it, fmt::format("{} kB", bytes.size() / 1000)},
        hearing(pace, take),
        judging(pace, report),
        finding_habits(pace, report),
        {"  of it: writing JSON", json,
         fmt::format("{} kB", report::to_json(report).size() / 1000)},
        drawing_page(pace),
        crowd(pace, form)};
}

}  // namespace compline::bench
