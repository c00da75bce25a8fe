#include "support/catch.hpp"
#include "support/every_chord.hpp"

#include <compline/harmony/palette.hpp>
#include <compline/harmony/quality.hpp>

#include <string>
#include <vector>

using namespace compline::harmony;
using compline::tests::each_chord_to;

namespace {

PitchClasses notes(const std::string& names) {
    PitchClasses set;
    for (std::size_t at = 0; at < names.size();) {
        std::size_t length = 0;
        const auto spelling = read_spelling(std::string_view(names).substr(at), length);
        if (spelling) set.set(static_cast<std::size_t>(spelling->pitch_class()));
        at += std::max<std::size_t>(length, 1);
    }
    return set;
}

/// "right", "incomplete" or "wrong": what a comper gets for playing these notes on this chord.
std::string verdict(const char* symbol, const std::string& played,
                    Strictness strictness = Strictness::working, const Surroundings& around = {}) {
    const Palette palette(read_chord(symbol), around, strictness);
    if (palette.foreign(notes(played)).any()) return "wrong";
    return palette.missing(notes(played)).empty() ? "right" : "incomplete";
}

PitchClasses sound_of(const Degree& degree) {
    return PitchClasses().set(static_cast<std::size_t>(degree.pitch_class()));
}

constexpr Surroundings falling{.falls = true};
constexpr Surroundings tonic_minor{.tonic_minor = true};
constexpr Surroundings blues{.blues = true};
constexpr Surroundings long_dominant{.two_beats = true};
constexpr Surroundings subdominant{.subdominant = true};

}  // namespace

TEST_CASE("third and seventh make the chord; root and fifth are optional") {
    CHECK(verdict("Dm7", "F C") == "right");
    CHECK(verdict("Dm7", "D F A C") == "right");
    CHECK(verdict("Dm7", "D A C") == "incomplete");
    CHECK(verdict("Dm7", "D F A") == "incomplete");
    CHECK(verdict("G7", "B F") == "right");
    CHECK(verdict("G7", "Bb F") == "wrong");
    CHECK(verdict("Cmaj7", "C E Bb") == "wrong");
    CHECK(verdict("Bm7b5", "D F A") == "right");
    CHECK(verdict("Bm7b5", "D F# A") == "wrong");
    CHECK(verdict("Bm7b5", "D A") == "right");  // a shell leaves the flat fifth out
    CHECK(verdict("C7#5", "E G# Bb") == "right");
    CHECK(verdict("C7#5", "E G Bb") == "wrong");
    CHECK(verdict("C7sus4", "F Bb") == "right");
    CHECK(verdict("C7sus4", "E Bb") == "wrong");
}

TEST_CASE("any three of its four tones make a diminished seventh, also for a bare dim") {
    for (const char* symbol : {"Bdim7", "B°"}) {
        CHECK(verdict(symbol, "B D F") == "right");
        CHECK(verdict(symbol, "D F Ab") == "right");
        CHECK(verdict(symbol, "B D Ab") == "right");
        CHECK(verdict(symbol, "B F") == "incomplete");
        CHECK(verdict(symbol, "B D F A") == "wrong");
    }
}

TEST_CASE("working compers trade sixths, major sevenths and ninths") {
    CHECK(verdict("Cmaj7", "E A") == "right");
    CHECK(verdict("Cmaj7", "C E A D") == "right");
    CHECK(verdict("C6", "E B") == "right");
    CHECK(verdict("C6", "C E G") == "right");
    CHECK(verdict("Cmaj7", "C E G") == "incomplete");
    CHECK(verdict("C", "C E G A") == "right");
    CHECK(verdict("Dm7", "F C E G") == "right");
    CHECK(verdict("Dm7", "F C B") == "wrong");
    CHECK(verdict("Dm7", "F C B", Strictness::working, tonic_minor) == "right");
    CHECK(verdict("G7", "B F A E") == "right");
    CHECK(verdict("C9", "E Bb") == "right");
    CHECK(verdict("C13", "E Bb") == "right");
}

TEST_CASE("taken as written, nothing but the written tones will do") {
    const auto written = Strictness::written;
    CHECK(verdict("Cmaj7", "E B", written) == "right");
    CHECK(verdict("Cmaj7", "E A", written) == "wrong");
    CHECK(verdict("C6", "C E G", written) == "incomplete");
    CHECK(verdict("C9", "E Bb", written) == "incomplete");
    CHECK(verdict("C9", "E Bb D", written) == "right");
    CHECK(verdict("C13", "E Bb A", written) == "right");
    CHECK(verdict("C7", "E Bb D", written) == "wrong");
    CHECK(Palette(read_chord("C7/Bb"), {}, written).required_bass() == 10);
    CHECK(!Palette(read_chord("C7/Bb"), {}, Strictness::working).required_bass().has_value());
}

TEST_CASE("a dominant that falls a fifth takes every alteration") {
    CHECK(verdict("G7", "B F Ab") == "wrong");
    for (const char* tension : {"Ab", "A#", "C#", "Eb"}) {
        CHECK(verdict("G7", std::string("B F ") + tension, Strictness::working, falling) ==
              "right");
    }
    CHECK(verdict("G7", "B D F Ab", Strictness::working, falling) == "right");  // B dim7 over G
    CHECK(verdict("G7", "B F Bb", Strictness::working, blues) == "right");
    CHECK(verdict("G7", "B F Ab", Strictness::working, blues) == "wrong");
    CHECK(verdict("G13", "B F Bb", Strictness::working, blues) == "right");
    CHECK(verdict("G7b9", "B F Bb", Strictness::working, blues) == "wrong");  // no blues tonic
}

TEST_CASE("a sharp ninth without the third is a wrong third") {
    CHECK(verdict("G7", "F Bb", Strictness::working, falling) == "wrong");
    CHECK(verdict("G7", "G D F Bb", Strictness::working, blues) == "wrong");
    CHECK(verdict("G7", "B F Bb", Strictness::working, falling) == "right");
}

TEST_CASE("a written alteration excludes its natural neighbour, and the other way round") {
    CHECK(verdict("C7b9", "E Bb D") == "wrong");
    CHECK(verdict("C7b9", "E Bb Db") == "right");
    CHECK(verdict("C7b9", "E Bb") == "right");
    CHECK(verdict("C9", "E Bb Db", Strictness::working, falling) == "wrong");
    CHECK(verdict("C13", "E Bb Ab", Strictness::working, falling) == "wrong");
    CHECK(verdict("C7#5", "E G# Bb A") == "wrong");
}

TEST_CASE("on a long dominant the fourth may come before the third, not with it") {
    CHECK(verdict("G7", "C F", Strictness::working, long_dominant) == "incomplete");
    CHECK(verdict("G7", "D F A C", Strictness::working, long_dominant) == "incomplete");
    CHECK(verdict("G7", "B C F", Strictness::working, long_dominant) == "wrong");
    CHECK(verdict("G7", "C F") == "wrong");
    const Palette palette(read_chord("G7"), long_dominant, Strictness::working);
    CHECK(palette.missing(notes("C F")).front().name() == "3");
}

TEST_CASE("substitutions admit the tritone substitute, the raised eleventh and fourth chords") {
    const auto loose = Strictness::substitutions;
    CHECK(verdict("G7", "Db F Cb Ab", loose) == "right");
    CHECK(verdict("G7", "Db F Cb Ab") == "wrong");
    // It stands for the whole chord, so that a written ninth does not bar its fifth.
    CHECK(verdict("G9", "Db F Cb Ab", loose) == "right");
    CHECK(verdict("Cmaj7", "E B F#", loose) == "right");
    CHECK(verdict("Cmaj7", "E B F#") == "wrong");
    CHECK(verdict("Dm7", "D G C", loose) == "right");
    CHECK(verdict("Dm7", "D G C") == "incomplete");
}

TEST_CASE("a tone outside a chord is named as the chord would spell it") {
    CHECK(Palette(read_chord("Dm7"), {}, Strictness::working).name(1).name() == "C♯");
    CHECK(Palette(read_chord("Dm7"), {}, Strictness::working).name(5).name() == "F");
    CHECK(Palette(read_chord("Dm7"), {}, Strictness::working).name(6).name() == "F♯");
    CHECK(Palette(read_chord("Ebmaj7"), {}, Strictness::working).name(1).name() == "D♭");
    CHECK(Palette(read_chord("C°"), {}, Strictness::working).name(9).name() == "B𝄫");
    CHECK(Palette(read_chord("C/F#"), {}, Strictness::working).name(6).name() == "F♯");
}

TEST_CASE("alt wants an alteration, any of them, and no plain fifth, ninth or thirteenth") {
    CHECK(verdict("C7alt", "E Bb") == "incomplete");
    for (const char* tension : {"Db", "D#", "F#", "Ab"}) {
        CHECK(verdict("C7alt", std::string("E Bb ") + tension) == "right");
    }
    for (const char* natural : {"G", "D", "A"}) {
        CHECK(verdict("C7alt", std::string("E Bb Ab ") + natural) == "wrong");
    }
    CHECK(verdict("C7alt", "E Bb Ab D#", Strictness::written) == "right");
    CHECK(verdict("C7alt", "F Bb", Strictness::working, long_dominant) == "wrong");
}

TEST_CASE("an altered fifth must sound, alone or on any chord") {
    CHECK(verdict("C7b5", "E Bb") == "incomplete");
    CHECK(verdict("C7b5", "E Bb Gb") == "right");
    CHECK(verdict("C7b5", "E Bb G") == "wrong");
    CHECK(verdict("Cmaj7#5", "E B G#") == "right");
    CHECK(verdict("Cmaj7#5", "E B") == "incomplete");
    CHECK(verdict("Caug", "E G#") == "right");
    CHECK(verdict("C7#11", "E Bb G") == "right");
    CHECK(verdict("C7#11", "E Bb F#") == "right");
    CHECK(verdict("C7#11", "E Bb F", Strictness::working, long_dominant) == "wrong");
}

TEST_CASE("a falling dominant keeps its alterations beside a written one") {
    CHECK(verdict("C7b9", "E Bb Db D#", Strictness::working, falling) == "right");
    CHECK(verdict("C7b9", "E Bb Ab", Strictness::working, falling) == "right");
    CHECK(verdict("C7b9", "E Bb D", Strictness::working, falling) == "wrong");
    CHECK(verdict("C7#5", "E Bb G# Db", Strictness::working, falling) == "right");
    CHECK(verdict("C7b13", "E Bb A", Strictness::working, falling) == "wrong");
    CHECK(verdict("C7sus4", "F Bb Db", Strictness::working, falling) == "wrong");
}

TEST_CASE("sus chords, elevenths and fifths stand without a third") {
    CHECK(verdict("C11", "F Bb D") == "right");
    CHECK(verdict("C11", "E Bb") == "right");
    CHECK(verdict("C11", "Bb D") == "incomplete");
    CHECK(verdict("Csus4", "F Bb D") == "right");  // played as a C9sus4
    CHECK(verdict("Csus2", "D G") == "right");
    CHECK(verdict("Csus2", "E G") == "wrong");
    CHECK(verdict("C5", "C G") == "right");
    CHECK(verdict("C5", "C E G") == "wrong");
    CHECK(verdict("C7(no3)", "C G Bb") == "right");
    CHECK(verdict("C7(no3)", "C E Bb") == "wrong");
    CHECK(Palette(read_chord("C5"), {}, Strictness::working).telling() == notes("G"));
    CHECK(Palette(read_chord("Csus2"), {}, Strictness::working).telling() == notes("D"));
}

TEST_CASE(
    "without its third a chord with a flat fifth is root and flat fifth, never the plain one") {
    CHECK(verdict("C(b5,no3)", "C Gb") == "right");
    CHECK(verdict("C(b5,no3)", "C G") == "wrong");
    CHECK(verdict("C(b5,no3)", "C E Gb") == "wrong");
    CHECK(verdict("C(b5,no3)", "C") == "incomplete");
    CHECK(verdict("C(b5,no3)", "Gb") == "incomplete");
    CHECK(verdict("C5add9", "C G D") == "right");
    CHECK(verdict("C(no3,no5)", "C") == "right");
}

TEST_CASE("a tone that its symbol takes out of a chord is not missed in it") {
    CHECK(verdict("Caug(no5)", "C E") == "right");
    CHECK(verdict("Caug(no5)", "C E G#") == "wrong");
    CHECK(verdict("Cm6b6", "Eb Ab") == "right");
    CHECK(verdict("Cm6b6", "Eb A") == "wrong");
    CHECK(verdict("Cdim7(no5)", "C Eb A") == "right");
    CHECK(verdict("Cdim7(no5)", "C Eb") == "incomplete");
    CHECK(verdict("Cdim(no3)", "C Gb") == "right");
}

TEST_CASE("a bass note stands in for no tone above it that its symbol contradicts") {
    CHECK(verdict("Cmaj7#5/A", "A E G# B") == "right");
    CHECK(verdict("Cmaj7#5/A", "A E G#") == "incomplete");
    CHECK(verdict("C/Bb", "Bb C E G") == "right");
    CHECK(contradicted_tones(read_chord("C/Bb")) == std::vector<Degree>{{3, -1}});
}

TEST_CASE("minor chords: a seventh on a triad, the sixth for the seventh on a tonic") {
    CHECK(verdict("Cm", "Eb Bb") == "right");
    CHECK(verdict("Cm", "Eb A") == "right");
    CHECK(verdict("Cm", "E Bb") == "wrong");
    CHECK(verdict("Cm7", "Eb A", Strictness::working, tonic_minor) == "right");
    CHECK(verdict("Cm(maj7)", "Eb A", Strictness::working, tonic_minor) == "right");
    CHECK(verdict("Cm(maj7)", "Eb A") == "wrong");
    CHECK(verdict("Cm6", "Eb B", Strictness::working, tonic_minor) == "right");
    CHECK(verdict("Cm6", "Eb B") == "wrong");
    CHECK(verdict("Cm(b6)", "Eb Ab") == "right");
    CHECK(verdict("Cm(b6)", "Eb A") == "wrong");
}

TEST_CASE("on a tonic minor the flat seventh stands in for the sixth of a plain Cm6 only") {
    CHECK(verdict("Cm6", "Eb Bb", Strictness::working, tonic_minor) == "right");
    CHECK(verdict("Cm6", "Eb Bb A", Strictness::working, tonic_minor) == "wrong");
    CHECK(verdict("Cm6", "Eb Bb") == "wrong");
    CHECK(verdict("Cm", "Eb Bb", Strictness::working, tonic_minor) == "right");
    CHECK(verdict("Cm6/9", "Eb Bb", Strictness::working, tonic_minor) == "wrong");
    CHECK(verdict("Cm(maj7)", "Eb Bb", Strictness::working, tonic_minor) == "wrong");
    CHECK(verdict("Cm6", "Eb Bb", Strictness::written, tonic_minor) == "wrong");
}

TEST_CASE("an eleventh colours a half-diminished chord") {
    CHECK(verdict("Bm7b5", "D F A E") == "right");
    CHECK(verdict("Bm9b5", "D A E") == "right");
    CHECK(verdict("Bm7b5", "D A C#") == "wrong");
    CHECK(verdict("Bm7b5", "D F A E", Strictness::written) == "wrong");
}

TEST_CASE("whole steps above a diminished seventh's tones colour it beside three of them") {
    for (const char* symbol : {"Bdim7", "B°"}) {
        INFO(symbol);
        CHECK(verdict(symbol, "B D F Ab C#") == "right");
        CHECK(verdict(symbol, "B D F G") == "wrong");  // G7
        CHECK(verdict(symbol, "B D Ab G") == "right");
        CHECK(verdict(symbol, "B D F Bb") == "right");
        CHECK(verdict(symbol, "D F Ab Bb") == "wrong");  // the Bb7 that came before it
        CHECK(verdict(symbol, "D F Ab C#") == "right");
        CHECK(verdict(symbol, "B D F E") == "right");
        CHECK(verdict(symbol, "B D E") == "wrong");
        CHECK(verdict(symbol, "B D F Ab C") == "wrong");
        CHECK(verdict(symbol, "B D F Ab C#", Strictness::written) == "wrong");
    }
}

TEST_CASE("the raised eleventh is at home on the fourth degree of a major key") {
    CHECK(verdict("Fmaj7", "A E B", Strictness::working, subdominant) == "right");
    CHECK(verdict("Fmaj9", "A E B", Strictness::working, subdominant) == "right");
    CHECK(verdict("Fmaj7", "A E B") == "wrong");
    CHECK(verdict("Fmaj7", "A E B", Strictness::written, subdominant) == "wrong");
    CHECK(verdict("Fmaj11", "A E B", Strictness::working, subdominant) == "wrong");
    CHECK(verdict("F6", "A D B", Strictness::working, subdominant) == "wrong");
}

TEST_CASE("on a 13sus the third may come above the fourth, not in its place") {
    CHECK(verdict("G13sus4", "F C E B") == "right");
    CHECK(verdict("G13sus4", "F B E") == "wrong");
    CHECK(verdict("G9sus4", "F C B") == "wrong");
    CHECK(verdict("G13sus4", "F C E B", Strictness::written) == "wrong");
}

TEST_CASE("a slash chord over a bass that makes a sus of it is right as that sus") {
    for (const char* symbol : {"F/G", "Fmaj7/G", "Dm7/G", "F6/G"}) {
        INFO(symbol);
        CHECK(sus_reading(read_chord(symbol)).value().symbol() == "G9sus4");
        CHECK(verdict(symbol, "G F A C") == "right");
        CHECK(verdict(symbol, "F C D") == "right");
        CHECK(verdict(symbol, "G C") == "incomplete");
        CHECK(verdict(symbol, "F B C") == "wrong");
        CHECK(verdict(symbol, "F C", Strictness::written) ==
              (symbol[0] == 'D' ? "right" : "incomplete"));
    }
    for (const char* symbol : {"F/A", "C/G", "F", "F7/G", "Dm/G", "Fm/G", "G7/F"}) {
        INFO(symbol);
        CHECK_FALSE(sus_reading(read_chord(symbol)));
    }
    CHECK(verdict("C/G", "G C") == "incomplete");
}

TEST_CASE("a flat thirteenth that nobody wrote stands without the natural fifth") {
    CHECK(verdict("G7", "B F Eb", Strictness::working, falling) == "right");
    CHECK(verdict("G7", "B D F Eb", Strictness::working, falling) == "wrong");
    CHECK(verdict("G7", "B D F Eb", Strictness::substitutions) == "wrong");
    CHECK(verdict("G7b13", "B D F Eb", Strictness::working, falling) == "right");
    const Palette palette(read_chord("G7"), falling, Strictness::working);
    CHECK(palette.foreign(notes("B D F Eb")) == notes("Eb"));  // the fifth is its own
}

TEST_CASE("no chord is granted what it contradicts, nor what it has already") {
    for (const auto& row : quality_table()) {
        const Chord chord{{Letter::C, 0}, row.quality, {}, {}};
        const auto contradicted = contradicted_tones(chord);
        for (const auto& grant : grants(chord)) {
            CHECK(!grant.options.empty());
            for (const auto& option : grant.options) {
                INFO(chord.symbol() << " " << option.degree.name());
                // ... but for another chord altogether, and what is kept apart from what it
                // would contradict.
                if (grant.ground == Ground::substitutions || !option.is_free()) continue;
                for (const auto& degree : contradicted) {
                    CHECK(degree.pitch_class() != option.degree.pitch_class());
                }
            }
        }
        for (const auto& tone : chord_tones(chord)) {
            for (const auto& degree : contradicted) {
                CHECK(tone.pitch_class() != degree.pitch_class());
            }
        }
    }
}

TEST_CASE("nothing that is written, in the bass too, and nothing that must sound is forbidden") {
    const auto never = [](const Chord& chord) {
        PitchClasses sounds;
        for (const auto& degree : contradicted_tones(chord)) sounds |= sound_of(degree);
        return sounds;
    };
    std::string wrong;
    std::size_t chords = 0;
    each_chord_to(Alterations::kinds, [&](Chord chord, std::size_t set) {
        PitchClasses wanted;
        for (const auto& degree : chord_tones(chord)) wanted |= sound_of(degree);
        for (const auto& demand : defining_tones(chord, true)) {
            for (const auto& degree : demand) wanted |= sound_of(degree);
        }
        if ((wanted & never(chord)).any() && wrong.empty()) wrong = chord.symbol();
        // Every bass under what a chart may well hold, one of them under what it will not.
        const bool several = (set & (set - 1)) != 0;
        for (std::size_t bass = 0; bass < 12; ++bass) {
            if (several && bass != chords % 12) continue;
            chord.bass = Spelling{Letter::C, static_cast<int>(bass)};
            if (never(chord)[bass] && wrong.empty()) wrong = chord.symbol();
        }
        ++chords;
    });
    INFO(wrong);
    CHECK(wrong.empty());
    CHECK(chords > 40'000);
}

TEST_CASE("a chord is complete, and nothing in it wrong, when all that is written sounds") {
    std::string wrong;
    each_chord_to(3, [&](const Chord& chord, std::size_t) {
        PitchClasses all;
        for (const auto& degree : chord_tones(chord)) all |= sound_of(degree);
        for (const auto strictness : {Strictness::written, Strictness::working}) {
            const Palette palette(chord, {}, strictness);
            const bool right = palette.foreign(all).none() && palette.missing(all).empty();
            if (!right && wrong.empty()) wrong = chord.symbol();
        }
    });
    INFO(wrong);
    CHECK(wrong.empty());
}

TEST_CASE("every row of the table is right when its own tones are played, on every root") {
    for (const auto& row : quality_table()) {
        for (int accidental = -1; accidental <= 1; ++accidental) {
            for (int letter = 0; letter < 7; ++letter) {
                const Chord chord{{static_cast<Letter>(letter), accidental}, row.quality, {}, {}};
                for (const auto strictness :
                     {Strictness::written, Strictness::working, Strictness::substitutions}) {
                    const Palette palette(chord, {}, strictness);
                    PitchClasses all;
                    for (const auto& degree : chord_tones(chord)) {
                        all.set(static_cast<std::size_t>(spell(chord.root, degree).pitch_class()));
                    }
                    CHECK(palette.foreign(all).none());
                    CHECK(palette.missing(all).empty());
                    CHECK((palette.telling() & ~palette.accepted(PitchClasses().set())).none());
                }
            }
        }
    }
}

TEST_CASE("how many tones a chord is short of: of a diminished seventh any three will do") {
    const auto short_of = [](const char* symbol, const char* played) {
        const Palette palette(read_chord(symbol), {}, Strictness::working);
        return palette.short_of(notes(played));
    };
    CHECK(short_of("Bdim7", "B D F") == 0);
    CHECK(short_of("Bdim7", "B D") == 1);
    CHECK(short_of("Bdim7", "B") == 2);
    CHECK(short_of("G7", "B F") == 0);
    CHECK(short_of("G7", "G B D") == 1);
    CHECK(short_of("G7", "G D") == 2);
}
