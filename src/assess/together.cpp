#include "weakest.hpp"

#include <compline/assess/together.hpp>

#include <algorithm>
#include <cmath>

namespace compline::assess {

namespace {

/// Of two lots as of one: means weigh by their counts, and what lies between them scatters too.
Spread pooled(const Spread& a, const Spread& b) {
    if (a.count == 0) return b;
    if (b.count == 0) return a;
    const double n = a.count + b.count;
    Spread both{a.count + b.count, {}, {}};
    both.mean_ms = (*a.mean_ms * a.count + *b.mean_ms * b.count) / n;
    const auto squares = [&](const Spread& one) {
        const double within = one.sd_ms ? std::pow(*one.sd_ms, 2) * (one.count - 1) : 0;
        return within + std::pow(*one.mean_ms - *both.mean_ms, 2) * one.count;
    };
    both.sd_ms = std::sqrt((squares(a) + squares(b)) / (n - 1));
    return both;
}

void add(const std::vector<WrittenBeat>& more, std::vector<WrittenBeat>& beats) {
    for (const auto& one : more) {
        const auto same = std::find_if(beats.begin(), beats.end(), [&](const WrittenBeat& beat) {
            return beat.in_bar == one.in_bar;
        });
        if (same == beats.end()) {
            beats.push_back(one);
            continue;
        }
        same->strums = pooled(same->strums, one.strums);
        same->missing += one.missing;
    }
}

void add(const OneOfAll& one, TimeKeeping& time) {
    const auto& more = one.assessment->time;
    time.all = pooled(time.all, more.all);
    time.on_beats = pooled(time.on_beats, more.on_beats);
    time.off_beats = pooled(time.off_beats, more.off_beats);
    time.missing_strums += more.missing_strums;
    add(more.per_beat, time.per_beat);
    for (auto silence : more.silences) {
        silence.first_bar += one.bars_before;
        time.silences.push_back(silence);
    }
    time.kicks.written += more.kicks.written;
    time.kicks.caught = pooled(time.kicks.caught, more.kicks.caught);
}

void add(const Totals& more, Totals& totals) {
    totals.changes += more.changes;
    totals.uncertain += more.uncertain;
    totals.right_tones += more.right_tones;
    for (std::size_t i = 0; i < totals.verdicts.size(); ++i) {
        totals.verdicts[i] += more.verdicts[i];
    }
}

/// Counted, and timed, from the first of all.
template <typename T>
void add(const std::vector<T>& more, const OneOfAll& one, std::vector<T>& items) {
    for (auto item : more) {
        item.time_through += one.times_before;
        if constexpr (requires { item.at; }) item.at = item.at + one.from;
        items.push_back(std::move(item));
    }
}

}  // namespace

Assessment together(std::span<const OneOfAll> all, chart::Passage bars) {
    Assessment whole;
    for (const auto& one : all) {
        add(one.assessment->changes, one, whole.changes);
        add(one.assessment->strums, one, whole.strums);
        add(one.assessment->astray, one, whole.astray);
        add(one.assessment->totals, whole.totals);
        add(one, whole.time);
        whole.tolerance = std::max(whole.tolerance, one.assessment->tolerance);
    }
    whole.settled = whole.changes.size();
    whole.habits = find_habits(whole.changes, whole.strums);
    whole.weakest = find_weakest(whole.changes, bars);
    return whole;
}

}  // namespace compline::assess
