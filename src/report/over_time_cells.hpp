#pragma once

#include <compline/practice/over_time.hpp>

#include <cstddef>
#include <span>
#include <string>

namespace compline::report {

// What stands in a column of a table over time, which is of one evening or of several in a row.

using EveningsInColumn = std::span<const practice::PlayedEvening>;

/// "3 Nov", "to 12 Nov"; of a take without a date its name, of several their number.
[[nodiscard]] std::string day_cell(EveningsInColumn evenings);
/// "2026", of a date.
[[nodiscard]] std::string year_of(const std::string& date);
/// "96", "96-132", "free".
[[nodiscard]] std::string tempo_cell(EveningsInColumn evenings);
/// "F", "several".
[[nodiscard]] std::string key_cell(EveningsInColumn evenings);
/// How much of all was right: "91 %".
[[nodiscard]] std::string all_cell(EveningsInColumn evenings);
/// How a place went on the evenings `from` to before `to`: "right", "75 %", "late", "laid out"; "-"
/// where it was not played.
[[nodiscard]] std::string place_cell(const practice::PlaceOverTime& place, std::size_t from,
                                     std::size_t to, bool time_alone);

}  // namespace compline::report
