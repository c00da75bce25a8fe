#pragma once

#include <compline/time/meter.hpp>

namespace compline::band {

/// What hands and a walking bass count a bar in: the quarter, also in 2/2; in half-time the half,
/// in double-time the eighth, in 6/8, 9/8 and 12/8 the dotted quarter. The foot counts beats.
struct BarGrid {
    constexpr explicit BarGrid(const time::Meter& meter)
        : pulse(meter.is_compound() ? meter.beat() : meter.swung()),
          short_note(meter.is_compound() ? pulse.count() / 3 : pulse.count() / 2),
          bar(meter.bar()),
          pulses(static_cast<int>(meter.bar() / pulse)),
          compound(meter.is_compound()) {}

    /// A pulse of the bar, from 0.
    [[nodiscard]] constexpr time::Ticks on(int number) const { return pulse * number; }
    /// The off-beat behind it: the eighth before the next beat.
    [[nodiscard]] constexpr time::Ticks off(int number) const {
        return pulse * (number + 1) - short_note;
    }
    [[nodiscard]] constexpr bool is_on(time::Ticks in_bar) const {
        return in_bar % pulse == time::Ticks(0);
    }

    time::Ticks pulse;
    time::Ticks short_note;  ///< as written, an eighth in most meters
    time::Ticks bar;
    int pulses;
    bool compound;
};

/// Played in two unless somebody asks otherwise: 2/2, as it is written.
[[nodiscard]] constexpr bool is_cut_time(const time::Meter& meter) {
    return !meter.is_compound() && meter.beats() == 2 && meter.beat() != meter.swung();
}

/// Felt twice as fast as it is written.
[[nodiscard]] constexpr bool is_double_time(const time::Meter& meter) {
    return !meter.is_compound() && meter.swung() < time::quarter_note;
}

}  // namespace compline::band
