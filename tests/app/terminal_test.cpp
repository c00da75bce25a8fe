// The player's terminal, through a pseudo-terminal: which bytes reach it, and how it is left.

#include "../../src/app/terminal.hpp"

#include "../../src/app/keys.hpp"
#include "app/pseudo_terminal.hpp"
#include "support/catch.hpp"

#include <stdexcept>

using namespace compline;
using app::Keys;
using app::Screen;
using tests::PseudoTerminal;
using Lines = std::vector<std::string>;

namespace {

constexpr const char* hide = "\x1B[?25l";
constexpr const char* show = "\x1B[?25h";

/// A line as it is drawn: from the left edge, cleared behind.
std::string drawn(const std::string& line) { return "\r" + line + "\x1B[K\n"; }

/// A screen on a terminal of 40 by 10, with and without attributes.
struct OnTerminal {
    PseudoTerminal terminal{40, 10};
    Screen screen{terminal.inside(), "xterm", nullptr};
};

}  // namespace

TEST_CASE("the block is drawn with the cursor hidden, and the cursor is shown again at the end") {
    PseudoTerminal terminal(40, 10);
    {
        Screen screen(terminal.inside(), "xterm", nullptr);
        CHECK(terminal.received().empty());
        screen.draw({"one", "two"});
        CHECK(terminal.received() == hide + ("\r" + drawn("one")) + drawn("two"));
    }
    CHECK(terminal.received() == std::string("\r\x1B[2A\x1B[J") + show);
}

TEST_CASE("the block is drawn over itself, and only its lines that changed") {
    OnTerminal on;
    on.screen.draw({"one", "two", "three"});
    (void)on.terminal.received();
    on.screen.draw({"one", "2", "three"});
    CHECK(on.terminal.received() == "\r\x1B[3A\n" + drawn("2") + "\n");
    on.screen.draw({"one", "2", "three", "four"});
    CHECK(on.terminal.received() == "\r\x1B[3A\n\n\n" + drawn("four"));
    on.screen.draw({"one"});
    CHECK(on.terminal.received() == "\r\x1B[4A\n\x1B[J");
}

TEST_CASE("nothing is written when nothing changed") {
    OnTerminal on;
    on.screen.draw({"one", "two"});
    (void)on.terminal.received();
    on.screen.draw({"one", "two"});
    CHECK(on.terminal.received().empty());
}

TEST_CASE("a printed line pushes the block down and stays above it") {
    OnTerminal on;
    on.screen.print("before");
    CHECK(on.terminal.received() == "before\n");
    on.screen.draw({"one", "two"});
    (void)on.terminal.received();
    on.screen.print("1st time through");
    CHECK(on.terminal.received() ==
          "\r\x1B[2A" + drawn("1st time through") + drawn("one") + drawn("two"));
    on.screen.draw({"one", "2"});
    CHECK(on.terminal.received() == "\r\x1B[2A\n" + drawn("2"));
}

TEST_CASE("nothing that is printed steers the terminal") {
    OnTerminal on;
    on.screen.print("red\x1B[31m");
    CHECK(on.terminal.received() == "red<U+001B>[31m\n");
}

TEST_CASE("a line wider than the terminal is cut, never wrapped") {
    OnTerminal on;
    on.screen.draw({std::string(41, 'x'), std::string(40, 'y')});
    // A full line is not cleared behind: that would take its last character.
    CHECK(on.terminal.received() ==
          hide + ("\r\r" + std::string(39, 'x')) + "…\n\r" + std::string(40, 'y') + "\n");
}

TEST_CASE("lines that a low terminal has no room for are left out") {
    PseudoTerminal terminal(40, 3);
    Screen screen(terminal.inside(), "xterm", nullptr);
    screen.draw({"one", "two", "three", "four"});
    CHECK(terminal.received() == hide + ("\r" + drawn("one")) + drawn("two"));
}

TEST_CASE("a terminal that changed its size is drawn anew, with what was printed") {
    OnTerminal on;
    on.screen.print("1st time through");
    on.screen.print("2nd time through");
    on.screen.draw({"one", "two"});
    (void)on.terminal.received();
    on.terminal.resize(30, 4);
    CHECK(on.screen.columns() == 30);
    on.screen.draw({"one", "two"});
    CHECK(on.terminal.received() ==
          "\x1B[H\x1B[2J2nd time through\n" + drawn("one") + drawn("two"));
    // Printed before the next draw, as it may happen.
    on.terminal.resize(40, 10);
    on.screen.print("3rd time through");
    on.screen.draw({"one", "two"});
    CHECK(on.terminal.received() ==
          "\x1B[H\x1B[2J1st time through\n2nd time through\n3rd time through\n\r" + drawn("one") +
              drawn("two"));
}

TEST_CASE("a closed screen begins a new block below") {
    OnTerminal on;
    on.screen.draw({"one"});
    on.screen.close();
    (void)on.terminal.received();
    on.screen.close();
    CHECK(on.terminal.received().empty());
    on.screen.draw({"one"});
    CHECK(on.terminal.received() == hide + ("\r" + drawn("one")));
}

TEST_CASE("the cursor can be shown again from a handler of signals, once") {
    OnTerminal on;
    on.screen.draw({"one"});
    (void)on.terminal.received();
    on.screen.restore();
    CHECK(on.terminal.received() == show);
    on.screen.restore();
    CHECK(on.terminal.received().empty());
}

TEST_CASE("a terminal that knows no escape sequences gets lines alone, no block") {
    for (const char* term : {static_cast<const char*>(nullptr), "", "dumb"}) {
        PseudoTerminal terminal(40, 10);
        {
            Screen screen(terminal.inside(), term, nullptr);
            CHECK(!screen.draws());
            CHECK(!screen.attributes());
            screen.draw({"one"});
            screen.print("1st time through");
        }
        CHECK(terminal.received() == "1st time through\n");
    }
}

TEST_CASE("NO_COLOR switches attributes off, and the display stays") {
    const PseudoTerminal terminal(40, 10);
    CHECK(Screen(terminal.inside(), "xterm", nullptr).attributes());
    CHECK(Screen(terminal.inside(), "xterm", "").attributes());
    CHECK(!Screen(terminal.inside(), "xterm", "1").attributes());
    CHECK(Screen(terminal.inside(), "xterm", "1").draws());
}

TEST_CASE("output that is no terminal gets lines alone, and counts as 80 columns wide") {
    const tests::Pipe pipe;
    {
        Screen screen(pipe.to, "xterm", nullptr);
        CHECK(!screen.draws());
        CHECK(screen.columns() == 80);
        screen.draw({"one"});
        screen.print("lost the MIDI input");
    }
    CHECK(tests::all_of(pipe.from) == "lost the MIDI input\n");
}

TEST_CASE("keys come one by one without waiting for a line, and are not echoed") {
    PseudoTerminal terminal(40, 10);
    Keys keys(terminal.inside());
    CHECK(!keys.read().has_value());
    terminal.type(" q");
    CHECK(keys.read() == ' ');
    CHECK(keys.read() == 'q');
    CHECK(!keys.read().has_value());
    CHECK(terminal.received().empty());
}

TEST_CASE("an arrow key is no key of ours, whatever letters it sends") {
    PseudoTerminal terminal(40, 10);
    Keys keys(terminal.inside());
    terminal.type("\x1B[A\x1BOq");
    CHECK(!keys.read().has_value());
    CHECK(!keys.read().has_value());
    terminal.type("q");
    CHECK(keys.read() == 'q');
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
