// What a player reads standing: every situation of an evening, in four windows, as it looks; and
// rules that hold in all windows.

#include "report/rows.hpp"
#include "support/catch.hpp"
#include "support/golden.hpp"
#include "support/our_forms.hpp"
#include "support/voicings.hpp"

#include <compline/report/large_view.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <deque>

using namespace compline;
using namespace compline::tests;
using time::Ticks;

namespace {

/// Long and short symbols, bars of one, two and three chords.
chart::Form rain() {
    return form_from(
        "  A: F6 | G7b9b13 | Gm7 C7 | F#m7b5/E | Dm7 | Dbmaj7#11\n"
        "  B: Bdim7 | C6/9 | Em(maj7) A7alt | Ab13sus4 | N.C. | Dm7 / / G7\n",
        "[A, B]");
}

guitar::VoicingPlan grips_of(const chart::Form& form) {
    return plan_by_hand(form, {{"F6", {"1x023x", "1x023x"}},
                               {"Gm7", {"3x333x", "2x333x"}},
                               {"C7", {"x3535x", "x1314x"}},
                               {"F#m7b5/E", {"0x4555", ""}},
                               {"Dm7", {"x-10-12-10-13-x", "x1314x"}}});
}

struct Standing {
    chart::Form form = rain();
    roadmap::Asked asked = roadmap::Asked::of(form.whole(), 3);
    std::vector<roadmap::Decision> decisions;
    report::Decided decided;
    guitar::VoicingPlan grips = grips_of(form);
    bool voicings = false;
    report::Hand hand = report::Hand::right;
    int columns = 80;
    int lines = 23;
    std::deque<std::string> messages{"Tin Roof Rain: an output, 48000 Hz, 256 frames",
                                     "1st time through: 15 changes, 13 in time, 2 late, wrong "
                                     "tones in 1; 6 ms behind, SD 14 ms"};

    Standing() { asked.tempo = time::Bpm(132); }
    [[nodiscard]] Lines at(double beat) const {
        const report::Playing playing{roadmap::RoadMap(form, asked, decisions),
                                      false,
                                      voicings ? &grips : nullptr,
                                      decided,
                                      {columns, lines},
                                      report::View::large,
                                      hand};
        return report::large_view(report::chart_rows(form, form.all(), columns), playing,
                                  Ticks(static_cast<std::int64_t>(beat * 960)), messages);
    }
    [[nodiscard]] std::string text(const char* what, double beat) const {
        return fmt::format("{}:\n{}\n\n", what, fmt::join(at(beat), "\n"));
    }
};

/// An evening in a window, by its columns and rows.
std::string evening(int columns, int rows) {
    Standing standing;
    standing.columns = columns;
    standing.lines = rows - 1;
    auto text = standing.text("the count-in, second bar, on 3", -2);
    text += standing.text("a short symbol, a long one to come", 1);
    text += standing.text("a long symbol", 4);
    text += standing.text("a bar with two chords, on 2", 9);
    text += standing.text("a flat fifth over another bass", 12);
    text += standing.text("the next chord is on 4", 45);
    standing.decided.loop = chart::Passage{9, 10};
    standing.asked.silence = roadmap::read_silence("8:4");
    text += standing.text("silence and no chord, in a loop", 41);
    standing.asked.silence = {};
    standing.decided.drums_out = true;
    standing.decided.refused = "no faster";
    text += standing.text("drums out, in a loop", 33);
    standing.decided = {};
    standing.voicings = true;
    text += standing.text("a grip from the nut", 0);
    text += standing.text("a barre", 8);
    text += standing.text("no fingers known, half a beat before it is due", 11.5);
    text += standing.text("a grip far up the neck", 16);
    standing.decisions = {{6, roadmap::Stopped{}}};
    standing.decided.paused = true;
    text += standing.text("the last bar before a pause", 19);
    text += standing.text("a pause", 23);
    return text;
}

std::size_t count(const Lines& lines, const std::string& part) {
    std::size_t n = 0;
    for (const auto& line : lines) {
        for (auto at = line.find(part); at != std::string::npos; at = line.find(part, at + 1)) ++n;
    }
    return n;
}

}  // namespace

TEST_CASE("an evening read standing, in a window of 80 by 24", "[report][golden]") {
    check_golden(evening(80, 24), "report/golden/large-view-80x24.txt");
}

TEST_CASE("an evening read standing, in a window of 100 by 40", "[report][golden]") {
    check_golden(evening(100, 40), "report/golden/large-view-100x40.txt");
}

TEST_CASE("an evening read standing, in a window of 200 by 50", "[report][golden]") {
    check_golden(evening(200, 50), "report/golden/large-view-200x50.txt");
}

TEST_CASE("an evening read standing, in a window of 40 by 15", "[report][golden]") {
    check_golden(evening(40, 15), "report/golden/large-view-40x15.txt");
}

TEST_CASE("in every window the large view has its height, and no line is wider", "[report]") {
    Standing standing;
    for (const bool voicings : {false, true}) {
        standing.voicings = voicings;
        for (const int columns : {24, 33, 40, 57, 80, 131, 220}) {
            standing.columns = columns;
            for (int lines = 11; lines <= 60; lines += 7) {
                standing.lines = lines;
                bool good = true;
                for (double beat = -8.5; beat < 50; beat += 1.5) {
                    const auto shown = standing.at(beat);
                    good = good && shown.size() == static_cast<std::size_t>(lines);
                    for (const auto& line : shown) {
                        good = good && report::columns_of(line) <= columns;
                    }
                }
                INFO(columns << " columns, " << lines << " lines");
                CHECK(good);
            }
        }
    }
}

TEST_CASE("a window too small for anything large has the chord and the next one in words",
          "[report]") {
    Standing standing;
    standing.columns = 60;
    standing.lines = 10;
    const auto shown = standing.at(8);
    CHECK(shown[0] == "Gm7, C7 on 3");
    CHECK(shown[1] == "A   1st of 3   bar 3 of 12   132 bpm");
    CHECK(shown.size() == 5);
    CHECK(standing.at(0)[0] == "F6, G7♭9♭13 next bar");
    CHECK(standing.at(40)[0] == "N.C., Dm7 next bar");
    CHECK(standing.at(-3)[0] == "count-in 1 - 2 - 1 2, then F6");
    for (const int lines : {1, 2, 3}) {
        standing.lines = lines;
        CHECK(standing.at(8).size() == static_cast<std::size_t>(lines));
    }
    standing.lines = 40;
    standing.columns = 23;
    CHECK(standing.at(0)[0] == "F6, G7♭9♭13 next bar");
    standing.columns = 5;
    CHECK(standing.at(0)[0] == "F6, …");
}

TEST_CASE("as many blocks as the meter has beats stand across the window, the one that is now full",
          "[report]") {
    for (const auto& [meter, beats] :
         {std::pair("4/4", 4), {"3/4", 3}, {"5/4", 5}, {"6/8", 2}, {"12/8", 4}}) {
        Standing standing;
        standing.form = form_in_rows({"F6 | F6"}, meter);
        standing.asked = roadmap::Asked::of(standing.form.whole(), 3);
        standing.lines = 30;
        const auto written = standing.form.bar(1).meter;
        for (int beat = 0; beat < 2 * beats; ++beat) {
            const auto shown =
                standing.at(static_cast<double>((written.beat() * beat).count() + 1) / 960);
            // Of the two lines of blocks the upper one shows the full one alone.
            const auto lower = std::find_if(shown.begin(), shown.end(), [](const auto& line) {
                return report::columns_of(line) == 80 && line.find(' ') > 9;
            });
            REQUIRE(lower != shown.end());
            const auto upper = *(lower - 1);
            INFO(meter << ", beat " << beat + 1 << "\n" << upper << "\n" << *lower);
            const auto gaps = [](const std::string& line) {
                std::size_t n = 0;
                for (std::size_t at = line.find("  "); at != std::string::npos;
                     at = line.find("  ", line.find_first_not_of(' ', at))) {
                    ++n;
                }
                return n;
            };
            CHECK(gaps(*lower) == static_cast<std::size_t>(beats - 1));
            const int width = 82 / beats;
            const int from = report::columns_of(upper.substr(0, upper.find("█")));
            CHECK(std::abs(from - (beat % beats) * 82 / beats) <= 1);
            CHECK(std::abs(static_cast<int>(count({upper}, "█")) - (width - 2)) <= 2);
        }
    }
}

TEST_CASE("what is now stands at one place, whatever the chords are called", "[report]") {
    Standing standing;
    for (const int lines : {23, 39}) {
        standing.lines = lines;
        for (int bar = 0; bar < 12; ++bar) {
            const auto shown = standing.at(4.0 * bar + 0.1);
            // The last lines of the blocks and the first of the next chord, and nothing between.
            const std::size_t beats = lines == 23 ? 13 : 25;
            CHECK(report::columns_of(shown[beats]) == 80);
            CHECK(shown[beats].find("    ") == std::string::npos);
            CHECK(shown[beats + 1].find("next") != std::string::npos);
        }
    }
}

TEST_CASE("the newest messages stand in the last lines, the newest last", "[report]") {
    Standing standing;
    standing.messages = {"one", "two", "three", "four"};
    const auto last = [&](std::size_t n) {
        const auto shown = standing.at(0);
        return Lines(shown.end() - static_cast<std::ptrdiff_t>(n), shown.end());
    };
    CHECK(last(3)[0].find("space: pause") == 0);
    CHECK(last(2) == Lines{"three", "four"});
    standing.lines = 39;
    CHECK(last(3) == Lines{"two", "three", "four"});
    standing.lines = 14;
    CHECK(last(1) == Lines{"four"});
    // A long one has its beginning, and no tail of an older one stands above it.
    standing.messages.emplace_back(
        "the first of many words, and so on, and on, and then some more of it");
    standing.columns = 30;
    CHECK(last(1) == Lines{"the first of many words, and …"});
    standing.lines = 16;
    CHECK(last(2) == Lines{"the first of many words, and", "so on, and on, and then some …"});
    standing.messages.clear();
    CHECK(last(2) == Lines{"", ""});
}

TEST_CASE("our charts are large in every bar of a usual window, with their grips too", "[report]") {
    for (const auto& form : our_forms()) {
        Standing standing;
        standing.form = form;
        standing.asked = roadmap::Asked::of(form.whole(), 1);
        standing.grips = plan_by_hand(form);
        for (const bool voicings : {false, true}) {
            standing.voicings = voicings;
            const auto bar = form.bar(1).meter.bar();
            for (int n = 0; n < form.whole().bars(); ++n) {
                const auto shown = standing.at(static_cast<double>((bar * n).count()) / 960);
                // Large letters alone above the beats: nothing is written there but the neck.
                bool large = false;
                for (std::size_t line = 0; line < 11; ++line) {
                    CHECK(shown[line].find_first_of("ABCDEFG#b7") == std::string::npos);
                    large = large || shown[line].find("█") != std::string::npos;
                }
                CHECK(large);
            }
        }
    }
}

TEST_CASE("without attributes and with them the large view reads the same", "[report]") {
    const Standing standing;
    for (const auto& line : standing.at(9)) CHECK(line.find('\x1B') == std::string::npos);
}
