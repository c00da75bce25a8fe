// The player's screen, through a pseudo-terminal: which bytes reach it, and how it is left.

#include "../../src/app/terminal.hpp"

#include "app/emulated_terminal.hpp"
#include "app/pseudo_terminal.hpp"
#include "report/rows.hpp"
#include "support/catch.hpp"

#include <compline/report/large_view.hpp>

#include <algorithm>
#include <csignal>
#include <random>
#include <utility>

using namespace compline;
using app::Screen;
using tests::PseudoTerminal;
using Lines = std::vector<std::string>;

namespace {

constexpr const char* hide = "\x1B[?25l";
constexpr const char* show = "\x1B[?25h";

/// A line as it is drawn: from the left edge, cleared behind.
std::string drawn(const std::string& line) { return "\r" + line + "\x1B[K\n"; }

/// The whole window line by line, and back to its top.
std::string wiped_window(int rows) {
    std::string bytes = "\x1B[H\r\x1B[K";
    for (int row = 1; row < rows; ++row) bytes += "\n\x1B[K";
    return bytes + "\x1B[" + std::to_string(rows - 1) + "A";
}

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
    CHECK(terminal.received() == std::string("\r\x1B[2A\r\x1B[K\n\x1B[K\x1B[1A") + show);
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
          wiped_window(4) + "2nd time through\n" + drawn("one") + drawn("two"));
    // Printed before the next draw, as it may happen.
    on.terminal.resize(40, 10);
    on.screen.print("3rd time through");
    on.screen.draw({"one", "two"});
    CHECK(on.terminal.received() == wiped_window(10) +
                                        "1st time through\n2nd time through\n3rd time through\n\r" +
                                        drawn("one") + drawn("two"));
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

namespace {

/// A screen and what is seen of it, as its window changes.
struct Seen {
    PseudoTerminal terminal{80, 24};
    Screen screen{terminal.inside(), "xterm", nullptr};
    tests::EmulatedTerminal window{80, 24};

    void resize(unsigned short columns, unsigned short rows) {
        window.take(terminal.received());
        terminal.resize(columns, rows);
        window.resize(columns, rows);
    }
    [[nodiscard]] Lines now() {
        window.take(terminal.received());
        return window.seen();
    }
    /// So many lines that say which of them they are, and at which draw.
    static Lines block(int lines, int draw) {
        Lines block;
        for (int i = 1; i <= lines; ++i) {
            block.push_back("line " + std::to_string(i) + " of draw " + std::to_string(draw));
        }
        return block;
    }
};

}  // namespace

TEST_CASE("whatever sizes a window goes through, nothing of an older one stays") {
    Seen seen;
    const std::vector<std::pair<unsigned short, unsigned short>> sizes{
        {80, 24}, {30, 10}, {80, 12}, {30, 10}, {120, 40}, {22, 3}, {80, 24}, {200, 5}, {30, 10}};
    int draw = 0;
    for (const auto& [columns, rows] : sizes) {
        seen.resize(columns, rows);
        for (const int lines : {6, 15, 2}) {
            const auto block = Seen::block(std::min(lines, seen.screen.lines()), ++draw);
            seen.screen.draw(block);
            CHECK(seen.now() == block);
        }
    }
}

TEST_CASE("printed lines stand above the block at every size, broken at blanks") {
    Seen seen;
    seen.screen.print("Blue Kettle on the Back Stairs: 48000 Hz, 256 frames");
    seen.screen.print("1st time through");
    const auto block = Seen::block(3, 1);
    const auto check = [&](Lines above) {
        seen.screen.draw(block);
        above.insert(above.end(), block.begin(), block.end());
        CHECK(seen.now() == above);
    };
    check({"Blue Kettle on the Back Stairs: 48000 Hz, 256 frames", "1st time through"});
    seen.resize(32, 10);
    check({"Blue Kettle on the Back Stairs:", "48000 Hz, 256 frames", "1st time through"});
    seen.resize(32, 6);
    check({"1st time through"});
    seen.resize(32, 8);
    seen.screen.print("2nd time through: 16 of 16 changes in time");
    check({"1st time through", "2nd time through: 16 of 16", "changes in time"});
    seen.screen.print("one\ntwo");
    check({"2nd time through: 16 of 16", "changes in time", "one", "two"});
}

TEST_CASE("a window that has its old size again is drawn anew too") {
    Seen seen;
    seen.screen.draw(Seen::block(3, 1));
    seen.resize(20, 2);
    seen.resize(80, 24);
    CHECK(seen.now() != Seen::block(3, 1));
    (void)std::raise(SIGWINCH);
    seen.screen.draw(Seen::block(3, 1));
    CHECK(seen.now() == Seen::block(3, 1));
}

TEST_CASE("a small view and one that fills the window leave nothing of each other") {
    Seen seen;
    seen.screen.print("1st time through");
    seen.screen.draw(Seen::block(4, 1));
    seen.screen.draw(Seen::block(seen.screen.lines(), 2));
    CHECK(seen.now() == Seen::block(23, 2));
    CHECK(seen.window.scrolled() == Lines{"1st time through"});
    seen.screen.draw(Seen::block(4, 3));
    CHECK(seen.now() == Seen::block(4, 3));
    seen.screen.print("2nd time through");
    auto with_line = Seen::block(4, 3);
    with_line.insert(with_line.begin(), "2nd time through");
    CHECK(seen.now() == with_line);
    seen.screen.draw(Seen::block(seen.screen.lines(), 4));
    CHECK(seen.now() == Seen::block(23, 4));
    CHECK(seen.window.scrolled() == Lines{"1st time through", "2nd time through"});
}

TEST_CASE("no printed line is lost when a window that is filled changes its size") {
    for (const auto& [columns, rows] :
         {std::pair<unsigned short, unsigned short>{120, 40}, {60, 12}}) {
        Seen seen;
        seen.screen.draw(Seen::block(seen.screen.lines(), 1));
        seen.screen.print("1st time through");
        seen.screen.print("2nd time through");
        seen.resize(columns, rows);
        const auto before = seen.window.scrolled().size();
        const auto block = Seen::block(seen.screen.lines(), 2);
        seen.screen.draw(block);
        CHECK(seen.now() == block);
        // A terminal may have brought them back into the window: so they scroll away again.
        const auto& scrolled = seen.window.scrolled();
        CHECK(Lines(scrolled.begin() + static_cast<std::ptrdiff_t>(before), scrolled.end()) ==
              Lines{"1st time through", "2nd time through"});
    }
}

TEST_CASE("a view that fills the window lets printed lines scroll away above it, each once") {
    Seen seen;
    seen.screen.draw(Seen::block(seen.screen.lines(), 1));
    seen.screen.print("1st time through");
    seen.screen.print("2nd time through");
    CHECK(seen.now() == Seen::block(23, 1));
    CHECK(seen.window.scrolled() == Lines{"1st time through", "2nd time through"});
    CHECK(seen.screen.printed().back() == "2nd time through");
    seen.screen.close();
    CHECK(seen.now().empty());
    CHECK(seen.window.scrolled() == Lines{"1st time through", "2nd time through"});
}

TEST_CASE("where nobody takes a line and nothing is drawn the line is left out, not waited for") {
    const tests::Pipe pipe;
    Screen screen(pipe.to, "dumb", nullptr);
    const std::string long_line(1000, 'x');
    for (int i = 0; i < 1000; ++i) screen.print(long_line);
    const auto taken = tests::all_of(pipe.from);
    CHECK(!taken.empty());
    CHECK(taken.size() % 1001 == 0);
    CHECK(taken.size() < 1000 * 1001);
}

TEST_CASE(
    "whatever is drawn, printed and resized in whatever order, the window shows what is now") {
    std::mt19937 random(20270112);
    const auto below = [&](unsigned n) { return static_cast<int>(random() % n); };
    const auto form = tests::six_and_eight();
    const roadmap::RoadMap map(form, roadmap::Asked::of(form.whole(), std::nullopt));
    for (int evening = 0; evening < 20; ++evening) {
        Seen seen;
        auto view = report::View::rows;
        for (int turn = 0; turn < 30; ++turn) {
            if (below(4) == 0) {
                seen.resize(static_cast<unsigned short>(25 + below(120)),
                            static_cast<unsigned short>(3 + below(45)));
                (void)std::raise(SIGWINCH);
            }
            if (below(3) == 0) {
                view = view == report::View::rows ? report::View::large : report::View::rows;
            }
            if (below(3) == 0) seen.screen.print("message " + std::to_string(turn));
            const int columns = seen.screen.columns();
            const report::Playing playing{map, false, nullptr, {}, {columns, seen.screen.lines()},
                                          view};
            const auto rows = report::chart_rows(form, form.all(), columns);
            const auto at = time::quarter_note * below(200);
            auto lines = view == report::View::large
                             ? report::large_view(rows, playing, at, seen.screen.printed())
                             : report::now_playing(rows, playing, at);
            seen.screen.draw(lines);
            // At the bottom of what is seen the block stands, whole; above it what was printed.
            auto now = seen.now();
            for (auto& line : lines) line = report::cut_to_columns(line, columns);
            while (!lines.empty() && lines.back().empty()) lines.pop_back();
            for (auto& line : lines) line.erase(line.find_last_not_of(' ') + 1);
            REQUIRE(now.size() >= lines.size());
            const auto block = now.end() - static_cast<std::ptrdiff_t>(lines.size());
            CHECK(Lines(block, now.end()) == lines);
            CHECK(std::all_of(now.begin(), block,
                              [](const std::string& line) { return line.find("message ") == 0; }));
        }
    }
}
