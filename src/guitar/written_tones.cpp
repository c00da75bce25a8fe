#include "written_tones.hpp"

#include <compline/harmony/quality.hpp>

#include <algorithm>

namespace compline::guitar {

WrittenTones::WrittenTones(const harmony::Chord& chord) {
    const auto tones = harmony::chord_tones(chord);
    const auto highest = std::max_element(
        tones.begin(), tones.end(),
        [](const auto& one, const auto& other) { return one.number < other.number; });
    const bool suspended = harmony::is_suspended(chord);
    for (const auto& tone : tones) {
        const auto at =
            static_cast<std::size_t>((chord.root.pitch_class() + tone.pitch_class()) % 12);
        all.set(at);
        const bool asked = tone.alteration != 0 || tone.number == highest->number;
        if ((tone.number >= 9 && asked) || tone.number == 6) tensions.set(at);
        if (tone.number == 3 || (suspended && (tone.number == 4 || tone.number == 2))) {
            thirds.set(at);
        }
        if (tone.number == 6 || tone.number == 7) sevenths.set(at);
        if (tone.number == 5 && tone.alteration != 0) altered_fifths.set(at);
    }
}

}  // namespace compline::guitar
