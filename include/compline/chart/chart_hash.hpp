#pragma once

#include <compline/chart/chart.hpp>

#include <cstdint>
#include <string>
#include <string_view>

namespace compline::chart {

/// 64-bit FNV-1a of bytes (Fowler, Noll, Vo; IETF draft-eastlake-fnv gives the constants).
[[nodiscard]] std::uint64_t fnv1a_64(std::string_view bytes);

/// A name for the musical content of a chart, 16 hexadecimal digits, by which a take knows the
/// chart it was played to. It is made of what judging depends on: meter, key, the unrolled bars
/// with their chords in canonical symbols, kicks, and the feels that sections ask for. Title,
/// tempo, the chart's own feel, drums, bass, road map, voicings, section names and ways of writing
/// the same bars (`%`, slashes, "Bb-7" for "B♭m7") do not count: a take stays valid when they
/// change.
[[nodiscard]] std::string chart_hash(const Chart& chart);

}  // namespace compline::chart
