#pragma once

#include <compline/band/walk.hpp>

#include <algorithm>
#include <array>
#include <cstddef>
#include <vector>

namespace compline::band {

/// The pitch classes that a place may be, each with its cost and the ways on and in; of two wishes
/// for one of them the cheaper stands.
class Pitches {
  public:
    void allow(int pitch_class, int cost, Reach reach = anywhere, Reach from = anywhere) {
        const auto i = static_cast<std::size_t>((pitch_class % 12 + 12) % 12);
        if (allowed_[i] && cost_[i] <= cost) return;
        allowed_[i] = true;
        cost_[i] = cost;
        reach_[i] = reach;
        from_[i] = from;
    }

    /// The notes between two, both included, that the bass has.
    template <typename CostOf>
    [[nodiscard]] std::vector<Choice> notes(int low, int high, CostOf cost_of) const {
        std::vector<Choice> choices;
        choices.reserve(16);
        low = std::max(low, lowest_bass.number());
        high = std::min(high, highest_bass.number());
        for (int note = low; note <= high; ++note) {
            const auto i = static_cast<std::size_t>(note % 12);
            if (!allowed_[i]) continue;
            choices.push_back(
                {harmony::MidiNote(note), cost_[i] + cost_of(note), reach_[i], from_[i]});
        }
        return choices;
    }

  private:
    std::array<bool, 12> allowed_{};
    std::array<int, 12> cost_{};
    std::array<Reach, 12> reach_{};
    std::array<Reach, 12> from_{};
};

}  // namespace compline::band
