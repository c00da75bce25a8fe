// What a player is told of his MIDI pickup's unit.

#include "app/program.hpp"
#include "support/catch.hpp"

#include <compline/report/unit_words.hpp>

using namespace compline;

namespace {

const auto standard = guitar::Fretboard::standard();

std::string told(int string, int key, double cents, int channel = 6) {
    const listen::NoteSeen note{time::Seconds(0), channel, harmony::MidiNote(key), 80, cents};
    return report::open_string_words(string, note, standard);
}

}  // namespace

TEST_CASE("an open string is heard to the cent, and whether to tune it is said") {
    CHECK(told(6, 40, 0) == "string 6: E2, in tune, on channel 6");
    CHECK(told(6, 40, 1.2) == "string 6: E2, in tune (1 cent sharp), on channel 6");
    CHECK(told(6, 40, -5.4) == "string 6: E2, in tune (5 cents flat), on channel 6");
    CHECK(told(6, 40, 5.6) == "string 6: E2, 6 cents sharp: tune it, on channel 6");
    CHECK(told(6, 39, 40) == "string 6: E2, 60 cents flat: tune it, on channel 6");
    CHECK(told(2, 59, 0, 12) == "string 2: B3, in tune, on channel 12");
}

TEST_CASE("another string than was asked for is called what it was") {
    CHECK(told(6, 45, 0, 5) == "that was A2, on channel 5: string 6 is E2");
    CHECK(told(6, 42, 0) == "that was F♯2, on channel 6: string 6 is E2");
}

TEST_CASE("a soft and a hard strum say what to turn on the unit, string by string") {
    CHECK(report::sensitivity_words({40, 19, 0, 0, 40, 20}, {110, 110, 110, 0, 127, 126}) ==
          "string   soft   hard\n"
          "  1        40    110   good\n"
          "  2        19    110   the soft one is too soft: raise its sensitivity\n"
          "  3         -    110   the soft one was not heard: raise its sensitivity\n"
          "  4         -      -   not heard: is its sensitivity right down?\n"
          "  5        40    127   the hard one is at the top: lower its sensitivity\n"
          "  6        20    126   good\n");
}
