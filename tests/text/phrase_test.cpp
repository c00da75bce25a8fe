#include "support/catch.hpp"

#include <compline/text/phrase.hpp>

#include <functional>
#include <string>
#include <vector>

using namespace compline;
using text::Phrase;

namespace {

std::string refusal(const std::function<void()>& call) {
    try {
        call();
    } catch (const text::BadInput& error) {
        return error.what();
    }
    return "";
}

std::vector<std::string> words_of(std::string_view words, Phrase::Parted parted) {
    std::vector<std::string> list;
    const Phrase phrase(words, parted);
    for (const auto& word : phrase.words()) list.emplace_back(word.text);
    return list;
}

}  // namespace

TEST_CASE("a phrase is parted at blanks, at commas, or at either") {
    using Words = std::vector<std::string>;
    CHECK(words_of("  4:4   drums ", Phrase::Parted::by_blanks) == Words{"4:4", "drums"});
    CHECK(words_of("walking, plain", Phrase::Parted::by_either) == Words{"walking", "plain"});
    CHECK(words_of("bass = -6 , ride=2", Phrase::Parted::by_commas) ==
          Words{"bass = -6", "ride=2"});
    CHECK(words_of("bass=1,,ride=1", Phrase::Parted::by_commas) == Words{"bass=1", "", "ride=1"});
    CHECK(words_of("", Phrase::Parted::by_blanks).empty());
    CHECK(words_of(" ", Phrase::Parted::by_either).empty());
    CHECK(words_of("", Phrase::Parted::by_commas) == Words{""});
}

TEST_CASE("a word is a name and perhaps a value") {
    const Phrase phrase("mono from=11 bend=");
    CHECK(phrase.words()[0].name == "mono");
    CHECK_FALSE(phrase.words()[0].value);
    CHECK(phrase.words()[1].name == "from");
    CHECK(phrase.words()[1].value == "11");
    CHECK(phrase.words()[1].offset == 5);
    CHECK(phrase.words()[2].value == "");
    const Phrase loose("bass = -6", Phrase::Parted::by_commas);
    CHECK(loose.words()[0].name == "bass");
    CHECK(loose.words()[0].value == "-6");
}

TEST_CASE("what is refused says where in the text, unless it is all of it") {
    const Phrase phrase("♭ two thrree");
    CHECK(refusal([&] { phrase.refuse(phrase.words()[1], "a", "b"); }) == "character 3: a: b");
    CHECK(refusal([&] {
              phrase.refuse_unknown(phrase.words()[2], {"one", "three"}, "write one or three");
          }) ==
          "character 7: \"thrree\" is not known here (did you mean three?): write one or three");
    const Phrase alone(" two ");
    CHECK(refusal([&] { alone.refuse(alone.words()[0], "a", "b"); }) == "a: b");
}

TEST_CASE("a name that stands twice is refused at its second place") {
    CHECK(refusal([] { Phrase("a=1 b a=2").refuse_repeated(); }) ==
          "character 7: a is there twice: write it once");
    CHECK(refusal([] { Phrase("a=1 b=1 A=1").refuse_repeated(); }).empty());
}

TEST_CASE("a word's value is a number within its range, or is refused with the range") {
    const auto number = [](std::string_view words) {
        const Phrase phrase(words);
        return phrase.number(phrase.words().back(), -2, 2.5, "milliseconds");
    };
    CHECK(number("a=2.5") == 2.5);
    CHECK(number("a=+.5") == 0.5);
    CHECK(number("b a=-2") == -2);
    for (const char* wrong : {"b a=2.6", "b a=-2.01", "b a=x", "b a=", "b a", "b a=1e0", "b a=nan",
                              "b a=0x1", "b a=+-1"}) {
        CAPTURE(wrong);
        const auto said = refusal([&] { (void)number(wrong); });
        CHECK(said.find("character 3: \"") == 0);
        CHECK(said.find(" for a: write milliseconds from -2 to 2.5") != std::string::npos);
    }
}

TEST_CASE("a refusal is told with the wider place, outermost first, and long values are cut") {
    const std::string endless(10000, 'x');
    const auto said = refusal([&] {
        text::read_at(text::option_place("--click", endless),
                      [&] { throw text::bad_character(endless, 2, "found", "expected"); });
    });
    CHECK(said.find("--click \"xxxx") == 0);
    CHECK(said.size() < 120);
    CHECK(said.find("...\": character 3: found: expected") != std::string::npos);
    CHECK(text::bad_byte(14, "a", "b").in("a.mid").what() == std::string("a.mid: byte 14: a: b"));
    CHECK(text::bad_byte(14, "a", "b").in("a.mid").offset() == 14U);
    CHECK(text::BadInput("just this").without_place() == "just this");
}
