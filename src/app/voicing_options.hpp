#pragma once

#include "command.hpp"
#include "guitar_options.hpp"

#include <compline/guitar/voicing_plan.hpp>

#include <string>
#include <vector>

namespace compline::app {

/// What a player may ask of voicings. What needs the guitar to be understood is kept as given;
/// empty: not asked.
struct VoicingOptions {
    guitar::VoicingWishes wishes;
    AsGiven strings;
    AsGiven near_fret;
    GuitarOptions guitar;
};

/// As a command has them.
[[nodiscard]] std::vector<Option> options_of(VoicingOptions& options);
/// The same without those of the guitar.
[[nodiscard]] std::vector<Option> wishes_of(VoicingOptions& options);

/// A guitar, and what is wished of the voicings on it.
struct GuitarAndWishes {
    guitar::Fretboard fretboard = guitar::Fretboard::standard();
    guitar::VoicingWishes wishes;
};

/// Reads them all. Throws BadInput.
[[nodiscard]] GuitarAndWishes read_voicings(const VoicingOptions& options);

/// The same in one text, for commands that are about something else: a style, and `option=value`
/// with the options' names, words alone for those without a value: "shells near=5 strings=5432
/// open". `usual`: what holds where they say nothing. Throws BadInput naming `option`.
[[nodiscard]] GuitarAndWishes read_voicings(const std::string& option, const std::string& words,
                                            const VoicingOptions& usual = {});
/// The same of options, for a guitar that is known already.
[[nodiscard]] GuitarAndWishes read_voicings_on(guitar::Fretboard fretboard,
                                               const VoicingOptions& options);
/// And in one text. Words that describe another one are refused where
/// they were `typed`, else their guitar is left out of account.
[[nodiscard]] GuitarAndWishes read_voicings_on(const guitar::Fretboard& fretboard,
                                               const std::string& option, const std::string& words,
                                               const VoicingOptions& usual, bool typed);

}  // namespace compline::app
