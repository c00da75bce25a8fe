// A player's keys, through a pseudo-terminal: what is made of them, and how it is left.

#include "../../src/app/keys.hpp"

#include "app/pseudo_terminal.hpp"
#include "support/catch.hpp"

#include <stdexcept>
#include <vector>

using namespace compline;
using app::KeyPress;
using app::KeyReader;
using app::Keys;
using app::NamedKey;
using tests::PseudoTerminal;

namespace {

/// A terminal and what reads its keys.
struct Typing {
    PseudoTerminal terminal{40, 10};
    Keys keys{terminal.inside()};

    /// The keys that are there to be read, until there is none.
    [[nodiscard]] std::vector<KeyPress> all() {
        std::vector<KeyPress> read;
        while (const auto key = keys.read()) read.push_back(*key);
        return read;
    }
    [[nodiscard]] std::vector<KeyPress> typed(const std::string& bytes) {
        terminal.type(bytes);
        return all();
    }
    void wait(int turns) {
        for (int i = 0; i < turns; ++i) CHECK(all().empty());
    }
};

}  // namespace

TEST_CASE("keys come one by one without waiting for a line, and are not echoed") {
    Typing typing;
    CHECK(!typing.keys.read().has_value());
    typing.terminal.type(" q");
    CHECK(typing.keys.read() == KeyPress(' '));
    CHECK(typing.keys.read() == KeyPress('q'));
    CHECK(!typing.keys.read().has_value());
    CHECK(typing.terminal.received().empty());
}

TEST_CASE("the arrows up and down and Home are known in whatever way a terminal sends them") {
    Typing typing;
    for (const char* up : {"\x1B[A", "\x1BOA"})
        CHECK(typing.typed(up) == std::vector<KeyPress>{NamedKey::up});
    for (const char* down : {"\x1B[B", "\x1BOB"})
        CHECK(typing.typed(down) == std::vector<KeyPress>{NamedKey::down});
    for (const char* home : {"\x1B[H", "\x1BOH", "\x1B[1~", "\x1B[7~"}) {
        CHECK(typing.typed(home) == std::vector<KeyPress>{NamedKey::home});
    }
}

TEST_CASE("a page-turning pedal is known by the page keys and the arrows that it sends") {
    Typing typing;
    CHECK(typing.typed("\x1B[6~\x1B[5~") ==
          std::vector<KeyPress>{NamedKey::page_down, NamedKey::page_up});
    CHECK(typing.typed("\x1B[C\x1BOC\x1B[D\x1BOD") ==
          std::vector<KeyPress>{NamedKey::right, NamedKey::right, NamedKey::left, NamedKey::left});
}

TEST_CASE("several keys that wait come in their order, whatever each of them sends") {
    Typing typing;
    CHECK(typing.typed("l\x1B[A\x1BOB\x1B[1~q") ==
          std::vector<KeyPress>{'l', NamedKey::up, NamedKey::down, NamedKey::home, 'q'});
}

TEST_CASE("a key that is none of ours gives nothing, whatever letters it sends") {
    Typing typing;
    // Alt-q, the keypad, End, F5, Delete, Ctrl-up, F2 of the Linux console.
    for (const char* other :
         {"\x1Bq", "\x1BOq", "\x1B[4~", "\x1B[15~", "\x1B[3~", "\x1B[1;5A", "\x1B[[B"}) {
        INFO(other + 1);
        CHECK(typing.typed(other).empty());
        CHECK(typing.typed("q") == std::vector<KeyPress>{'q'});
    }
}

TEST_CASE("a key that comes in pieces is put together") {
    Typing typing;
    CHECK(typing.typed("\x1B").empty());
    CHECK(typing.typed("[").empty());
    typing.wait(KeyReader::patience / 2);
    CHECK(typing.typed("A") == std::vector<KeyPress>{NamedKey::up});
    CHECK(typing.typed("\x1B[1").empty());
    CHECK(typing.typed("~q") == std::vector<KeyPress>{NamedKey::home, 'q'});
}

TEST_CASE("ESC alone gives nothing, and takes nothing from the key after it") {
    Typing typing;
    CHECK(typing.typed("\x1B").empty());
    typing.wait(KeyReader::patience);
    CHECK(typing.typed("[A") == std::vector<KeyPress>{'[', 'A'});
    CHECK(typing.typed("\x1B\x1B[A") == std::vector<KeyPress>{NamedKey::up});
}

TEST_CASE("a sequence without an end is given up in time") {
    Typing typing;
    CHECK(typing.typed("\x1B[" + std::string(300, '1')).empty());
    typing.wait(KeyReader::patience);
    CHECK(typing.typed("q") == std::vector<KeyPress>{'q'});
}

TEST_CASE("while keys are read Ctrl-C stays a signal, Ctrl-S and Ctrl-Z do nothing") {
    const PseudoTerminal terminal(40, 10);
    const Keys keys(terminal.inside());
    const auto mode = terminal.mode();
    CHECK((mode.c_lflag & ISIG) != 0);
    CHECK((mode.c_lflag & (ECHO | ICANON)) == 0);
    CHECK((mode.c_iflag & IXON) == 0);
    CHECK(mode.c_cc[VSUSP] == _POSIX_VDISABLE);
}

TEST_CASE("the terminal is left as it was found, however the keys' reader ends") {
    PseudoTerminal terminal(40, 10);
    const auto before = terminal.mode();
    SECTION("at its end, and keys that nobody read do not reach the shell") {
        {
            const Keys keys(terminal.inside());
            CHECK(!tests::same(terminal.mode(), before));
            terminal.type("qqq");
        }
        CHECK(terminal.waiting() == 0);
    }
    SECTION("by an exception") {
        try {
            const Keys keys(terminal.inside());
            throw std::runtime_error("the stream died");
        } catch (const std::runtime_error&) {
            CHECK(true);
        }
    }
    SECTION("from a handler of signals; nothing is read afterwards") {
        Keys keys(terminal.inside());
        keys.restore();
        CHECK(tests::same(terminal.mode(), before));
        terminal.type("q\n");
        CHECK(!keys.read().has_value());
    }
    CHECK(tests::same(terminal.mode(), before));
}

TEST_CASE("an input that is no terminal is never read") {
    const tests::Pipe pipe;
    CHECK(::write(pipe.to, "q", 1) == 1);
    {
        Keys keys(pipe.from);
        CHECK(!keys.read().has_value());
    }
    CHECK(tests::all_of(pipe.from) == "q");
}
