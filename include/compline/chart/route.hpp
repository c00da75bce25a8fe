#pragma once

#include <compline/chart/form.hpp>
#include <compline/chart/style.hpp>

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace compline::chart {

/// One time through a passage, as part of a route.
struct Stretch {
    Passage passage;
    std::string name;     ///< "head", "solo", "intro", "tag"; empty: just a time through
    Style style;          ///< asked for beyond chart and section
    bool silent = false;  ///< drums and bass lay out
    bool operator==(const Stretch&) const = default;
};

/// What is played of a form, in order: stretches, one time through each. The last one comes again
/// and again where the route goes on until it is stopped. Positions count from the first beat of
/// the first stretch.
struct Route {
    std::vector<Stretch> stretches;  ///< one at least
    bool goes_on = false;            ///< until stopped
    bool held_ending = false;        ///< after the last bar one more, on the tonic, that rings

    /// A passage played some times through, or until stopped.
    [[nodiscard]] static Route of(Passage passage, std::optional<int> times);

    /// How many times through there are; none: until stopped.
    [[nodiscard]] std::optional<int> times_through() const;

    /// The stretch of a time through, from 0 (asserted); past the last the last one.
    [[nodiscard]] const Stretch& stretch(int time) const;

    /// Bars before a time through, from 0 (asserted).
    [[nodiscard]] std::int64_t bars_before(int time) const;
    [[nodiscard]] time::Ticks start(int time, time::Meter meter) const {
        return meter.bar() * bars_before(time);
    }

    /// Where a position stands. Before the beginning: the first bar; past the end of a route that
    /// ends: the last bar, `over`.
    struct Place {
        int time = 0;                 ///< time through, from 0
        int bar = 1;                  ///< number in the form
        std::int64_t bar_played = 0;  ///< from the first bar of the route, from 0
        time::Ticks in_bar;  ///< from the bar line; 0 before the beginning and past the end
        bool before = false;
        bool over = false;
    };
    [[nodiscard]] Place place(time::Ticks position, time::Meter meter) const;

    /// The whole route plays one passage.
    [[nodiscard]] bool is_uniform() const;

    bool operator==(const Route&) const = default;
};

}  // namespace compline::chart
