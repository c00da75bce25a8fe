#pragma once

#include "delay_model.hpp"

#include <optional>
#include <vector>

namespace compline::practice {

/// Rows that belong together, and those too far off.
struct SiftedRows {
    std::vector<DelayRow> rows;
    int left_out = 0;
    double spread_ms = 0;          ///< of all rows around the fit, by the median deviation
    double sd_ms = 0;              ///< of those that stay
    std::optional<DelayFit> each;  ///< of those that stay, each string with its own constant
};

/// Each string has a constant of its own, all have one number of cycles: what lies beyond four
/// standard deviations of that is left out.
[[nodiscard]] SiftedRows sift(const std::vector<DelayRow>& rows, std::size_t strings);

/// What one string differs from those that share the common constant.
struct OwnConstant {
    double ms = 0;
    double error_ms = 0;
    [[nodiscard]] bool is_sure() const;
};

/// The fit in which only strings that differ for sure have a constant of their own; nothing where
/// the rows do not tell constant and cycles apart.
[[nodiscard]] std::optional<DelayFit> fewest_differences(const SiftedRows& sifted,
                                                         std::size_t strings);

/// Of every string, whether it has one in the fit or not; nothing for one that cannot be measured
/// (the last that has the common constant).
[[nodiscard]] std::vector<std::optional<OwnConstant>> own_constants(const SiftedRows& sifted,
                                                                    const DelayFit& chosen,
                                                                    std::size_t strings);

}  // namespace compline::practice
