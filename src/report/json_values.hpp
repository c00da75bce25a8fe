#pragma once

#include <compline/harmony/pitch.hpp>
#include <compline/time/units.hpp>

#include <nlohmann/json.hpp>

#include <cmath>
#include <optional>
#include <string>
#include <vector>

namespace compline::report {

// Values as reports have them.

using Json = nlohmann::ordered_json;

/// Accidentals in JSON: programs read them.
inline constexpr auto as_letters = harmony::Accidentals::letters;

inline Json text_or_null(const std::string& text) {
    return text.empty() ? Json(nullptr) : Json(text);
}

/// Three decimals, and no negative zero.
inline double rounded(double value) { return std::round(value * 1000) / 1000 + 0.0; }

inline Json milliseconds(const std::optional<time::Seconds>& value) {
    if (!value) return nullptr;
    return rounded(value->milliseconds());
}

inline Json number(const std::optional<double>& value) {
    if (!value) return nullptr;
    return rounded(*value);
}

template <typename T>
Json or_null(const std::optional<T>& value) {
    if (!value) return nullptr;
    return *value;
}

/// A whole number without decimals.
inline Json shortest(double value) {
    if (value == std::floor(value)) return static_cast<int>(value);
    return rounded(value);
}

inline Json beat(time::BeatOfBar value) { return shortest(value.number()); }

template <typename T>
Json list_json(const std::vector<T>& items, Json (*json_of)(const T&)) {
    Json json = Json::array();
    for (const T& item : items) json.push_back(json_of(item));
    return json;
}

}  // namespace compline::report
