#pragma once

#include <compline/chart/chart.hpp>
#include <compline/text/bad_input.hpp>
#include <compline/yaml/map_reader.hpp>

#include <string>
#include <string_view>

namespace compline::chart {

/// The keys `feel`, `drums`, `bass` and `phrasing` of a chart or a section; what is wrong in them
/// is reported.
[[nodiscard]] AskedManner read_manner(const yaml::MapReader& map);
/// The same without `feel`, which a section reads otherwise.
[[nodiscard]] AskedManner read_manner_but_feel(const yaml::MapReader& map);

// The values of a chart's keys. Each throws text::BadInput.

/// Any printable text of 1 to 200 characters.
[[nodiscard]] std::string read_title(std::string_view text);

/// "F", "E♭ major", "Cm", "F# minor".
[[nodiscard]] Key read_key(std::string_view text);

/// "4/4", "2/2", "6/8" ...: what time::Meter::find() finds.
[[nodiscard]] time::Meter read_meter(std::string_view text);

/// 30 to 400 quarter notes a minute, decimals allowed.
[[nodiscard]] time::Bpm read_tempo(std::string_view text);

/// A rehearsal letter or the like: begins with a letter, then letters, digits, blanks and any of
/// _ - . ' up to 32 characters. `:` and `#` name bars of a section and cannot be part of its name.
[[nodiscard]] std::string read_section_name(std::string_view text);

}  // namespace compline::chart
