// Wishes for voicings in one text.

#include "../src/app/voicing_options.hpp"

#include "app/program.hpp"
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

TEST_CASE("a word that is no wish for voicings is named with its place", "[app]") {
    const auto says = [](const std::string& words, const std::string& complaint) {
        INFO(refusal(words));
        CHECK(refusal(words).starts_with("--voicings \"" + words + "\"" + complaint));
    };
    says("shells loud", ": character 8: \"loud\" is not known here: write mixed, shells");
    says("colour=red", ": \"colour=red\" is not known here: write mixed");
    says("near=", ": there is nothing behind near=: write near=FRET");
    says("shells near", ": character 8: there is nothing behind near=: write near=FRET");
    says("open=3", ": open takes no value: write it alone");
    says("near=5 near=7", ": character 8: near is there twice: write it once");
    says("shells rootless", ": character 8: style is there twice: write it once");
    says("near=40", ": near 40: expected a number from 0 to 22");
    says("strings=77", ": strings 77: there is no string 7");
    says("tuning=E,A", ": tuning \"E A\": character 1: \"E\" is no note");
    says("position=2", ": position 2: expected a number from 3 to 24");
}

TEST_CASE("a misspelt wish for voicings is answered with the one that was meant", "[app]") {
    CHECK(tests::contains(refusal("shels"), "\"shels\" is not known here (did you mean shells?)"));
    CHECK(tests::contains(refusal("opn"), "(did you mean open?)"));
    CHECK(tests::contains(refusal("neer=5"), "(did you mean near?)"));
    CHECK(tests::contains(refusal("style=rootles"), "(did you mean rootless?)"));
}
