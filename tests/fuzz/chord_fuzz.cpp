// Any bytes: the chord reader returns a chord or throws text::BadInput with a place inside of the
// symbol. A chord that was read prints, and its printing reads as the same chord.
#include <compline/harmony/palette.hpp>
#include <compline/harmony/quality.hpp>
#include <compline/text/bad_input.hpp>

#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string_view>

namespace {

using namespace compline::harmony;

void require(bool condition) {
    if (!condition) std::abort();
}

void check(const Chord& chord) {
    for (const auto style : {Accidentals::symbols, Accidentals::letters}) {
        const auto printed = chord.symbol(style);
        require(read_chord(printed) == chord);
        require(read_chord(printed).symbol(style) == printed);
    }
    require(!chord_tones(chord).empty());
    PitchClasses written;
    for (const auto& degree : chord_tones(chord)) {
        written.set(static_cast<std::size_t>(spell(chord.root, degree).pitch_class()));
    }
    for (const auto strictness :
         {Strictness::written, Strictness::working, Strictness::substitutions}) {
        const Palette palette(chord, {}, strictness);
        require((palette.foreign(written) & palette.accepted(written)).none());
    }
}

}  // namespace

// libFuzzer calls it by this name. NOLINTNEXTLINE(readability-identifier-naming)
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const std::string_view symbol(reinterpret_cast<const char*>(data), size);
    try {
        check(read_chord(symbol));
    } catch (const compline::text::BadInput& error) {
        require(error.offset().value() <= size);
    }
    return 0;
}
