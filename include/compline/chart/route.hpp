#pragma once

#include <compline/chart/form.hpp>
#include <compline/chart/manner.hpp>
#include <compline/time/timeline.hpp>

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace compline::chart {

/// One time through a passage, as part of a route.
struct Stretch {
    Passage passage;
    std::string name;     ///< "head", "solo", "intro", "tag"; empty: just a time through
    AskedManner manner;   ///< asked for beyond chart and section
    bool silent = false;  ///< drums and bass lay out
    bool operator==(const Stretch&) const = default;
};

/// What is played of a form, in order: stretches, one time through each. The last one comes again
/// and again where the route goes on until it is stopped. Positions count from the first beat of
/// the first stretch.
///
/// 2026-11-25: judge, take, conductor and display all go by it, so that an intro, a tag and
/// choruses in different manners need no cases of their own. A held ending is the band's alone: it
/// is no bar of the form and is not judged.
struct Route {
    std::vector<Stretch> stretches;  ///< one at least
    bool goes_on = false;            ///< until stopped
    bool held_ending = false;        ///< after the last bar one more, on the tonic, that rings

    /// A passage played some times through, or until stopped.
    [[nodiscard]] static Route of(Passage passage, std::optional<int> times);

    /// The same as a band plays it that was asked for no road map: the whole tune ends, on its
    /// tonic; a passage out of it, or what goes on until it is stopped, does not.
    [[nodiscard]] static Route through(const Form& form, Passage passage, std::optional<int> times);

    /// The first so many times through (1 or more, asserted), and then it ends. A held ending stays
    /// only behind the whole.
    [[nodiscard]] Route first(int times) const;

    /// How many times through there are; none: until stopped.
    [[nodiscard]] std::optional<int> times_through() const;

    // Times through are counted from 1 (asserted).

    /// The stretch of a time through; past the last the last one.
    [[nodiscard]] const Stretch& stretch(int time_through) const;

    /// Bars before a time through, also before the one that would follow the last.
    [[nodiscard]] std::int64_t bars_before(int time_through) const;
    [[nodiscard]] time::Ticks start(int time_through, time::Meter meter) const {
        return meter.bar() * bars_before(time_through);
    }

    /// Where a position stands. Before the beginning: the first bar; past the end of a route that
    /// ends: the last bar, `over`.
    struct PlaceInRoute {
        int time_through = 1;         ///< from 1
        int bar = 1;                  ///< number in the form
        std::int64_t bar_played = 0;  ///< from the first bar of the route, from 0
        time::Ticks in_bar;  ///< from the bar line; 0 before the beginning and past the end
        bool before = false;
        bool over = false;
    };
    [[nodiscard]] PlaceInRoute place(time::Ticks position, time::Meter meter) const;

    /// Every stretch is the same passage, and none asks for anything.
    [[nodiscard]] bool is_uniform() const;

    /// From the first bar of the form that is played to the last; of no stretches, bar 0.
    [[nodiscard]] Passage reach() const;

    /// The change into a time through, from the second on (asserted), is one that the tune does not
    /// have: it comes neither from the bar before nor from the last bar to the first.
    [[nodiscard]] bool is_seam(int time_through, const Form& form) const;

    /// Where kicks are written, from the first beat of the route, ascending. A route that ends
    /// (asserted).
    [[nodiscard]] std::vector<time::Ticks> kicks(const Form& form) const;

    bool operator==(const Route&) const = default;
};

/// What is asked of the band in a bar of a time through (from 1): by the chart, the section, the
/// stretch and, closest of all, the player.
[[nodiscard]] AskedManner asked_manner(const Form& form, const Route& route, int time_through,
                                       int bar, const AskedManner& player);

/// The form in time as the route goes through it: its tempo, and the swing of each bar's feel.
[[nodiscard]] time::Groove groove_of(const Form& form, const Route& route,
                                     const AskedManner& player, time::Bpm tempo);

}  // namespace compline::chart
