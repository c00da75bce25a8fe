#include "../live.d/flood.hpp"

#include "benches.hpp"

#include <compline/listen/listener.hpp>
#include <compline/practice/take.hpp>
#include <compline/simulate/played.hpp>

#include <app/scoring.hpp>
#include <fmt/format.h>

#include <algorithm>

namespace compline::bench {

namespace {

constexpr time::Seconds minute{60};

/// A simulated guitarist for a minute, six strings in vibrato all the while.
practice::Take flooded_take(const chart::Form& form, const time::Groove& groove) {
    const int times = 1 + static_cast<int>(minute / groove.time_of(form.length()));
    const auto route = chart::Route::of(form.whole(), times);
    const auto tune = simulate::play(form, route, groove, {}, 1);
    auto played = simulate::perform(tune.script, groove, guitar::Fretboard::standard());
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
    const time::Groove groove{time::Timeline(form.chart.tempo),
                              form.chart.swing_at(form.chart.tempo)};
    const auto take = flooded_take(form, groove);
    const auto played = app::score(form, take, {}).performance;
    const auto hear = [&] { return listen::hear(take.messages, {}, take.end); };
    const auto judge = [&] {
        return assess::assess(form, played, groove, hear().notes, guitar::Fretboard::standard(),
                              {});
    };
    const auto both = measure(pace, [&] { keep(judge()); });
    const auto hearing = measure(pace, [&] { keep(hear()); });
    return {{"flood: a minute heard and judged", both,
             fmt::format("{} messages, {} changes", take.messages.size(), judge().changes.size())},
            {"  of it: notes on strings", hearing, fmt::format("{} notes", hear().notes.size())}};
}

}  // namespace compline::bench
