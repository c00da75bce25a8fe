#pragma once

#include <compline/chart/manner.hpp>
#include <compline/text/bad_input.hpp>

#include <optional>
#include <stdexcept>
#include <string_view>

namespace compline::chart {

// The words for how a tune is played, read from a chart, a road map or an option: one reading, and
// one wording of what is wrong.

/// What is asked of the bass: how it plays, and that it plays no skip notes and no dead ones.
struct BassWish {
    std::optional<Bass> bass;
    bool plain = false;
};

// Each throws text::BadInput. Capitals do not count in names.

[[nodiscard]] Feel read_feel_name(std::string_view text);
[[nodiscard]] Drums read_drums_name(std::string_view text);
[[nodiscard]] Phrasing read_phrasing_name(std::string_view text);

/// "walking", "walking plain", "plain": the name of a way to play, with `plain` beside it or alone,
/// blanks or commas between. Roots alone and nothing at all are plain already: refused.
[[nodiscard]] BassWish read_bass_wish(std::string_view text);

/// The long part of a beat over its short one, 1 to 3: "2:1", "1.8", or "62%", which is the long
/// note's share of the beat (50% to 75%). "auto" is none: by tempo.
[[nodiscard]] std::optional<double> read_swing_ratio(std::string_view text);

}  // namespace compline::chart
