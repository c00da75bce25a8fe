#pragma once

#include <compline/report/now_playing.hpp>

#include <optional>
#include <string>
#include <vector>

namespace compline::report {

/// Where we are, told in lines and not drawn: for a screen reader, which reads what is printed, and
/// for whoever keeps it in a file. A line as a section begins and as a time through does:
///
///     count-in, 132 bpm, first F7
///     section A, bar 1, 1st time through, 132 bpm, F7
///     section B, bar 9, 1st time through, 132 bpm, Cm7
///
/// and one for what the player has decided: "126.7 bpm", "loop 9-12", "whole tune", "drums out",
/// "drums in", "pause", "no slower". Nothing of beats, which are heard.
class PlaceTeller {
  public:
    /// What is new at a position, since it was asked last.
    [[nodiscard]] std::vector<std::string> news(const ChartRows& rows, const Playing& playing,
                                                time::Ticks position);

    /// Another take begins: all is new.
    void start_over();

  private:
    struct PlaceTold {
        int time_through = 0;
        std::string section;
        int occurrence = 0;
        bool before = false;
        bool over = false;
        bool operator==(const PlaceTold&) const = default;
    };

    std::optional<PlaceTold> where_;
    std::optional<Decided> decided_;
};

}  // namespace compline::report
