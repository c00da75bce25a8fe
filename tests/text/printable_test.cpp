#include "support/catch.hpp"

#include <compline/text/numbers.hpp>
#include <compline/text/printable.hpp>
#include <compline/text/utf8.hpp>

#include <string>
#include <vector>

using namespace compline;

namespace {

std::string utf8(char32_t c) {
    const auto byte = [](char32_t bits) { return static_cast<char>(bits); };
    if (c < 0x80) return {byte(c)};
    if (c < 0x800) return {byte(0xC0 | c >> 6), byte(0x80 | (c & 0x3F))};
    if (c < 0x10000) {
        return {byte(0xE0 | c >> 12), byte(0x80 | (c >> 6 & 0x3F)), byte(0x80 | (c & 0x3F))};
    }
    return {byte(0xF0 | c >> 18), byte(0x80 | (c >> 12 & 0x3F)), byte(0x80 | (c >> 6 & 0x3F)),
            byte(0x80 | (c & 0x3F))};
}

}  // namespace

TEST_CASE("every scalar value of Unicode is decoded from its UTF-8, with its length") {
    for (char32_t c = 0; c <= 0x10FFFF; ++c) {
        if (c >= 0xD800 && c < 0xE000) continue;
        const auto bytes = utf8(c);
        const auto read = text::code_point_at(bytes + "x", 0);
        if (read.valid && read.value == c && read.bytes == bytes.size()) continue;
        FAIL_CHECK("U+" << std::hex << static_cast<unsigned>(c));
    }
}

TEST_CASE("what is no UTF-8 is decoded byte by byte, as no character") {
    // Overlong forms, surrogates, what lies above U+10FFFF, and what is cut off.
    for (const std::string bytes : {"\xC0\x80", "\xE0\x80\x80", "\xED\xA0\x80", "\xF4\x90\x80\x80",
                                    "\xE2\x99", "\x80", "\xFF"}) {
        const auto read = text::code_point_at(bytes, 0);
        CHECK_FALSE(read.valid);
        CHECK(read.bytes == 1);
        CHECK(text::printable(bytes).find("<byte ") == 0);
    }
}

TEST_CASE("nothing that steers a terminal or hides in a line is printed as it is") {
    std::vector<char32_t> hidden{0x061C, 0x200B, 0x200C, 0x200D, 0x200E,
                                 0x200F, 0xFEFF, 0x1B,   '\n',   0x9B};
    for (char32_t c = 0x202A; c <= 0x202E; ++c) hidden.push_back(c);
    for (char32_t c = 0x2066; c <= 0x206F; ++c) hidden.push_back(c);
    for (char32_t c = 0xE0000; c <= 0xE007F; ++c) hidden.push_back(c);
    for (const char32_t c : hidden) {
        CAPTURE(static_cast<unsigned>(c));
        const auto shown = text::printable("a" + utf8(c) + "b");
        CHECK(shown == "a<" + text::code_point_name(c) + ">b");
    }
    CHECK(text::printable("B♭ and é") == "B♭ and é");
    CHECK(text::printable_lines("a\nb\x1B") == "a\nb<U+001B>");
    CHECK(text::has_control_characters("a\nb"));
    CHECK(text::has_control_characters("a\xC2\x9B"));
    CHECK_FALSE(text::has_control_characters("B♭"));
}

TEST_CASE("a long text is cut at a character, never within one") {
    const std::string flats = [] {
        std::string all;
        for (int i = 0; i < 100; ++i) all += "♭";
        return all;
    }();
    CHECK(text::count_code_points(text::printable(flats)) == text::longest_quotation + 3);
    CHECK(text::quoted("x") == "\"x\"");
}

TEST_CASE("numbers are read whole or not at all, the same everywhere") {
    CHECK(text::read_number("-0.5") == -0.5);
    CHECK(text::read_number("+20") == 20);
    CHECK(text::read_number(".5") == 0.5);
    CHECK(text::read_decimal("1.8") == 1.8);
    CHECK(text::read_count("007") == 7);
    for (const char* wrong : {"", "-", "+", ".", "1.", "1,5", "1e3", "nan", "inf", "0x10", " 1",
                              "1 ", "--1", "+-1", "1.2.3", "12345678901234567890"}) {
        CAPTURE(wrong);
        CHECK_FALSE(text::read_number(wrong));
        CHECK_FALSE(text::read_decimal(wrong));
        CHECK_FALSE(text::read_count(wrong));
    }
    CHECK_FALSE(text::read_decimal("-1"));
    CHECK_FALSE(text::read_count("1.5"));
    CHECK(text::range_in_words(-0.5, 1000000) == "-0.5 to 1000000");
}
