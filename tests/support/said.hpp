#pragma once

#include "support/comper.hpp"

#include <fmt/format.h>

#include <cmath>
#include <string>

namespace compline::tests {

// What the judge said, in a line that a failing test can show.

/// What each strum was read as: "landing again old landing".
inline std::string readings(const assess::Assessment& judged) {
    std::string text;
    for (const auto& strum : judged.strums) {
        text += fmt::format("{}{}", text.empty() ? "" : " ", assess::name_of(strum.read_as));
    }
    return text;
}

/// Verdict, milliseconds, and after how many beats of the chord they are counted from: "late +62
/// at 0"; tones where they are not right.
inline std::string said(const assess::Change& change) {
    std::string text(assess::name_of(change.verdict));
    if (change.lateness) {
        // Without the sign of a zero.
        const double ms = std::round(change.lateness->milliseconds()) + 0.0;
        text += fmt::format(" {:+.0f} at {:g}", ms, *change.beats_in);
    }
    if (change.tones != assess::Tones::right && change.tones != assess::Tones::none) {
        text += fmt::format(", {}", assess::name_of(change.tones));
    }
    return text;
}

/// Whether no change costs anything.
inline bool is_clean(const assess::Assessment& judged) {
    for (const auto& change : judged.changes) {
        if (change.cost() > 0) return false;
    }
    return true;
}

}  // namespace compline::tests
