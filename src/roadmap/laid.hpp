#pragma once

#include <compline/roadmap/road_map.hpp>
#include <compline/time/swing_changes.hpp>

#include <string_view>
#include <vector>

namespace compline::roadmap {

/// A road map laid out: worked out once, when it is made, and only asked from then on.
struct RoadMap::Laid {
    Laid(chart::Form played, Asked wishes, std::vector<Decision> since);

    chart::Form form;
    Asked asked;
    std::vector<Decision> decided;
    chart::Way way;
    // Of each stretch that is listed, and of what follows them.
    std::vector<std::int64_t> first_bars;
    std::vector<time::Ticks> starts;
    time::TempoMap tempi;
    time::Swing swing = time::Swing::straight();  ///< of the tune as a whole, at first
    time::SwingChanges swings;
    std::vector<Decision> alone;  ///< those that leave the player alone, or come back
    bool has_heads = false;

    [[nodiscard]] std::int64_t first_bar(int time_through) const;
    [[nodiscard]] time::Ticks start(int time_through) const;
    [[nodiscard]] int time_through_of(std::int64_t bar) const;
    [[nodiscard]] int time_through_at(time::Ticks position) const;
    [[nodiscard]] PlayedBar bar(int time_through, std::int64_t number) const;
    [[nodiscard]] std::optional<std::int64_t> bars() const;
    [[nodiscard]] time::Swing tune_swing(time::Bpm tempo) const;  ///< as a whole

  private:
    void lay_way();
    void stop_before(std::int64_t bar);
    void lay_time();
    void lay_swing();
    [[nodiscard]] time::Swing swing_of(const chart::AskedManner& manner, time::Bpm tempo) const;
    [[nodiscard]] chart::AskedManner manner(int time_through, int bar) const;
    [[nodiscard]] bool is_seam(int time_through) const;
    [[nodiscard]] WhoPlays on(const chart::AskedManner& manner, int time_through) const;
    [[nodiscard]] WhoPlays left_out(int time_through, std::int64_t number) const;
};

/// Throws text::BadInput for what no band could play; see RoadMap.
void refuse_impossible(const chart::Form& form, const Asked& asked,
                       const std::vector<Decision>& decided);

}  // namespace compline::roadmap
