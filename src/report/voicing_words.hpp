#pragma once

#include <compline/guitar/voicing_plan.hpp>

#include <string>
#include <vector>

namespace compline::report {

// What text, JSON and page say alike of voicings.

/// The degree that a tone is to a chord: as the chord has it, else as a comper calls what he adds
/// to it, else as its spelling says.
[[nodiscard]] harmony::Degree degree_in(const harmony::Palette& palette, int pitch_class);

/// "R ♭7 ♭3 5": what each string that sounds has, from the lowest string on.
[[nodiscard]] std::string roles(const guitar::Fretboard& fretboard,
                                const guitar::PlannedVoicing& voicing);

/// What the fingers do, in few words, the guide fingers first: "1 stays on string 3", "2 and 3
/// slide up 1", "4 lifts". "all slide up 2" when the whole grip does; "the same grip" when nothing
/// moves. Up is towards the bridge.
[[nodiscard]] std::vector<std::string> finger_words(const guitar::Move& move);

/// "top voice B → B♭", each as its own chord spells it.
[[nodiscard]] std::string top_voice_words(const guitar::Move& move, const harmony::Palette& from,
                                          const harmony::Palette& to);

/// "bar 4", "bar 4 beat 3".
[[nodiscard]] std::string place_words(const roadmap::DueChange& change);

/// The open strings from the lowest on as players say them, the capo taken off: "E2", "B♭1".
[[nodiscard]] std::vector<std::string> tuning_names(const guitar::Fretboard& fretboard,
                                                    harmony::Accidentals accidentals);

/// The shape of a chord that the player thinks of behind a capo; none without one. `bar`: where it
/// stands.
[[nodiscard]] std::optional<harmony::Chord> shape_behind_capo(const harmony::Chord& chord,
                                                              const chart::FormBar& bar,
                                                              const guitar::Fretboard& fretboard);
/// "F7", with a capo "F7 [E♭7]".
[[nodiscard]] std::string symbol_and_shape(const harmony::Chord& chord, const chart::FormBar& bar,
                                           const guitar::Fretboard& fretboard);

/// "tuning D2 A2 D3 G3 B3 E4, capo 2"; empty for the usual six strings.
[[nodiscard]] std::string guitar_words(const guitar::Fretboard& fretboard);

}  // namespace compline::report
