#include "../live.d/flood.hpp"

#include "benches.hpp"

#include <compline/listen/listener.hpp>
#include <compline/practice/scoring.hpp>
#include <compline/simulate/played.hpp>

#include <fmt/format.h>

#include <algorithm>

namespace compline::bench {

namespace {

constexpr time::Seconds minute{60};

/// A simulated guitarist for a minute, six strings in vibrato all the while.
practice::Take flooded_take(const chart::Form& form) {
    const roadmap::RoadMap whole(form, roadmap::Asked::of(form.whole(), std::nullopt));
    const auto map = whole.first(1 + static_cast<int>(minute / whole.time_of(whole.start(2))));
    const auto tune = simulate::play(map, {}, 1);
    auto played = simulate::perform(tune.script, map, guitar::Fretboard::standard());
    played.erase(std::find_if(played.begin(), played.end(),
                              [](const auto& timed) { return timed.at > minute; }),
                 played.end());
    practice::Take take;
    take.messages = outside::flooded(played, time::Seconds(0), minute);
    take.end = minute;
    return take;
}

}  // namespace

std::vector<Row> flood(Pace pace) {
    const auto form = aaba();
    const auto take = flooded_take(form);
    const auto report = practice::hear_and_judge(form, take, {});
    const auto hear = [&] { return listen::hear(take.messages, {}, take.end); };
    const auto judge = [&] {
        auto heard = report.heard;
        heard.notes = hear().notes;
        return assess::assess(report.map, heard, {});
    };
    const auto both = measure(pace, [&] { keep(judge()); });
    const auto hearing = measure(pace, [&] { keep(hear()); });
    return {{"flood: a minute heard and judged", both,
             fmt::format("{} messages, {} changes", take.messages.size(), judge().changes.size())},
            {"  of it: notes on strings", hearing, fmt::format("{} notes", hear().notes.size())}};
}

}  // namespace compline::bench
