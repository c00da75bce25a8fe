#include "benches.hpp"

#include <compline/chart/chart_hash.hpp>
#include <compline/midi/smf.hpp>
#include <compline/practice/take.hpp>
#include <compline/report/report.hpp>
#include <compline/simulate/played.hpp>

#include <app/scoring.hpp>
#include <fmt/format.h>

#include <cmath>

namespace compline::bench {

namespace {

constexpr time::Seconds ten_minutes{600};

time::Groove groove_of(const chart::Form& form) {
    return {time::Timeline(form.chart.tempo), form.chart.swing_at(form.chart.tempo)};
}

/// A simulated guitarist's choruses until ten minutes are over, as a file's bytes.
std::vector<std::uint8_t> long_take(const chart::Form& form) {
    const auto groove = groove_of(form);
    const double choruses = ten_minutes / groove.time_of(form.length());
    const int times = static_cast<int>(std::ceil(choruses));
    const auto route = chart::Route::of(form.whole(), times);
    const auto played = simulate::play(form, route, groove, {}, 1);
    practice::Take take;
    take.messages = simulate::perform(played.script, groove, guitar::Fretboard::standard());
    take.end = groove.time_of(form.length() * times);
    take.info.emplace();
    take.info->chart_hash = chart::chart_hash(form.chart);
    take.info->tempo_bpm = form.chart.tempo.count();
    take.info->route = route;
    return midi::write_smf(
        practice::to_file(take, form.chart.tempo, form.chart.meter, time::Seconds(3)));
}

practice::Take read(const std::vector<std::uint8_t>& bytes) {
    return practice::read_take(midi::read_smf(bytes).file);
}

Row hearing(Pace pace, const practice::Take& take) {
    const auto took = measure(pace, [&] { keep(listen::hear(take.messages, {}, take.end)); });
    const auto heard = listen::hear(take.messages, {}, take.end);
    return {"  of it: notes on strings", took, fmt::format("{} notes", heard.notes.size())};
}

Row judging(Pace pace, const chart::Form& form, const practice::Take& take) {
    const auto groove = groove_of(form);
    const auto notes = listen::hear(take.messages, {}, take.end).notes;
    const assess::Performance played = app::score(form, take, {}).performance;
    const auto judge = [&] {
        return assess::assess(form, played, groove, notes, guitar::Fretboard::standard(), {});
    };
    const auto took = measure(pace, [&] { keep(judge()); });
    return {"  of it: judging", took, fmt::format("{} changes", judge().changes.size())};
}

/// What no guitarist plays: every note of MIDI over and over at one tick, as a file's bytes.
std::vector<std::uint8_t> crowded_take(int notes) {
    practice::Take take;
    for (int i = 0; i < notes; ++i) {
        take.messages.push_back({time::Seconds(0), midi::note_on(1, i % 128, 80)});
    }
    take.end = time::Seconds(4);
    return midi::write_smf(practice::to_file(take, time::Bpm(120), time::Meter(4), {}));
}

Row crowd(Pace pace, const chart::Form& form) {
    constexpr int notes = 100'000;
    const auto bytes = crowded_take(notes);
    const auto took =
        measure(pace, [&] { keep(report::to_json(app::score(form, read(bytes), {}))); });
    return {"score: notes that all begin at once", took, fmt::format("{} notes", notes)};
}

}  // namespace

std::vector<Row> scoring(Pace pace) {
    const auto form = aaba();
    const auto bytes = long_take(form);
    const auto take = read(bytes);
    const auto whole =
        measure(pace, [&] { keep(report::to_json(app::score(form, read(bytes), {}))); });
    const auto reading_it = measure(pace, [&] { keep(read(bytes)); });
    const auto report = app::score(form, take, {});
    const auto json = measure(pace, [&] { keep(report::to_json(report)); });
    return {
        {"score: ten-minute take to JSON", whole,
         fmt::format("{:.1f} minutes, {} messages", take.end.count() / 60, take.messages.size())},
        {"  of it: reading the take", reading_it, fmt::format("{} kB", bytes.size() / 1000)},
        hearing(pace, take),
        judging(pace, form, take),
        {"  of it: writing JSON", json,
         fmt::format("{} kB", report::to_json(report).size() / 1000)},
        crowd(pace, form)};
}

}  // namespace compline::bench
