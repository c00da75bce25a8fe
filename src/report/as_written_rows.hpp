#pragma once

#include <compline/chart/form.hpp>

#include <functional>
#include <vector>

namespace compline::report {

/// Whether bars that come again are played as the earlier ones are, so that they may be written
/// once. Both are of the same section and the same length.
using PlayedAlike = std::function<bool(chart::Passage earlier, chart::Passage again)>;

/// Playings of one section in a row that are written once, endings apart.
struct WrittenRow {
    std::vector<chart::Passage> playings;
    int first_time = 1;        ///< of the section in a row, as the form has it
    bool comes_again = false;  ///< in the form, there and then
};

/// The rows of a passage. The coda is a row of its own; so is each playing where the passage has
/// not all that the form repeats, and one that is not played as those before it.
[[nodiscard]] std::vector<WrittenRow> written_rows(const chart::Form& form, chart::Passage passage,
                                                   const PlayedAlike& alike);

}  // namespace compline::report
