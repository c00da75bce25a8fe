#include "judged_rows.hpp"

#include <compline/assess/rules_version.hpp>
#include <compline/chart/chart_hash.hpp>
#include <compline/chart/form.hpp>
#include <compline/practice/evening_date.hpp>

#include <fmt/format.h>

namespace compline::tests {

namespace {

constexpr auto letters = harmony::Accidentals::letters;

void add_change(const chart::Span& span, const chart::Form& form, const std::string& from, int time,
                char how, const PlayedRows& played, history::JudgedTake& judged) {
    history::KeptChange change;
    change.time_through = time;
    change.bar = span.bar;
    change.beat = time::BeatOfBar(span.start - form.bar(span.bar).start);
    change.section = form.bar(span.bar).section;
    change.from = from;
    change.to = span.chord->symbol(letters);
    change.bpm = played.bpm;
    change.verdict = how == 'l' ? "late" : how == 'm' ? "missed" : "on_time";
    if (how != 'm') change.lateness_ms = how == 'l' ? 90 : 5;
    change.tones = how == 'w' ? "wrong" : how == 'm' ? "none" : "right";
    change.cost = how == 'l' ? 0.45 : how == 'm' ? 1 : how == 'w' ? 0.5 : 0;
    change.in_time = how == '.' || how == 'w';
    change.right = how == '.' || how == 'l';
    judged.changes.push_back(change);
    judged.strums.push_back({time, change.bar, change.beat, 5, "landing", false});
    auto& row = judged.times.back();
    ++row.due;
    row.struck += how == 'm' ? 0 : 1;
    row.right += how == '.' ? 1 : 0;
    row.missed += how == 'm' ? 1 : 0;
}

void sum(history::JudgedTake& judged) {
    auto& take = judged.take;
    for (const auto& change : judged.changes) {
        ++take.changes;
        ++take.counted;
        take.in_time += change.in_time ? 1 : 0;
        take.right += change.right ? 1 : 0;
        take.both += change.in_time && change.right ? 1 : 0;
        take.struck += change.verdict == "missed" ? 0 : 1;
        take.cost += change.cost;
    }
    for (auto& time : judged.times) {
        time.clean = time.missed == 0 && time.right * 10 >= time.struck * 9;
        take.seconds += time.seconds;
    }
}

}  // namespace

history::KeptChart kept_chart(const std::string& title, const std::string& bars) {
    const auto text =
        fmt::format("title: \"{}\"\nkey: C\ntempo: 120\nsections:\n  A: \"{}\"\n", title, bars);
    const auto chart = chart::read_chart(text, "chart");
    return {chart::chart_hash(chart), title, "C", text, "/charts/" + title + ".yaml", false};
}

history::JudgedTake judged_rows(const history::KeptChart& chart, const PlayedRows& played) {
    const auto form = chart::unroll(chart::read_chart(chart.text, "chart"));
    const int last = played.to_bar == 0 ? form.last_bar() : played.to_bar;
    history::JudgedTake judged;
    judged.chart = chart;
    std::size_t n = 0;
    for (int time = 1; time <= played.times; ++time) {
        auto& row = judged.times.emplace_back();
        row.number = time;
        row.from_bar = played.from_bar;
        row.to_bar = last;
        row.whole_tune = played.from_bar == 1 && last == form.last_bar();
        row.bpm = played.bpm;
        row.seconds = (last - played.from_bar + 1) * 4 * 60 / played.bpm;
        std::string before;
        for (const auto& span : form.spans) {
            if (!span.chord || span.bar < played.from_bar || span.bar > last) continue;
            const auto symbol = span.chord->symbol(letters);
            const char how = played.how[n % played.how.size()];
            if (symbol != before) add_change(span, form, before, time, how, played, judged);
            n += symbol != before ? 1 : 0;
            before = symbol;
        }
    }
    auto& take = judged.take;
    take.player = played.player;
    take.made = played.made;
    take.evening = practice::evening_of(played.made);
    take.key = played.key;
    take.from_bar = played.from_bar;
    take.to_bar = last;
    take.slowest_bpm = take.fastest_bpm = played.bpm;
    take.rules = assess::rules_version;
    take.folder = "/takes";
    take.file = played.made.substr(0, 10) + ".mid";
    sum(judged);
    take.fingerprint = fmt::format(
        "{:016x}",
        chart::fnv1a_64(fmt::format("{}{}{}{}{}{}{}", chart.hash, played.made, played.player,
                                    played.how, played.times, played.from_bar, played.bpm)));
    return judged;
}

}  // namespace compline::tests
