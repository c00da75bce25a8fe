#include "laid.hpp"

#include <compline/text/bad_input.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <string>

namespace compline::roadmap {

namespace {

using text::BadInput;

void refuse_tempo(const char* where, std::int64_t bar, time::Bpm tempo) {
    if (tempo.count() >= chart::slowest_bpm && tempo.count() <= chart::fastest_bpm) return;
    throw BadInput(
        "", fmt::format("{} {}: {:g} quarter notes a minute", where, bar, tempo.count()),
        fmt::format("{:g} to {:g} can be played", chart::slowest_bpm, chart::fastest_bpm));
}

void refuse_wait(std::int64_t bar, int beats) {
    if (beats >= 1 && beats <= longest_wait) return;
    throw BadInput("", fmt::format("bar {}: a wait of {} quarter notes", bar, beats),
                   fmt::format("1 to {} can be waited", longest_wait));
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

bool ends(const Decision& decision) {
    return std::holds_alternative<Paused>(decision.what) ||
           std::holds_alternative<Stopped>(decision.what);
}

[[noreturn]] void refuse_bar(const Decision& decision, const std::string& why) {
    throw BadInput("", fmt::format("a decision is to count from bar {} on", decision.from_bar),
                   why);
}

}  // namespace

void refuse_impossible(const chart::Form& form, const Asked& asked) {
    refuse_way(form, asked.way);
    refuse_tempo("bar", 1, asked.tempo.value_or(form.chart.tempo));
}

void DecisionCheck::check(const Decision& decision, std::optional<std::int64_t> bars) {
    if (state_ == DecidedSoFar::stopped) refuse_bar(decision, "the music had been stopped by then");
    if (state_ == DecidedSoFar::paused) {
        check_paused(decision, *bars + 1);
    } else {
        check_bar(decision, bars);
    }
    if (const auto* const tempo = std::get_if<NewTempo>(&decision.what)) {
        refuse_tempo("from bar", decision.from_bar, tempo->tempo);
    }
    if (const auto* const then = std::get_if<NewWay>(&decision.what)) refuse_way(form_, then->way);
    const auto* const waited = std::get_if<Waited>(&decision.what);
    if (waited != nullptr) {
        refuse_wait(decision.from_bar, waited->beats);
        refuse_way(form_, waited->way);
    }
    earliest_ = decision.from_bar + (waited != nullptr ? 1 : 0);
    if (waited != nullptr) state_ = DecidedSoFar::playing;
    if (std::holds_alternative<Paused>(decision.what)) state_ = DecidedSoFar::paused;
    if (std::holds_alternative<Stopped>(decision.what)) state_ = DecidedSoFar::stopped;
}

/// In order, where there is something left to be played otherwise. Something is played before it
/// ends; another way may begin where it would have ended.
void DecisionCheck::check_bar(const Decision& decision, std::optional<std::int64_t> bars) const {
    if (std::holds_alternative<Waited>(decision.what)) {
        refuse_bar(decision, "a wait: nothing was paused there");
    }
    const bool at_the_end = ends(decision) || std::holds_alternative<NewWay>(decision.what);
    const auto last = bars ? *bars + 1 : furthest_decision;
    const auto furthest = at_the_end ? last : last - 1;
    const auto first = std::max<std::int64_t>(earliest_, ends(decision) ? 2 : 1);
    if (decision.from_bar >= first && decision.from_bar <= furthest) return;
    refuse_bar(decision, fmt::format("bars {} to {} are still to come", first, furthest));
}

/// How it goes on, and in which tempo and with whom, and that it does not.
void DecisionCheck::check_paused(const Decision& decision, std::int64_t paused_from) {
    const bool waits_on = std::holds_alternative<Paused>(decision.what) ||
                          std::holds_alternative<NewWay>(decision.what);
    if (decision.from_bar == paused_from && !waits_on) return;
    refuse_bar(decision, fmt::format("it is paused from bar {} on, and only a wait there ends that",
                                     paused_from));
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
