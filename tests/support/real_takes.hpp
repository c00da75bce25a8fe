#pragma once

#include <compline/assess/assessment.hpp>
#include <compline/listen/note.hpp>

#include <string>
#include <vector>

namespace compline::tests {

// Two takes by real guitarists through a six-way pickup, annotated note by note (GuitarSet, Xi et
// al., ISMIR 2018). Names for outside_data().

inline constexpr const char* take_of_single_strings = "hexaphonic-takes/00_BN1-129-Eb_comp.json";
/// Four-string voicings on every one of 16 changes.
inline constexpr const char* take_of_voicings = "hexaphonic-takes/03_BN3-119-G_comp.json";

/// The notes of a take from its file, with string and fret, in order of onset.
std::vector<listen::Note> annotated_notes(const std::string& path);

// Notes judged by what the player was told to play.
assess::Assessment judge_single_strings(const std::vector<listen::Note>& notes);
assess::Assessment judge_voicings(const std::vector<listen::Note>& notes);

}  // namespace compline::tests
