#pragma once

#include <compline/chart/form.hpp>

#include <vector>

namespace compline::tests {

/// All charts of charts/, in order of their file names.
std::vector<chart::Form> our_forms();

}  // namespace compline::tests
