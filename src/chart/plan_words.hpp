#pragma once

#include "plan_part.hpp"

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace compline::chart {

/// A word of a plan and where it stands, in bytes.
struct PlanWord {
    std::string_view text;
    std::size_t position = 0;
};

/// The words from one byte of a plan to another; `between`: the characters that separate them.
[[nodiscard]] std::vector<PlanWord> plan_words(std::string_view plan, std::size_t from,
                                               std::size_t to, std::string_view between);

/// How a word of style is written in a plan: "walking", "drums=brushes", "feel=bossa"; empty when
/// it is none. Capitals do not count; `off` says too little to be one.
[[nodiscard]] std::string as_written_in_plan(std::string_view word);

/// Reads what stands behind the colon of a part, up to byte `to`. Throws PlanError.
void read_style_of_part(const Form& form, std::string_view plan, std::size_t from, std::size_t to,
                        PlanPart& part);

}  // namespace compline::chart
