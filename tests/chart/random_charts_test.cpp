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

/// The beats of each chord where chords share a bar without slashes.
const std::array<std::vector<std::vector<int>>, 4> shares = {{
    {{3}, {1, 1, 1}},
    {{4}, {2, 2}, {1, 1, 1, 1}},
    {{5}, {3, 2}, {1, 1, 1, 1, 1}},
    {{6}, {3, 3}, {2, 2, 2}, {1, 1, 1, 1, 1, 1}},
}};

class ChartMaker {
  public:
    ChartMaker(unsigned seed, int beats) : random_(seed), beats_(beats) {}

    /// A bar as text; the chord of each of its beats goes to `beats_made`, its kicks to
    /// `kicks_made`.
    std::string bar(bool first) {
        if (!first && below(5) == 0) {
            repeat_last_bar();
            return "%";
        }
        if (below(3) == 0) return by_the_beat(first);
        return evenly();
    }

    [[nodiscard]] const std::vector<std::string>& beats_made() const { return made_; }
    /// In eighths from the beginning of the section.
    [[nodiscard]] const std::vector<std::size_t>& kicks_made() const { return kicks_; }
    [[nodiscard]] unsigned below(unsigned n) { return static_cast<unsigned>(random_() % n); }

  private:
    std::string any_symbol() { return symbols[below(symbols.size())]; }

    /// The marks of kicks behind the sign that begins now.
    std::string marks() {
        const std::size_t now = made_.size() * 2;
        const auto kind = below(8);
        if (kind == 0 || kind == 1) kicks_.push_back(now);
        if (kind == 1 || kind == 2) kicks_.push_back(now + 1);
        return std::array<const char*, 4>{"!", "!&!", "&!", ""}[std::min(kind, 3U)];
    }

    void repeat_last_bar() {
        const auto beats = static_cast<std::size_t>(beats_);
        const std::size_t start = made_.size() - beats;
        for (const auto kick : std::vector<std::size_t>(kicks_)) {
            if (kick >= start * 2) kicks_.push_back(kick + beats * 2);
        }
        for (std::size_t i = 0; i < beats; ++i) made_.emplace_back(made_[start + i]);
    }

    std::string by_the_beat(bool first) {
        std::string text;
        for (int i = 0; i < beats_; ++i) {
            const bool go_on = below(2) == 0 && !(first && i == 0);
            if (!go_on) chord_ = any_symbol();
            text += (i > 0 ? " " : "") + (go_on ? "/" : chord_) + marks();
            // A slash that opens a bar goes on with the last chord heard, that of a simile too.
            made_.push_back(go_on ? std::string(made_.back()) : chord_);
        }
        return text;
    }

    std::string evenly() {
        const auto& ways = shares[static_cast<std::size_t>(beats_) - 3];
        std::string text;
        for (const int beats : ways[below(static_cast<unsigned>(ways.size()))]) {
            const auto symbol = any_symbol();
            text += (text.empty() ? "" : "  ") + symbol + marks();
            made_.insert(made_.end(), static_cast<std::size_t>(beats), symbol);
        }
        return text;
    }

    std::mt19937 random_;
    int beats_;
    std::string chord_;
    std::vector<std::string> made_;
    std::vector<std::size_t> kicks_;
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

/// The kicks of a section in eighths from its beginning.
std::vector<std::size_t> kicks_of(const chart::Section& section, int beats) {
    std::vector<std::size_t> kicks;
    std::size_t start = 0;
    for (const auto& bar : section.bars) {
        for (const auto kick : bar.kicks) {
            kicks.push_back(start + static_cast<std::size_t>(kick.count() / 480));
        }
        start += static_cast<std::size_t>(beats) * 2;
    }
    return kicks;
}

/// Bars as a section's own value or, with `manner`, behind a key of their own.
std::string random_section(ChartMaker& maker, int bars, const chart::AskedManner& manner = {}) {
    const bool block = maker.below(2) == 0;
    const bool map = !(manner == chart::AskedManner{}) || maker.below(3) == 0;
    const std::string start = std::string(map ? "      " : "    ") + (block ? "" : "- \"");
    const std::string end = block ? "\n" : "\"\n";
    std::string text = map ? "  A:\n" : "  A:";
    if (manner.bass) text += fmt::format("    bass: {}\n", chart::name_of(*manner.bass));
    if (manner.feel) text += fmt::format("    feel: {}\n", chart::name_of(*manner.feel));
    if (manner.drums) text += fmt::format("    drums: {}\n", chart::name_of(*manner.drums));
    text += std::string(map ? "    bars:" : "") + (block ? " |\n" : "\n") + start;
    for (int i = 0; i < bars; ++i) {
        const bool new_line = i > 0 && maker.below(4) == 0;
        if (new_line) text += end + start;
        if (i > 0 && !new_line) text += maker.below(2) == 0 ? " | " : "|";
        text += maker.bar(i == 0);
    }
    return text + end;
}

/// Any of the names, or none, for each.
chart::AskedManner random_manner(ChartMaker& maker) {
    chart::AskedManner manner;
    if (maker.below(2) == 0) manner.feel = static_cast<chart::Feel>(maker.below(4));
    if (maker.below(2) == 0) manner.drums = static_cast<chart::Drums>(maker.below(5));
    if (maker.below(2) == 0) manner.bass = static_cast<chart::Bass>(maker.below(4));
    return manner;
}

}  // namespace

TEST_CASE("charts made at random are read as they were meant, beat by beat and kick by kick") {
    for (unsigned seed = 0; seed < 400; ++seed) {
        const int beats = 3 + static_cast<int>(seed % 4);
        ChartMaker maker(seed, beats);
        const auto manner = random_manner(maker);
        const auto text =
            tests::chart_text(random_section(maker, 1 + static_cast<int>(seed % 40), manner),
                              fmt::format("{}/4", beats));
        INFO(text);
        const auto chart = chart::read_chart(text, "t.yaml");
        CHECK(chart.sections.front().manner == manner);
        CHECK(kicks_of(chart.sections.front(), beats) == maker.kicks_made());
        const auto beats_read = beats_of(chart.sections.front());
        REQUIRE(beats_read.size() == maker.beats_made().size());
        bool same = true;
        for (std::size_t i = 0; i < beats_read.size(); ++i) {
            same = same && beats_read[i] == chord_of(maker.beats_made()[i]);
        }
        CHECK(same);
    }
}

TEST_CASE("kicks of a random chart rise within each bar and stand on beats and off-beats") {
    for (unsigned seed = 0; seed < 100; ++seed) {
        const int beats = 3 + static_cast<int>(seed % 4);
        ChartMaker maker(seed, beats);
        const auto form = chart::unroll(chart::read_chart(
            tests::chart_text(random_section(maker, 24), fmt::format("{}/4", beats)), "t"));
        bool good = true;
        for (const auto& bar : form.bars) {
            time::Ticks before(-1);
            for (const auto kick : bar.kicks) {
                good = good && kick > before && kick < form.chart.meter.bar() &&
                       kick % time::eighth_note == time::Ticks(0);
                before = kick;
            }
        }
        CHECK(good);
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
