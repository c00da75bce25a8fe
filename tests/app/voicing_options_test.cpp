// Wishes for voicings in one text.

#include "../src/app/voicing_options.hpp"

#include "support/catch.hpp"

using namespace compline;
using app::read_voicings;

namespace {

std::string refusal(const std::string& words) {
    try {
        (void)read_voicings("--voicings", words);
    } catch (const app::BadInput& bad) {
        return bad.what();
    }
    return "taken";
}

}  // namespace

TEST_CASE("wishes for voicings can be said in one text", "[app]") {
    const auto asked = read_voicings(
        "--voicings",
        "shells near=5 strings=5432 open tuning=D2,A2,D3,G3,B3,E4 capo=2 frets=24 root=bottom "
        "right-hand=fingers position=7 thumb moving strictness=written");
    CHECK(asked.fretboard.open(6).number() == 38 + 2);
    CHECK(asked.fretboard.frets() == 22);
    const auto& wishes = asked.wishes;
    CHECK(wishes.style == guitar::VoicingStyle::shells);
    CHECK(wishes.near_fret == 5);
    CHECK(wishes.strings == std::vector<int>{5, 4, 3, 2});
    CHECK(wishes.low_root == guitar::LowRoot::liked);
    CHECK(wishes.right_hand == guitar::RightHand::fingers);
    CHECK(wishes.position == 7);
    CHECK(wishes.open_strings);
    CHECK(wishes.thumb);
    CHECK(wishes.long_chords_move);
    CHECK(wishes.strictness == harmony::Strictness::written);
}

TEST_CASE("no words wish for nothing", "[app]") {
    const auto asked = read_voicings("--voicings", "");
    CHECK(asked.wishes.style == guitar::VoicingStyle::mixed);
    CHECK(asked.wishes.strings.empty());
    CHECK_FALSE(asked.wishes.near_fret);
    CHECK(asked.fretboard.strings() == 6);
    CHECK(read_voicings("--voicings", "style=rootless").wishes.style ==
          guitar::VoicingStyle::rootless);
}

TEST_CASE("a word that is no wish for voicings is named with its option", "[app]") {
    CHECK(refusal("shells loud").find("--voicings: \"loud\" is not known here: write mixed") == 0);
    CHECK(refusal("colour=red").find("--voicings: \"colour=red\" is not known here") == 0);
    CHECK(refusal("near=").find("--voicings: there is nothing behind near=") == 0);
    CHECK(refusal("near=5 near=7").find("--voicings: near is there twice: 5 and 7") == 0);
    CHECK(refusal("shells rootless").find("--voicings: style is there twice") == 0);
    CHECK(refusal("near=40").find("--voicings: near 40: expected a number from 0 to 22") == 0);
    CHECK(refusal("strings=77").find("--voicings: strings 77: there is no string 7") == 0);
    CHECK(refusal("tuning=E,A").find("--voicings: tuning \"E A\": E is no note") == 0);
}
