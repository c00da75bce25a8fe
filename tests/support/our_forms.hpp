#pragma once

#include <compline/chart/form.hpp>

#include <vector>

namespace compline::tests {

/// The charts of charts/ whose bars are all in one meter, tempo and key, in order of their file
/// names: what most rules of a band are counted over.
std::vector<chart::Form> our_forms();

/// All charts of charts/, in order of their file names.
std::vector<chart::Form> all_our_forms();

}  // namespace compline::tests
