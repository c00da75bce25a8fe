#pragma once

#include "folder_tunes.hpp"

#include <compline/report/over_time.hpp>

#include <string>
#include <vector>

namespace compline::app {

// What the two ways of `compare` share: two takes, or a folder over time.

struct CompareOptions {
    std::vector<std::string> takes;
    JudgingOptions judging;
    std::string tune;
    bool all = false;
    bool json = false;
    std::vector<std::string> words;  ///< that were typed behind `compline`

    [[nodiscard]] report::Listing listing() const {
        return all ? report::Listing::all : report::Listing::one_screen;
    }
};

/// The one that is asked for, else the first. Throws BadInput where it is not among them.
[[nodiscard]] const TuneOfTakes& chosen_tune(const std::vector<TuneOfTakes>& tunes,
                                             const TuneFinder& finder,
                                             const CompareOptions& options);

/// The others, each with the line that was typed, but for that tune.
[[nodiscard]] std::vector<report::OtherTune> other_tunes(const std::vector<TuneOfTakes>& tunes,
                                                         const TuneOfTakes& shown,
                                                         const CompareOptions& options);

/// Where no take of the tune could be judged.
[[nodiscard]] BadInput nothing_to_compare(const std::string& folder, const TuneOfTakes& tune);

/// A folder by itself. Throws BadInput.
[[nodiscard]] Status compare_over_time(const CompareOptions& options);

}  // namespace compline::app
