#pragma once

#include <compline/assess/assessment.hpp>
#include <compline/simulate/played.hpp>

#include <optional>
#include <string>
#include <vector>

namespace compline::measure {

// What the judge says of a change, beside what was done there.

struct Compared {
    /// How far off the landing was said to be, of one that is measured from a beat.
    std::optional<double> error_ms;
    bool alarm = false;     ///< something is held against it
    bool own_word = false;  ///< how it landed is said in the word that was meant
    bool strum = false;     ///< and of the strum that was meant
    bool named = false;     ///< a mistake: exactly this one
};

/// `strings_known`: it was heard with a channel per string.
[[nodiscard]] Compared compare(const simulate::PlayedChange& done, const assess::Change& said,
                               const roadmap::RoadMap& map, bool strings_known);

/// How it landed, as a report says it.
[[nodiscard]] std::string verdict_of(const assess::Change& change);

/// All that the judge says of a change, in a line.
[[nodiscard]] std::string in_words(const assess::Change& change);

/// The judged change of each played one: due at the same time. Null where it was not judged.
[[nodiscard]] std::vector<const assess::Change*> judged_of(
    const std::vector<simulate::PlayedChange>& done, const assess::Assessment& assessment,
    const roadmap::RoadMap& map);

}  // namespace compline::measure
