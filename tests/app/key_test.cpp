// What is made of a terminal's bytes: a table by hand of what terminals send and which keys it is,
// and strings of it at random, whole and in pieces.

#include "../../src/app/key.hpp"

#include "support/catch.hpp"

#include <random>
#include <string>
#include <vector>

using namespace compline;
using app::KeyPress;
using app::KeyReader;
using app::NamedKey;
using Keys = std::vector<KeyPress>;
using namespace std::string_literals;

namespace {

struct Sent {
    std::string bytes;
    Keys keys;
};

/// By xterm's "Control Sequences", the Linux console (console_codes(4)) and rxvt's table of keys.
const std::vector<Sent>& what_terminals_send() {
    static const std::vector<Sent> table = {
        {"q", {'q'}},
        {" ", {' '}},
        {"\r", {'\r'}},
        {"\n", {'\n'}},
        {"[A", {'[', 'A'}},
        {"O", {'O'}},
        {"~", {'~'}},
        {"\x7F", {'\x7F'}},
        {"\x1B[A", {NamedKey::up}},
        {"\x1BOA", {NamedKey::up}},
        {"\x1B[B", {NamedKey::down}},
        {"\x1BOB", {NamedKey::down}},
        {"\x1B[C", {NamedKey::right}},
        {"\x1BOC", {NamedKey::right}},
        {"\x1B[D", {NamedKey::left}},
        {"\x1BOD", {NamedKey::left}},
        {"\x1B[5~", {NamedKey::page_up}},
        {"\x1B[6~", {NamedKey::page_down}},
        {"\x1B[H", {NamedKey::home}},
        {"\x1BOH", {NamedKey::home}},
        {"\x1B[1~", {NamedKey::home}},
        {"\x1B[7~", {NamedKey::home}},
        // With Shift, Control and Alt; End, Insert, Delete, F1 to F12, the keypad.
        {"\x1B[1;5A", {}},
        {"\x1B[1;2D", {}},
        {"\x1B[6;2~", {}},
        {"\x1B[5;3~", {}},
        {"\x1B[27;5;113~", {}},
        {"\x1B[113;5u", {}},
        {"\x1B[F", {}},
        {"\x1BOF", {}},
        {"\x1B[4~", {}},
        {"\x1B[2~", {}},
        {"\x1B[3~", {}},
        {"\x1BOP", {}},
        {"\x1BO5P", {}},
        {"\x1BOq", {}},
        {"\x1BOM", {}},
        {"\x1B[15~", {}},
        {"\x1B[24~", {}},
        {"\x1B[[A", {}},
        {"\x1B[[E", {}},
        {"\x1B[3^", {}},
        {"\x1B[a", {}},
        {"\x1B[Z", {}},
        // Alt with a letter.
        {"\x1Bq", {}},
        {"\x1B ", {}},
        {"\x1B\xC3\xA4", {}},
        // The window is looked at, and no longer; where the cursor is; what a terminal says it is.
        {"\x1B[I", {}},
        {"\x1B[O", {}},
        {"\x1B[24;80R", {}},
        {"\x1B[?64;1;2;6;9;15;16;17;18;21;22;28;29;42;44c", {}},
        {"\x1B[>41;366;0c", {}},
        {"\x1B[?2026;2$y", {}},
        {"\x1B]11;rgb:1d1d/2020/2b2b\a", {}},
        {"\x1B]11;rgb:1d1d/2020/2b2b\x1B\\", {}},
        {"\x1BP>|terminal 1.2 q\x1B\\", {}},
        // A mouse: of old, with lines beyond 95 in UTF-8, and as it is told today.
        {"\x1B[M qb", {}},
        {"\x1B[M q\xC4\x80", {}},
        {"\x1B[M`ql", {}},
        {"\x1B[<0;12;30M", {}},
        {"\x1B[<64;12;30m", {}},
        {"\x1B[32;12;30M", {}},
        // Pasted text.
        {"\x1B[200~q\x1B[201~", {}},
        {"\x1B[200~Dm7 | G7 quick\r\xC3\xA4 [A\x1B[201~", {}},
        {"\x1B[200~\x1B[201~", {}},
        {"\x1B[201~", {}},
        // Letters beyond ASCII, and signs of four bytes; controls of eight bits.
        {"\xC3\xA4", {}},
        {"\xE2\x99\xAD", {}},
        {"\xF0\x9D\x84\xAB", {}},
        {"\xC2\x9B", {}},
        {"\x9B"s + "D", {NamedKey::left}},
        {"\x8F"s + "D", {NamedKey::left}},
        {"\x9B"s + "6~", {NamedKey::page_down}},
        // Broken off: by another key, and by a control character.
        {"\x1B\x1B[A", {NamedKey::up}},
        {"\x1B[1;\x1B[B", {NamedKey::down}},
        {"\x1B]11;q\x1B[B", {NamedKey::down}},
        {"\x1B[M\x1B[B", {NamedKey::down}},
        {"\x1B[12\x18q", {'q'}},
        {"\x1B[1\xC3\xA4q", {'q'}}};
    return table;
}

/// Of bytes that come one after the other, none of them waited for.
Keys keys_of(KeyReader& reader, const std::string& bytes) {
    Keys keys;
    for (const char byte : bytes) {
        if (const auto key = reader.add(byte)) keys.push_back(*key);
    }
    return keys;
}

void wait(KeyReader& reader, int turns) {
    for (int i = 0; i < turns; ++i) reader.nothing_came();
}

std::string in_hex(const std::string& bytes) {
    std::string text;
    for (const char byte : bytes) {
        constexpr const char* digits = "0123456789abcdef";
        const auto value = static_cast<unsigned char>(byte);
        text += {digits[value / 16], digits[value % 16], ' '};
    }
    return text;
}

}  // namespace

TEST_CASE("whatever a terminal sends is the key that was pressed, or nothing at all") {
    for (const auto& sent : what_terminals_send()) {
        INFO(in_hex(sent.bytes));
        KeyReader reader;
        CHECK(keys_of(reader, sent.bytes) == sent.keys);
        // Nothing of it is left for the key after it.
        CHECK(keys_of(reader, "l") == Keys{'l'});
    }
}

TEST_CASE("keys at random, in one piece or in many, are the same keys") {
    std::mt19937 random(20270105);
    const auto& table = what_terminals_send();
    for (int round = 0; round < 300; ++round) {
        std::string bytes;
        Keys expected;
        for (int i = 0; i < 12; ++i) {
            const auto& sent = table[random() % table.size()];
            bytes += sent.bytes;
            expected.insert(expected.end(), sent.keys.begin(), sent.keys.end());
        }
        KeyReader whole;
        KeyReader in_pieces;
        Keys pieces;
        for (std::size_t at = 0; at < bytes.size();) {
            const auto size = std::size_t{1} + random() % 5;
            const auto more = keys_of(in_pieces, bytes.substr(at, size));
            pieces.insert(pieces.end(), more.begin(), more.end());
            wait(in_pieces, static_cast<int>(random() % KeyReader::patience));
            at += size;
        }
        INFO(in_hex(bytes));
        CHECK(keys_of(whole, bytes) == expected);
        CHECK(pieces == expected);
    }
}

TEST_CASE("whatever bytes come, q stops as soon as the line has been still for a moment") {
    std::mt19937 random(7);
    for (int round = 0; round < 500; ++round) {
        KeyReader reader;
        // Many of the bytes that begin, go on with and end sequences.
        const std::string likely = "\x1B\x1B[[O]PM<;0126~AHq\a\xC3\xA4\x9B\xFF";
        for (int i = 0; i < 20; ++i) {
            const bool any = random() % 4 == 0;
            (void)reader.add(any ? static_cast<char>(random() % 256)
                                 : likely[random() % likely.size()]);
        }
        wait(reader, KeyReader::patience);
        CHECK(keys_of(reader, "q") == Keys{'q'});
    }
}

TEST_CASE("ESC pressed alone is a key that does nothing, and the next key is its own") {
    KeyReader reader;
    CHECK(keys_of(reader, "\x1B").empty());
    wait(reader, KeyReader::patience - 1);
    CHECK(keys_of(reader, "q").empty());  // Alt and q, of a slow connection
    CHECK(keys_of(reader, "\x1B").empty());
    wait(reader, KeyReader::patience);
    CHECK(keys_of(reader, "q") == Keys{'q'});
}

TEST_CASE("text that is pasted presses no key, and where its end is lost the keys come back") {
    KeyReader reader;
    CHECK(keys_of(reader, "\x1B[200~quick and blue\x1B[A\x1B[6~").empty());
    CHECK(keys_of(reader, "q").empty());
    wait(reader, KeyReader::patience);
    CHECK(keys_of(reader, "q") == Keys{'q'});
}
