#pragma once

#include "json_value.hpp"

#include <compline/practice/take.hpp>

namespace compline::practice {

/// What a take of "compline.take/1" says of its making; no such take is written any more. Of the
/// band it has a list of the bars in which it was silent, which become decisions. Throws
/// text::BadInput.
[[nodiscard]] TakeInfo read_info_1(const JsonValue& json);

// What both versions say alike.
[[nodiscard]] assess::Settings read_settings(const JsonValue& json);
[[nodiscard]] listen::Delay read_delay(const JsonValue& json);
[[nodiscard]] std::string read_pickup_words(const JsonValue& json);
[[nodiscard]] Machine read_machine(const JsonValue& json);

}  // namespace compline::practice
