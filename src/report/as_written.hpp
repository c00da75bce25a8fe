#pragma once

#include "as_written_rows.hpp"

#include <compline/chart/form.hpp>

#include <string>
#include <vector>

namespace compline::report {

/// A bar of the form as a copyist writes it: what comes again stands there once.
struct BarAsWritten {
    int number = 1;  ///< in the form, as it is played first
    bool begins_section = false;
    bool begins_repeat = false;  ///< a repeat sign before it
    bool ends_repeat = false;    ///< ... and behind it
    int times = 1;               ///< of what is repeated, where no endings say how often
    std::string ending;          ///< "1.", "1.-3.": it begins that ending
    bool in_ending = false;
    bool segno = false;      ///< D.S. goes back to it
    bool to_coda = false;    ///< behind it al coda leaves; of a bar that comes again, where that
    bool fine = false;       ///< is written; so is the fine
    bool ends_part = false;  ///< of a section, or of all before the coda
    bool begins_coda = false;
    std::string own;  ///< what is its section's own, or the chart's again, where it begins
    std::string cue;  ///< words over it, those of later times too: "2nd time: drums alone"
};

/// The chords of the lead-in: "Gm7 C7".
[[nodiscard]] std::string lead_in_chords(const chart::Form& form);

/// All bars of a form, the coda last.
[[nodiscard]] std::vector<BarAsWritten> as_written(const chart::Form& form);

/// The bars of a passage where what comes again is written once only if it is played alike.
[[nodiscard]] std::vector<BarAsWritten> as_written(const chart::Form& form, chart::Passage passage,
                                                   const PlayedAlike& alike);

/// The number of the bar that is written for bar `number`: that one, or as it is played first.
[[nodiscard]] int where_written(const chart::Form& form, const std::vector<BarAsWritten>& written,
                                int number);

}  // namespace compline::report
