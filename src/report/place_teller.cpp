#include "due_chords.hpp"
#include "glance_words.hpp"
#include "shown_place.hpp"
#include "words.hpp"

#include <compline/report/place_teller.hpp>
#include <compline/text/printable.hpp>

#include <fmt/format.h>

namespace compline::report {

namespace {

using roadmap::PlayedPlace;

std::string where_words(const Playing& playing, const PlayedPlace& place) {
    const auto& map = playing.map;
    const auto due = due_chords(map, place, playing.decided.paused);
    const auto tempo = tempo_number(map.bar(place.number).tempo);
    if (place.before) {
        return fmt::format("count-in, {} bpm, first {}", tempo, chord_words(due.next->chord));
    }
    const auto name = text::printable(map.way().stretch(place.time_through).name);
    return fmt::format("{}{}section {}, bar {}, {} time through, {} bpm, {}", name,
                       name.empty() ? "" : ", ", text::printable(map.form().bar(place.bar).section),
                       place.bar, ordinal(place.time_through), tempo, chord_words(due.now));
}

/// The tempo that was decided last.
std::string tempo_of(const Decided& decided) {
    return decided.tempo ? tempo_number(*decided.tempo) + " bpm" : "";
}

std::string loop_of(const Decided& decided) {
    if (!decided.loop) return "whole tune";
    const auto [from, to] = *decided.loop;
    return from == to ? fmt::format("loop {}", from) : fmt::format("loop {}-{}", from, to);
}

std::string pause_of(const Decided& decided) {
    if (!decided.paused) return "going on";
    return decided.rubato ? "rubato: go on when you are through" : "pause";
}

std::vector<std::string> decided_since(const Decided& before, const Decided& now) {
    std::vector<std::string> lines;
    const auto tell = [&](bool is_new, std::string line) {
        if (is_new && !line.empty()) lines.push_back(std::move(line));
    };
    tell(tempo_of(now) != tempo_of(before), tempo_of(now));
    tell(now.loop != before.loop, loop_of(now));
    tell(now.drums_out != before.drums_out, now.drums_out ? "drums out" : "drums in");
    tell(now.bass_out != before.bass_out, now.bass_out ? "bass out" : "bass in");
    tell(now.until_cue && !before.until_cue, "until cue");
    tell(now.paused != before.paused, pause_of(now));
    tell(now.refused != before.refused, now.refused);
    return lines;
}

}  // namespace

std::vector<std::string> PlaceTeller::news(const ChartRows& rows, const Playing& playing,
                                           time::Ticks position) {
    const auto place = shown_place(rows, playing, position);
    const auto& bar = playing.map.form().bar(place.bar);
    auto decided = playing.decided;
    // Nobody plays there: who was sent out is told where it is heard.
    const bool waits = place.before || place.over;
    if (waits && decided_) {
        decided.drums_out = decided_->drums_out;
        decided.bass_out = decided_->bass_out;
    }
    std::vector<std::string> lines;
    if (decided_) lines = decided_since(*decided_, decided);
    decided_ = decided;
    const PlaceTold where{place.time_through, bar.section, bar.occurrence, place.before,
                          place.over};
    if (where_ != where && !place.over) lines.push_back(where_words(playing, place));
    where_ = where;
    return lines;
}

void PlaceTeller::start_over() { *this = {}; }

}  // namespace compline::report
