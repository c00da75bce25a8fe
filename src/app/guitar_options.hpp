#pragma once

#include "option.hpp"

#include <compline/guitar/fretboard.hpp>

#include <string>
#include <vector>

namespace compline::app {

/// The guitar that somebody plays, as given by options, by words or by the settings.
struct GuitarOptions {
    std::string name;  ///< one of those that the settings describe; empty: not asked
    AsGiven tuning;
    AsGiven capo;
    AsGiven frets;
    bool left_handed = false;

    /// Anything of its neck.
    [[nodiscard]] bool asked() const { return !(tuning.empty() && capo.empty() && frets.empty()); }
    /// Somebody said of this evening, beside the settings, what guitar it is.
    [[nodiscard]] bool typed() const {
        return !name.empty() || is_option_name(tuning.name) || is_option_name(capo.name) ||
               is_option_name(frets.name);
    }
};

inline constexpr const char* guitar_option = "--guitar";

/// Which of the described guitars it is.
[[nodiscard]] Option which_guitar(GuitarOptions& options);
/// Its neck.
[[nodiscard]] std::vector<Option> options_of(GuitarOptions& options);
[[nodiscard]] Option left_handed_option(GuitarOptions& options);

/// Throws BadInput.
[[nodiscard]] guitar::Fretboard read_fretboard(const GuitarOptions& options);

}  // namespace compline::app
