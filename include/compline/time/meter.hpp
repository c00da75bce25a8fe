#pragma once

#include <compline/time/units.hpp>

#include <array>
#include <cassert>
#include <cstddef>
#include <initializer_list>
#include <optional>

namespace compline::time {

/// How a bar is counted: how many beats it has, which note a beat is, how the beats group, and
/// where swing lies. A beat is what the foot taps: the quarter note in 3/4, the half note in 2/2,
/// three eighths in 6/8. A group begins with weight: 4/4 is two and two (1 and 3), five is three
/// and two, six twice three (1 and 4); 3/4 is one group. (Common practice, no source.)
///
/// Places in a bar are counted in quarters, in 6/8, 9/8 and 12/8 in eighths: the second beat of 2/2
/// is 3, of 6/8 it is 4.
/// Tempi count quarter notes whatever the beat is.
class Meter {
  public:
    static constexpr std::size_t most_groups = 8;

    /// Quarter notes, grouped as is usual.
    constexpr explicit Meter(int beats) : beats_(beats), written_{beats, 4} {
        const int group = beats == 4 ? 2 : 3;
        for (int left = beats; left > 0; left -= group) add_group(left < group ? left : group);
    }
    /// The groups add up to a bar (asserted): {2, Ticks(1440), {1, 1}} is 6/8.
    constexpr Meter(Ticks beat, std::initializer_list<int> groups) : beats_(0), beat_(beat) {
        for (const int group : groups) {
            add_group(group);
            beats_ += group;
        }
        written_ = as_written();
        if (is_compound()) swung_ = Ticks(0);
    }

    /// 2/2, 2/4 to 6/4, 6/8, 9/8 and 12/8: those that charts have. Nothing for others.
    [[nodiscard]] static constexpr std::optional<Meter> find(int above, int below) {
        constexpr Ticks dotted_quarter(1440);
        if (below == 4 && above >= 2 && above <= 6) return Meter(above);
        if (below == 2 && above == 2) return Meter(quarter_note * 2, {1, 1});
        if (below != 8) return std::nullopt;
        if (above == 6) return Meter(dotted_quarter, {1, 1});
        if (above == 9) return Meter(dotted_quarter, {1, 1, 1});
        if (above == 12) return Meter(dotted_quarter, {2, 2});
        return std::nullopt;
    }

    /// The same bar felt half as fast: a beat, and the swing within it, lasts twice as long.
    /// Nothing for a bar that does not halve (3/4, 5/4) and for 6/8, 9/8, 12/8.
    [[nodiscard]] constexpr std::optional<Meter> half_time() const {
        if (is_compound() || beats_ % 2 != 0) return std::nullopt;
        Meter felt = *this;
        felt.felt_in(beat_ * 2, beats_ / 2);
        return felt;
    }
    /// ... and twice as fast. Nothing for 6/4, whose bar is too long, and for 6/8, 9/8, 12/8.
    [[nodiscard]] constexpr std::optional<Meter> double_time() const {
        if (is_compound() || beats_ > 5) return std::nullopt;
        Meter felt = *this;
        felt.felt_in(Ticks(beat_.count() / 2), beats_ * 2);
        return felt;
    }

    [[nodiscard]] constexpr int beats() const { return beats_; }
    [[nodiscard]] constexpr Ticks beat() const { return beat_; }
    [[nodiscard]] constexpr Ticks bar() const { return beat_ * beats_; }

    /// The note whose second half swings: the quarter, also in 2/2; in half-time the half, in
    /// double-time the eighth. 0 in 6/8, 9/8 and 12/8, where nothing does.
    [[nodiscard]] constexpr Ticks swung() const { return swung_; }

    /// A beat is three eighths.
    [[nodiscard]] constexpr bool is_compound() const {
        constexpr auto whole = quarter_note * 4;
        return whole % beat_ != Ticks(0);
    }

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

    /// As it is written, 6 over 8: a beat that three eighths make is written as these. Half-time
    /// and double-time are written as the meter they are felt in.
    struct WrittenMeter {
        int above;
        int below;
        auto operator<=>(const WrittenMeter&) const = default;
    };
    [[nodiscard]] constexpr WrittenMeter written() const { return written_; }

    /// The note that places are counted in.
    [[nodiscard]] constexpr Ticks counted() const {
        return is_compound() ? Ticks(beat_.count() / 3) : quarter_note;
    }

    /// A place in the bar as it is counted, from 1.
    [[nodiscard]] constexpr BeatOfBar beat_of_bar(Ticks in_bar) const {
        return BeatOfBar(1 + static_cast<double>(in_bar.count()) /
                                 static_cast<double>(counted().count()));
    }

    auto operator<=>(const Meter&) const = default;

  private:
    constexpr void add_group(int beats) {
        assert(count_ < most_groups && beats > 0);
        groups_[count_++] = beats;
    }

    constexpr void felt_in(Ticks beat, int beats) {
        swung_ = Ticks(swung_.count() * beat.count() / beat_.count());
        beat_ = beat;
        beats_ = beats;
        groups_ = {};
        count_ = 0;
        for (int left = beats; left > 0; left -= 2) add_group(left < 2 ? left : 2);
    }

    [[nodiscard]] constexpr WrittenMeter as_written() const {
        constexpr auto whole = quarter_note * 4;
        if (!is_compound()) return {beats_, static_cast<int>(whole / beat_)};
        const Ticks third(beat_.count() / 3);
        return {beats_ * 3, static_cast<int>(whole / third)};
    }

    int beats_;
    Ticks beat_ = quarter_note;
    Ticks swung_ = quarter_note;
    std::array<int, most_groups> groups_{};
    std::size_t count_ = 0;
    WrittenMeter written_{4, 4};
};

}  // namespace compline::time
