#pragma once

#include <compline/time/units.hpp>

#include <array>
#include <cassert>
#include <cstddef>
#include <initializer_list>

namespace compline::time {

/// How a bar is counted: how many beats it has, which note a beat is, and how the beats group. A
/// group begins with weight: 4/4 is two and two (1 and 3), five is three and two, six twice three
/// (1 and 4); 3/4 is one group. (Common practice, no source.)
///
/// Charts have 3/4 to 6/4; tempi count quarter notes whatever the beat is.
class Meter {
  public:
    static constexpr std::size_t most_groups = 8;

    /// Quarter notes, grouped as is usual.
    constexpr explicit Meter(int beats) : beats_(beats) {
        const int group = beats == 4 ? 2 : 3;
        for (int left = beats; left > 0; left -= group) add_group(left < group ? left : group);
    }
    /// The groups add up to a bar (asserted): {2, Ticks(1440), {1, 1}} is 6/8.
    constexpr Meter(Ticks beat, std::initializer_list<int> groups) : beats_(0), beat_(beat) {
        for (const int group : groups) {
            add_group(group);
            beats_ += group;
        }
    }

    [[nodiscard]] constexpr int beats() const { return beats_; }
    [[nodiscard]] constexpr Ticks beat() const { return beat_; }
    [[nodiscard]] constexpr Ticks bar() const { return beat_ * beats_; }

    /// Whether a beat of the bar, from 0, begins a group and so carries weight.
    [[nodiscard]] constexpr bool is_strong(int beat) const {
        int start = 0;
        for (const int group : groups_) {
            if (group == 0) break;
            if (beat == start) return true;
            start += group;
        }
        return false;
    }

    /// As it is written, 6 over 8: a beat that three eighths make is written as these.
    struct WrittenMeter {
        int above;
        int below;
    };
    [[nodiscard]] constexpr WrittenMeter written() const {
        constexpr int quarters_of_whole = 4;
        const auto whole = quarter_note * quarters_of_whole;
        if (whole % beat_ == Ticks(0)) return {beats_, static_cast<int>(whole / beat_)};
        const Ticks third(beat_.count() / 3);
        return {beats_ * 3, static_cast<int>(whole / third)};
    }

    auto operator<=>(const Meter&) const = default;

  private:
    constexpr void add_group(int beats) {
        assert(count_ < most_groups && beats > 0);
        groups_[count_++] = beats;
    }

    int beats_;
    Ticks beat_ = quarter_note;
    std::array<int, most_groups> groups_{};
    std::size_t count_ = 0;
};

}  // namespace compline::time
