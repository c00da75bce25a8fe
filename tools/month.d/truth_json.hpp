#pragma once

#include "month.hpp"

#include <nlohmann/json_fwd.hpp>

#include <string>

namespace compline::month {

// FOLDER/truth.json: what each pupil is, and what each evening and take was meant to be. Nothing of
// it comes from a judge.

[[nodiscard]] nlohmann::ordered_json truth_of(const Pupil& pupil);
[[nodiscard]] nlohmann::ordered_json truth_of(const PupilsEvening& evening);
/// `file`: the take's, in FOLDER/takes.
[[nodiscard]] nlohmann::ordered_json truth_of(const DatedTake& take, const std::string& file);

}  // namespace compline::month
