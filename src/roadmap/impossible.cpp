#include "laid.hpp"

#include <compline/text/bad_input.hpp>

#include <fmt/format.h>

namespace compline::roadmap {

namespace {

using text::BadInput;

void refuse_tempo(const char* where, std::int64_t bar, time::Bpm tempo) {
    if (tempo.count() >= chart::slowest_bpm && tempo.count() <= chart::fastest_bpm) return;
    throw BadInput(
        "", fmt::format("{} {}: {:g} quarter notes a minute", where, bar, tempo.count()),
        fmt::format("{:g} to {:g} can be played", chart::slowest_bpm, chart::fastest_bpm));
}

void refuse_way(const chart::Form& form, const chart::Way& way) {
    const auto bars_of_form = static_cast<int>(form.bars.size());
    if (way.stretches.empty() || bars_of_form == 0) {
        throw BadInput("", "the road map has no bars", "there is nothing to play");
    }
    std::int64_t bars = 0;
    for (const auto& stretch : way.stretches) {
        const auto& passage = stretch.passage;
        if (passage.from < 1 || passage.from > passage.to || passage.to > bars_of_form) {
            throw BadInput("",
                           fmt::format("bars {} to {} are to be played", passage.from, passage.to),
                           fmt::format("the chart has bars 1 to {}", bars_of_form));
        }
        bars += passage.bars();
    }
    if (bars > most_bars_played) {
        throw BadInput("", fmt::format("the road map has {} bars", bars),
                       fmt::format("{} are the most", most_bars_played));
    }
}

/// In order, each where there is something left to be played otherwise.
void refuse_decisions(const std::vector<Decision>& decided, const chart::Way& way) {
    std::int64_t last = furthest_decision;
    const auto times = way.times_through();
    if (times) last = way.bars_before(*times + 1) + 1;
    std::int64_t before = 1;
    bool stopped = false;
    for (const auto& decision : decided) {
        const auto bar = decision.from_bar;
        const bool stops = std::holds_alternative<Stopped>(decision.what);
        const std::int64_t first = stops ? 2 : before;
        const auto furthest = stops ? last : last - 1;
        if (stopped || bar < std::max(first, before) || bar > furthest) {
            throw BadInput("", fmt::format("a decision is to count from bar {} on", bar),
                           stopped ? "the music had been stopped by then"
                                   : fmt::format("bars {} to {} are still to come",
                                                 std::max(first, before), furthest));
        }
        before = bar;
        stopped = stops;
        if (const auto* tempo = std::get_if<NewTempo>(&decision.what)) {
            refuse_tempo("from bar", bar, tempo->tempo);
        }
    }
}

}  // namespace

void refuse_impossible(const chart::Form& form, const Asked& asked,
                       const std::vector<Decision>& decided) {
    refuse_way(form, asked.way);
    refuse_tempo("bar", 1, asked.tempo.value_or(form.chart.tempo));
    refuse_decisions(decided, asked.way);
}

void refuse_lost_silence(const Silence& silence, const chart::Way& way) {
    const auto times = way.times_through();
    if (!times) return;
    const std::int64_t all = silence.times_through ? *times : way.bars_before(*times + 1);
    const auto counted = [&](std::int64_t count) {
        const bool one = count == 1;
        if (silence.times_through) return fmt::format("{} time{} through", count, one ? "" : "s");
        return fmt::format("{} bar{}", count, one ? "" : "s");
    };
    if (silence.silent > all) {
        throw BadInput("", fmt::format("a silence of {}", counted(silence.silent)),
                       fmt::format("it is longer than all that is played, {}", counted(all)));
    }
    if (silence.playing >= all) {
        throw BadInput("", fmt::format("a silence after {}", counted(silence.playing)),
                       fmt::format("it would never come: {} {} played", counted(all),
                                   all == 1 ? "is" : "are"));
    }
}

}  // namespace compline::roadmap
