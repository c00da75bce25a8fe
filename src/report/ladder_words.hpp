#pragma once

#include <compline/practice/ladder.hpp>

#include <string>

namespace compline::report {

/// What a ladder came to: a sentence, "The ladder: from 96 to 112 of 132, 112 not yet clean", and a
/// row for each tempo: times through, how many of them were clean, and the best of them. `most`:
/// rows that there is room for; of more the slow ones share the first.
[[nodiscard]] std::string ladder_text(const practice::LadderCourse& course, std::size_t most,
                                      listen::HeardBy heard_by);

}  // namespace compline::report
