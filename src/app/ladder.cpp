#include "ladder.hpp"

#include <fmt/format.h>

namespace compline::app {

Option ladder_option(std::optional<roadmap::AskedLadder>& ladder, const char* meaning) {
    return {
        "--ladder", "FROM-TO", meaning, "one tempo",
        read_by([&ladder](const auto& text) { ladder = roadmap::read_ladder(text); }, Echo::value)};
}

void refuse_beside_ladder(const MusicOptions& options) {
    const auto refuse = [](bool asked, const char* words) {
        if (asked) throw BadInput(words);
    };
    refuse(options.tempo.has_value(),
           "--ladder says in which tempi it is played: leave out --tempo");
    refuse(options.times.has_value(), "--ladder says how often it is played: leave out --times");
    refuse(options.key.each_time.has_value(),
           "--ladder stays in one key: leave out --each-time, or the ladder");
    refuse(asks_for_road_map(options.band),
           "--ladder plays the same bars over and over: leave out --road-map, or the ladder");
}

void set_ladder(const roadmap::AskedLadder& ladder, const chart::Form& form,
                roadmap::Asked& asked) {
    const auto loop = asked.way.stretches.front().passage;
    for (int bar = loop.from; bar <= loop.to; ++bar) {
        if (!form.bar(bar).rubato) continue;
        throw BadInput(
            fmt::format("--ladder: bar {} is rubato, which has no tempo to raise: choose "
                        "other bars by --bars",
                        bar));
    }
    asked.way = chart::Way::of(loop, std::nullopt);
    asked.tempo = ladder.from;
    asked.ladder = ladder;
}

}  // namespace compline::app
