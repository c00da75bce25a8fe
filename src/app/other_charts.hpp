#pragma once

#include <compline/practice/offers.hpp>

#include <string>
#include <vector>

namespace compline::app {

/// The charts in the folder of a chart, without that one, in order of their names: the first 200.
/// What is no chart, or a wrong one, is passed over.
[[nodiscard]] std::vector<practice::OtherChart> charts_beside(const std::string& chart);

}  // namespace compline::app
