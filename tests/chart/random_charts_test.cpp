#include "chart/support.hpp"
#include "support/catch.hpp"

#include <compline/chart/form.hpp>

#include <algorithm>
#include <array>
#include <optional>
#include <random>
#include <string>
#include <vector>

using namespace compline;

// Charts are made at random with what they must be read as, beat by beat, and written out in one of
// the ways that mean it. The generator is mt19937, whose numbers the standard fixes.

namespace {

const std::array<std::string, 12> symbols = {"F6",  "B♭7",  "Gm7",    "C7♭9", "Am7b5", "D7#5",
                                             "Ebø", "C6/9", "F#dim7", "C7/E", "N.C.",  "A♭maj7"};

class ChartMaker {
  public:
    ChartMaker(unsigned seed, int beats) : random_(seed), beats_(beats) {}

    /// A bar as text; the chord of each of its beats goes to `beats_made`.
    std::string bar(bool first) {
        if (!first && below(5) == 0) {
            repeat_last_bar();
            return "%";
        }
        if (below(3) == 0) return by_the_beat(first);
        return evenly();
    }

    [[nodiscard]] const std::vector<std::string>& beats_made() const { return made_; }
    [[nodiscard]] unsigned below(unsigned n) { return static_cast<unsigned>(random_() % n); }

  private:
    std::string any_symbol() { return symbols[below(symbols.size())]; }

    void repeat_last_bar() {
        const std::size_t start = made_.size() - static_cast<std::size_t>(beats_);
        for (int i = 0; i < beats_; ++i) {
            made_.emplace_back(made_[start + static_cast<std::size_t>(i)]);
        }
    }

    std::string by_the_beat(bool first) {
        std::string text;
        for (int i = 0; i < beats_; ++i) {
            const bool go_on = below(2) == 0 && !(first && i == 0);
            if (!go_on) chord_ = any_symbol();
            text += (i > 0 ? " " : "") + (go_on ? "/" : chord_);
            // A slash that opens a bar goes on with the last chord heard, that of a simile too.
            made_.push_back(go_on ? std::string(made_.back()) : chord_);
        }
        return text;
    }

    std::string evenly() {
        const int most = beats_ == 4 ? 3 : 2;
        const std::array<int, 3> fours = {1, 2, 4};
        const std::array<int, 3> threes = {1, 3, 3};
        const int chords = (beats_ == 4 ? fours : threes)[below(static_cast<unsigned>(most))];
        std::string text;
        for (int i = 0; i < chords; ++i) {
            const auto symbol = any_symbol();
            text += (i > 0 ? "  " : "") + symbol;
            made_.insert(made_.end(), static_cast<std::size_t>(beats_ / chords), symbol);
        }
        return text;
    }

    std::mt19937 random_;
    int beats_;
    std::string chord_;
    std::vector<std::string> made_;
};

std::optional<harmony::Chord> chord_of(const std::string& symbol) {
    if (symbol == "N.C.") return std::nullopt;
    return harmony::read_chord(symbol);
}

/// The chord that sounds on each beat of a section.
std::vector<std::optional<harmony::Chord>> beats_of(const chart::Section& section) {
    std::vector<std::optional<harmony::Chord>> beats;
    for (const auto& bar : section.bars) {
        for (const auto& slot : bar.slots) {
            const auto length = slot.length / time::quarter_note;
            beats.insert(beats.end(), static_cast<std::size_t>(length), slot.chord);
        }
    }
    return beats;
}

std::string random_section(ChartMaker& maker, int bars) {
    const bool block = maker.below(2) == 0;
    const std::string start = block ? "    " : "    - \"";
    const std::string end = block ? "\n" : "\"\n";
    std::string text = block ? "  A: |\n" + start : "  A:\n" + start;
    for (int i = 0; i < bars; ++i) {
        const bool new_line = i > 0 && maker.below(4) == 0;
        if (new_line) text += end + start;
        if (i > 0 && !new_line) text += maker.below(2) == 0 ? " | " : "|";
        text += maker.bar(i == 0);
    }
    return text + end;
}

}  // namespace

TEST_CASE("charts made at random are read as they were meant, beat by beat") {
    for (unsigned seed = 0; seed < 300; ++seed) {
        const int beats = seed % 2 == 0 ? 4 : 3;
        ChartMaker maker(seed, beats);
        const auto text = tests::chart_text(random_section(maker, 1 + static_cast<int>(seed % 40)),
                                            beats == 4 ? "4/4" : "3/4");
        INFO(text);
        const auto chart = chart::read_chart(text, "t.yaml");
        const auto beats_read = beats_of(chart.sections.front());
        REQUIRE(beats_read.size() == maker.beats_made().size());
        bool same = true;
        for (std::size_t i = 0; i < beats_read.size(); ++i) {
            same = same && beats_read[i] == chord_of(maker.beats_made()[i]);
        }
        CHECK(same);
    }
}

TEST_CASE("neighbouring slots of a bar never have the same chord, and fill it") {
    for (unsigned seed = 0; seed < 100; ++seed) {
        ChartMaker maker(seed, 4);
        const auto form =
            chart::unroll(chart::read_chart(tests::chart_text(random_section(maker, 24)), "t"));
        bool merged = true;
        time::Ticks end;
        for (std::size_t i = 0; i < form.spans.size(); ++i) {
            const auto& span = form.spans[i];
            merged = merged && span.start == end;
            end = span.start + span.length;
            if (i == 0 || form.spans[i - 1].bar != span.bar) continue;
            merged = merged && !(form.spans[i - 1].chord == span.chord);
        }
        CHECK(merged);
        CHECK(end == form.length());
    }
}

TEST_CASE("a wrong chord anywhere in a random chart is found at its place") {
    for (unsigned seed = 0; seed < 100; ++seed) {
        ChartMaker maker(seed, 4);
        std::string section = random_section(maker, 16);
        // Put a symbol that is none in the place of the last chord: the text's last blank-free run.
        const bool quoted = section[section.size() - 2] == '"';
        const auto end = section.size() - (quoted ? 2 : 1);
        section.replace(end, 0, " | X");
        const auto text = tests::chart_text(section);
        const auto offset = text.rfind('X');
        const auto line_start = text.rfind('\n', offset) + 1;
        const auto line = std::count(text.begin(), text.begin() + static_cast<long>(offset), '\n');
        // Bytes that begin a code point: all but the followers 10xxxxxx of UTF-8.
        const auto column = std::count_if(
            text.begin() + static_cast<long>(line_start), text.begin() + static_cast<long>(offset),
            [](char c) { return (static_cast<unsigned char>(c) & 0xC0) != 0x80; });
        const auto problems = tests::problems_of(text);
        REQUIRE(problems.size() == 1);
        CHECK(problems.front() ==
              fmt::format("{}:{}: \"X\" is not a chord: a chord starts with a letter A to G "
                          "(N.C. where nobody plays)",
                          line + 1, column + 1));
    }
}
