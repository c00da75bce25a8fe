#pragma once

#include <compline/chart/form.hpp>

#include <string>
#include <vector>

namespace compline::report {

/// What is to be said where a section begins: what it has of its own, "key of D, 6/8, 144 bpm,
/// half-time", and what is the chart's again where one before it had its own: "key of F, 138 bpm".
/// `before`: the bars from which a player comes. Empty when nothing.
[[nodiscard]] std::string section_words(const chart::Form& form, int number,
                                        const std::vector<int>& before);

}  // namespace compline::report
