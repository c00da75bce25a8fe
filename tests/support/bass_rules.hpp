#pragma once

#include <compline/band/band.hpp>

#include <string>
#include <vector>

namespace compline::tests {

/// Listens to a bass line as a teacher would, apart from the code that made it, and says what is
/// against the rules of band/bass.hpp, a sentence each.
std::vector<std::string> faults_of(const std::vector<band::BassNote>& line, const chart::Form& form,
                                   chart::Passage passage, int times);

}  // namespace compline::tests
