#pragma once

// Judged changes made by hand: for tests of what is said of them.

#include "report/rehearsed.hpp"
#include "support/forms.hpp"

#include <string>
#include <vector>

namespace compline::tests {

inline harmony::Chord chord(const std::string& symbol) {
    return *make_form(time::Meter(4), time::Bpm(120), {symbol}).spans.front().chord;
}

/// As many bars as changes made by hand may name.
inline chart::Form thirty_two_bars(time::Meter meter = time::Meter(4)) {
    std::vector<std::string> bars;
    for (int i = 0; i < 16; ++i) bars.insert(bars.end(), {"F7", "Bb7"});
    return make_form(meter, time::Bpm(120), bars);
}

/// A7 to Dm7 at the start of bar 7, the second time, right and in time.
inline assess::Change a_change() {
    assess::Change change;
    change.time_through = 2;
    change.bar = 7;
    change.from = chord("A7");
    change.to = chord("Dm7");
    change.verdict = assess::Verdict::on_time;
    change.lateness = time::Seconds(0);
    change.beats_in = 0;
    change.tones = assess::Tones::right;
    return change;
}

/// Let in on a later beat or off-beat, so far behind that.
inline assess::Change placed(double beats_in, double ms = 0) {
    auto change = a_change();
    change.verdict = assess::Verdict::placed;
    change.beats_in = beats_in;
    change.lateness = time::from_milliseconds(ms);
    return change;
}

/// Held, laid out or missed.
inline assess::Change not_struck(assess::Verdict verdict) {
    auto change = a_change();
    change.verdict = verdict;
    change.lateness.reset();
    change.beats_in.reset();
    if (verdict != assess::Verdict::held) change.tones = assess::Tones::none;
    return change;
}

inline assess::Change at(assess::Change change, int time_through, int bar, double beat = 1) {
    change.time_through = time_through;
    change.bar = bar;
    change.beat = time::BeatOfBar(beat);
    return change;
}

/// The report of these changes, all of them from strums that were heard.
inline practice::Report report_of(const std::vector<assess::Change>& changes, int times_through = 1,
                                  time::Meter meter = time::Meter(4)) {
    auto report = judged(through(thirty_two_bars(meter), times_through), {});
    auto& assessment = report.assessment;
    assessment = {};
    assessment.changes = changes;
    for (const auto& change : changes) {
        auto& totals = assessment.totals;
        ++(change.uncertain ? totals.uncertain : totals.changes);
        if (change.uncertain) continue;
        ++totals.verdicts.at(static_cast<std::size_t>(change.verdict));
        totals.right_tones += change.tones == assess::Tones::right ? 1 : 0;
    }
    assessment.time.all.count = static_cast<int>(changes.size());
    return report;
}

}  // namespace compline::tests
