#include "support/catch.hpp"

#include <compline/chart/pins.hpp>
#include <compline/guitar/effort.hpp>

#include <initializer_list>

using namespace compline;
using guitar::Cost;
using guitar::InPlace;
namespace weight = guitar::weight;

// What sounds right here is common practice, no source.

namespace {

const auto neck = guitar::Fretboard::standard();

Cost sound(const char* shape, const char* symbol, const InPlace& place = {}) {
    const harmony::Palette palette(harmony::read_chord(symbol), {}, harmony::Strictness::working);
    return guitar::sound_cost(neck, guitar::Shape::of(chart::read_shape_text(shape)), palette,
                              place);
}

harmony::PitchClasses tones(std::initializer_list<std::size_t> pitch_classes) {
    harmony::PitchClasses set;
    for (const auto tone : pitch_classes) set.set(tone);
    return set;
}

harmony::PitchClasses point(const char* from, const char* to) {
    return guitar::point_of(harmony::read_chord(from), harmony::read_chord(to));
}

}  // namespace

TEST_CASE("leaving out what the chart writes costs more than any finger's travel", "[guitar]") {
    constexpr Cost furthest = weight::slide * 12;
    const auto without = [](const char* shape, const char* with, const char* symbol) {
        return sound(shape, symbol) - sound(with, symbol);
    };
    CHECK(without("x535xx", "x5355x", "Dm9") > furthest);
    CHECK(without("x323xx", "x3232x", "C7b9") > furthest);
    CHECK(without("8-x-8-9-x-x", "8-x-8-9-10-x", "C13") > furthest);
    CHECK(without("x-x-10-9-8-x", "x-x-10-9-10-x", "C6") > furthest);
    // Of an altered chord one of its four alterations is enough.
    CHECK(without("x323xx", "x3234x", "C7alt") > furthest);
    CHECK(sound("x3234x", "C7alt") < 100);
}

TEST_CASE("a tone that nobody wrote costs, an alteration more, a ♭9 into a minor chord least",
          "[guitar]") {
    const Cost ninth = sound("x3233x", "C7");
    const Cost flat_ninth = sound("x3232x", "C7");
    CHECK(ninth - sound("x323xx", "C7") > 100);
    CHECK(flat_ninth > ninth);
    InPlace minor;
    minor.into_minor = true;
    CHECK(sound("x3232x", "C7", minor) < ninth);
    CHECK(sound("x3234x", "C7", minor) == sound("x3234x", "C7"));
}

TEST_CASE("a tone that nobody wrote costs less where it is of the key", "[guitar]") {
    InPlace in_c;
    in_c.key = tones({0, 2, 4, 5, 7, 9, 11});
    InPlace in_d;
    in_d.key = tones({1, 2, 4, 6, 7, 9, 11});
    // The F♯ on Em7: the 9 of a ii in D, a stranger in C.
    CHECK(sound("x7577x", "Em7", in_c) - sound("x7577x", "Em7", in_d) == weight::outside_key);
    CHECK(sound("x757xx", "Em7", in_c) == sound("x757xx", "Em7", in_d));
}

TEST_CASE("six does for a major seventh, and seven does not for a sixth", "[guitar]") {
    CHECK(sound("x322xx", "Cmaj7") - sound("x322xx", "C6") == weight::six_for_seven);
    CHECK(sound("x322xx", "Cmaj7") - sound("x324xx", "Cmaj7") == weight::six_for_seven);
    // It lacks the sixth, has a tone that nobody wrote and no guide tone, and is another chord.
    CHECK(sound("x324xx", "C6") - sound("x322xx", "C6") ==
          weight::left_out + weight::unwritten + weight::no_guide_tone + weight::seven_on_six);
}

TEST_CASE("a grip that spells another chord costs; its own other names do not", "[guitar]") {
    // F B D G over a D is G7.
    // It lacks the 9 and has two tones that nobody wrote besides.
    CHECK(sound("x8978x", "Dm9") ==
          weight::left_out + 2 * weight::unwritten + weight::another_chord);
    CHECK(sound("x3525x", "C6") < 100);    // Am7, the chord that every sixth chord is
    CHECK(sound("x7878x", "C9") < 100);    // Em7♭5, a ninth chord whose root the bass has
    CHECK(sound("x7868x", "C7b9") < 100);  // a diminished chord
}

TEST_CASE("a grip with nothing of what is new in a change hides it", "[guitar]") {
    InPlace place;
    place.point = point("Bb7", "Bdim7");
    CHECK(place.point == tones({11}));
    // D F A♭, all of it B♭7 too, and F B D.
    CHECK(sound("x531xx", "Bdim7", place) - sound("x531xx", "Bdim7") == weight::hidden);
    CHECK(sound("x897xx", "Bdim7", place) == sound("x897xx", "Bdim7"));
}

TEST_CASE("the point of a change is what tells the new chord and was not in the old one",
          "[guitar]") {
    CHECK(point("Dm7", "G7") == tones({11}));  // the third, not the root
    CHECK(point("Cmaj7", "C6") == tones({9}));
    CHECK(point("Dm7", "Dm7b5") == tones({8}));
    CHECK(point("C7", "C13b9") == tones({1, 9}));
    // Held rightly: the bass alone moves, a ii is in its sus, a ninth chord in its half-diminished.
    for (const auto& [from, to] : {std::pair("Cm7", "Cm7/Bb"), std::pair("Bb7", "Bb7/D"),
                                   std::pair("Dm7", "G7sus4"), std::pair("C9", "Em7b5")}) {
        CAPTURE(from, to);
        CHECK(point(from, to).none());
    }
}

TEST_CASE("three notes of a seventh chord have its third and its seventh", "[guitar]") {
    // C G B♭ and C E♭ B♭.
    CHECK(sound("x353xx", "Cm7") - sound("x313xx", "Cm7") >= weight::no_guide_tone);
    // Of a triad nothing of the kind is asked.
    CHECK(sound("x-x-10-9-8-x", "C") < 100);
}

TEST_CASE("a close voicing with its second voice dropped comes before the close one", "[guitar]") {
    CHECK(sound("x6532x", "Eb7") - sound("x6868x", "Eb7") == weight::odd_spacing);
}

TEST_CASE("a semitone between neighbours rubs, less where the symbol asks for it", "[guitar]") {
    // B C E as Cmaj7; B♭ E♭ E as C7♯9.
    CHECK(sound("xx955x", "Cmaj7") - sound("x324xx", "Cmaj7") == weight::minor_second);
    CHECK(sound("xx885x", "C7#9") - weight::three_notes == weight::minor_second_asked);
    // A 13 beside the ♭7 is not what a 13 asks for.
    CHECK(sound("x-x-14-14-11-x", "C13") - sound("x-x-8-9-10-x", "C13") >= weight::minor_second);
}

TEST_CASE("a seven below D3 at the bottom costs, and at D3 it does not", "[guitar]") {
    // B♭2 E C as C7, and as the same a fourth higher.
    const Cost low = sound("6-7-10-x-x-x", "C7");
    const Cost high = sound("x-6-7-10-x-x", "F7");
    CHECK(low - high == weight::low_colour + weight::low_stranger);
}
