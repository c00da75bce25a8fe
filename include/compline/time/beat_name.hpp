#pragma once

#include <compline/time/meter.hpp>
#include <compline/time/units.hpp>

#include <optional>
#include <string>
#include <string_view>

namespace compline::time {

/// "1", or "2&" for the off-beat after 2, of a place in the bar; as Meter::counted() counts.
[[nodiscard]] std::string beat_name(Ticks in_bar, Meter meter = Meter(4));

/// The place of a beat named so; nothing where a bar of the meter has no such beat.
[[nodiscard]] std::optional<Ticks> find_beat(std::string_view name, Meter meter);

}  // namespace compline::time
