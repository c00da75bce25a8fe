#pragma once

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
};

/// The chords of the lead-in: "Gm7 C7".
[[nodiscard]] std::string lead_in_chords(const chart::Form& form);

/// All bars of a form, the coda last.
[[nodiscard]] std::vector<BarAsWritten> as_written(const chart::Form& form);

/// What a section has of its own: "in D, 6/8, 144 bpm, half-time"; empty when nothing.
[[nodiscard]] std::string own_words(const chart::Form& form, int number);

}  // namespace compline::report
