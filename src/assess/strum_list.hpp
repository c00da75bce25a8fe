#pragma once

#include "judge.hpp"

#include <vector>

namespace compline::assess {

/// Every strum with where it stands in the music and what it was read as; those before the first
/// beat and after the last are left out. read_as: one a strum.
[[nodiscard]] std::vector<ReadStrum> list_strums(const Evidence& evidence,
                                                 const std::vector<Change>& changes,
                                                 const std::vector<ReadAs>& read_as);

}  // namespace compline::assess
