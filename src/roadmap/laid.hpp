#pragma once

#include <compline/roadmap/road_map.hpp>
#include <compline/time/swing_changes.hpp>

#include <cstdint>
#include <optional>
#include <vector>

namespace compline::roadmap {

/// A road map laid out: worked out once, when it is made, and only asked from then on.
struct RoadMap::Laid {
    /// Who lays out from a bar on.
    struct LaidOut {
        std::int64_t from_bar = 1;
        WhoPlays who;
    };
    struct Wait {
        std::int64_t number = 1;
        int time_through = 1;  ///< the one before it
        time::Ticks start;
        chart::FormBar written;  ///< a bar of no form
    };
    /// Of the tune, from a bar on; sections stand to it as they do in the chart.
    struct TempoFrom {
        std::int64_t from_bar = 1;
        time::Bpm tempo{120};
    };
    /// What was asked, or decided in its place, from a time through on.
    struct WayFrom {
        int from = 1;
        bool has_heads = false;
    };

    Laid(chart::Form played, Asked wishes, std::vector<Decision> since);

    chart::Form form;
    Asked asked;
    std::vector<Decision> decided;
    chart::Way way;  ///< as it is played
    // Of each stretch that is listed, and of what follows them.
    std::vector<std::int64_t> first_bars;
    std::vector<time::Ticks> starts;
    std::vector<WayFrom> ways;  ///< in order, one at least; of two from the same on the later
    std::vector<Wait> waits;    ///< in order
    std::vector<TempoFrom> asked_tempi;           ///< of the tune, in order, one at least
    time::TempoMap tempi;                         ///< as it is played, section by section
    time::Swing swing = time::Swing::straight();  ///< of the tune as a whole, at first
    time::SwingChanges swings;
    std::vector<LaidOut> laid_out;  ///< by decision, in order

    [[nodiscard]] std::int64_t first_bar(int time_through) const;
    [[nodiscard]] time::Ticks start(int time_through) const;
    [[nodiscard]] int time_through_of(std::int64_t bar) const;
    [[nodiscard]] int time_through_at(time::Ticks position) const;
    /// In which a position lies; none outside of waits.
    [[nodiscard]] const Wait* wait_around(time::Ticks position) const;
    [[nodiscard]] PlayedBar bar(int time_through, std::int64_t number) const;
    [[nodiscard]] std::optional<std::int64_t> bars() const;
    [[nodiscard]] time::Swing swing_of(const chart::AskedManner& asked_for, time::Bpm tempo,
                                       time::Ticks unit = time::quarter_note) const;
    [[nodiscard]] time::Swing tune_swing(time::Bpm tempo) const;  ///< as a whole

  private:
    struct Decide;

    void decide(const Decision& decision);
    void go_on_with(const chart::Way& then);
    void end_before(std::int64_t bar);
    void list_times_through(int count);
    void lay_out(std::int64_t from_bar, const LaysOut& who);
    /// Where the way goes on, the last bar of what then comes again, and before it as many bars as
    /// come again.
    struct Loop {
        std::int64_t from = 1;
        std::int64_t to = 1;  ///< one beyond
    };
    [[nodiscard]] Loop loop() const;
    void lay_tempi();
    void lay_swing();
    [[nodiscard]] bool keeps_one_tempo() const;
    [[nodiscard]] time::Bpm asked_tempo(std::int64_t bar) const;
    [[nodiscard]] time::Ticks start_of_bar(std::int64_t number) const;
    [[nodiscard]] const Wait* wait_at(std::int64_t number) const;
    [[nodiscard]] PlayedBar bar(const Wait& wait) const;
    [[nodiscard]] chart::AskedManner manner(int time_through, int bar) const;
    [[nodiscard]] bool is_seam(int time_through) const;
    [[nodiscard]] WhoPlays on(const chart::AskedManner& asked_for, int time_through) const;
    [[nodiscard]] WhoPlays left_out(int time_through, std::int64_t number) const;
    [[nodiscard]] WhoPlays decided_out(std::int64_t number) const;
};

/// Throws text::BadInput for what no band could play; see RoadMap.
void refuse_impossible(const chart::Form& form, const Asked& asked);

/// The same of decisions, one after the other.
class DecisionCheck {
  public:
    explicit DecisionCheck(const chart::Form& form) : form_(form) {}

    /// bars: of the road map as the decisions before have left it; none: until stopped.
    void check(const Decision& decision, std::optional<std::int64_t> bars);

  private:
    enum class DecidedSoFar { playing, paused, stopped };

    void check_bar(const Decision& decision, std::optional<std::int64_t> bars) const;
    static void check_paused(const Decision& decision, std::int64_t paused_from);

    const chart::Form& form_;
    DecidedSoFar state_ = DecidedSoFar::playing;
    std::int64_t earliest_ = 1;  ///< the first bar that can still be decided about
};

}  // namespace compline::roadmap
