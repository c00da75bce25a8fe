#pragma once

#include <compline/roadmap/asked.hpp>
#include <compline/roadmap/changes.hpp>
#include <compline/roadmap/decision.hpp>
#include <compline/roadmap/played_bar.hpp>
#include <compline/time/tempo_map.hpp>

#include <cstdint>
#include <memory>
#include <optional>
#include <vector>

namespace compline::roadmap {

// What is played, bar by bar, and when: the one value that band, guitar, judge, take and display
// read. A bar is looked up here and nowhere else; who sounds in it is decided here, once.
//
// It is made of a form, of what was asked, and of what was decided since. Positions are written
// ones, counted from the first beat of bar 1; the count-in is negative. Time 0 is that beat. Swing
// is laid on within the beat, by the bar's own feel and tempo; what leans on the tempo of a bar
// (ride or brushes) is another layer's, and settled by the tempo with which a time through begins.

/// Bars of a road map that ends.
inline constexpr std::int64_t most_bars_played = chart::most_bars_of_a_road_map;

/// A value: equal questions have equal answers, whichever copy is asked. Copies share what was laid
/// out and cost nothing.
///
/// Threads: any, at any time; nothing in it ever changes. Real-time: no.
class RoadMap {
  public:
    /// Throws text::BadInput for a way of no bars or of too many, bars that the form does not have,
    /// a tempo out of range (the bar is named), a silence that the music has no room for, and
    /// decisions out of order or beyond the end, or that nothing comes of: a wait without a pause.
    RoadMap(chart::Form form, Asked asked, std::vector<Decision> decided = {});

    /// The same up to a bar, and from there on otherwise. `decision.from_bar`: not before that of
    /// the last one. Throws text::BadInput as above.
    [[nodiscard]] RoadMap with(const Decision& decision) const;

    /// As it was known when a bar began: with what had been decided to count from that bar on or
    /// from one before it. Up to that bar the same.
    [[nodiscard]] RoadMap known_at(std::int64_t bar) const;

    /// The first so many times through (1 or more, asserted), and then it ends; all of it, where it
    /// has no more.
    [[nodiscard]] RoadMap first(int times_through) const;

    // Of a map that goes at once, as in `map.first(2).way()`, they give copies.

    [[nodiscard]] const chart::Form& form() const&;
    [[nodiscard]] chart::Form form() const&& { return form(); }
    [[nodiscard]] const Asked& asked() const&;
    [[nodiscard]] Asked asked() const&& { return asked(); }
    /// The same, with the tempo and the count-in that it has: what a take keeps, whatever becomes
    /// of the chart's tempo.
    [[nodiscard]] Asked settled() const;
    [[nodiscard]] const std::vector<Decision>& decided() const&;
    [[nodiscard]] std::vector<Decision> decided() const&& { return decided(); }

    /// The times through that are played, as far as each is, by whatever way they came; what
    /// follows them, where it goes on; and whether an ending is held. Waits lie between times
    /// through and are no part of one.
    [[nodiscard]] const chart::Way& way() const&;
    [[nodiscard]] chart::Way way() const&& { return way(); }
    [[nodiscard]] bool goes_on() const { return way().goes_on; }  ///< until stopped
    /// Times through and bars; none: until stopped.
    [[nodiscard]] std::optional<int> times_through() const { return way().times_through(); }
    [[nodiscard]] std::optional<std::int64_t> bars() const;

    // Times through and bars are counted from 1 (asserted).

    /// The first bar of a time through, also of the one that would follow the last.
    [[nodiscard]] std::int64_t first_bar(int time_through) const;
    [[nodiscard]] time::Ticks start(int time_through) const;
    /// The end of a road map that ends (asserted); a held ending is behind it.
    [[nodiscard]] time::Ticks end() const;

    /// A bar that is played, or a wait (asserted). A wait has the time through of the bar before.
    [[nodiscard]] PlayedBar bar(std::int64_t number) const;
    /// The bar a position lies in; the first before the beginning, the last past the end.
    [[nodiscard]] PlayedBar bar_at(time::Ticks position) const;
    [[nodiscard]] PlayedPlace place_at(time::Ticks position) const;
    /// As the beat goes; swing has no part in where a bar or a beat begins.
    [[nodiscard]] PlayedPlace place_at(time::Seconds t) const;
    /// The written position that was reached, straight.
    [[nodiscard]] time::Ticks position_at(time::Seconds t) const;

    /// When something written is played.
    [[nodiscard]] time::Seconds time_of(time::Ticks written) const;
    /// Where a moment would stand if written straight; the inverse of time_of().
    [[nodiscard]] time::Beats written_at(time::Seconds t) const;
    /// Beats and seconds, without swing.
    [[nodiscard]] const time::TempoMap& tempi() const&;
    [[nodiscard]] time::TempoMap tempi() const&& { return tempi(); }

    [[nodiscard]] time::Swing swing_at(time::Ticks written) const;
    /// Where a written position is played, in beats: swung.
    [[nodiscard]] time::Beats played(time::Ticks written) const;
    /// Of a position before bar 1 the first tempo.
    [[nodiscard]] time::Bpm tempo_at(time::Ticks written) const {
        return tempi().tempo_at(time::Beats(written));
    }
    /// Of the tune, with which it begins: what was asked for. Sections with a tempo of their own
    /// stand to it as they do in the chart.
    [[nodiscard]] time::Bpm tempo() const;
    /// Of the tune as a whole, at that tempo: what a report calls the swing.
    [[nodiscard]] time::Swing swing() const { return swing(tempo()); }
    /// ... and at another one.
    [[nodiscard]] time::Swing swing(time::Bpm tempo) const;

    [[nodiscard]] int count_in_bars() const;
    /// How long before bar 1 it begins.
    [[nodiscard]] time::Ticks count_in() const { return bar(1).meter().bar() * count_in_bars(); }
    [[nodiscard]] time::Seconds lead() const { return -tempi().time_of(-count_in()); }

    /// Where kicks are written, ascending. Of a road map that ends (asserted).
    [[nodiscard]] std::vector<time::Ticks> kicks() const;

    /// The chord changes, in order, with what the tune makes of each. Of a road map that ends
    /// (asserted).
    [[nodiscard]] std::vector<DueChange> changes() const;

  private:
    struct Laid;
    std::shared_ptr<const Laid> laid_;
};

}  // namespace compline::roadmap
