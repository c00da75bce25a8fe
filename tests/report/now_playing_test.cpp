// What the player sees while the band plays.

#include "report/rows.hpp"
#include "support/catch.hpp"
#include "support/our_forms.hpp"
#include "support/voicings.hpp"

#include <compline/chart/road_map_text.hpp>
#include <compline/report/fret_diagram.hpp>
#include <compline/report/now_playing.hpp>
#include <compline/roadmap/road_map.hpp>

#include <algorithm>

using namespace compline;
using namespace compline::tests;
using report::Playing;
using time::eighth_note;
using time::Ticks;

namespace {

constexpr const char* keys =
    "space: pause  ↑ ↓: tempo  l: loop here  d b: drums, bass  Home: top  q: stop";

struct Shown {
    chart::Form form;
    chart::Passage passage;
    roadmap::Asked asked;
    std::vector<roadmap::Decision> decided;
    bool attributes = false;
    const guitar::VoicingPlan* voicings = nullptr;
    report::Decided wishes;
    report::Hand hand = report::Hand::right;
    int columns = 80;
    int height = 23;

    explicit Shown(const chart::Form& f) : form(f), passage(f.whole()) {
        asked.tempo = time::Bpm(132);
        play(std::nullopt);
    }
    void play(std::optional<int> times) { asked.way = chart::Way::of(passage, times); }
    void show(chart::Passage p, std::optional<int> times) {
        passage = p;
        play(times);
    }
    [[nodiscard]] Playing playing() const {
        return {roadmap::RoadMap(form, asked, decided),
                attributes,
                voicings,
                wishes,
                {columns, height},
                report::View::rows,
                hand};
    }
    [[nodiscard]] report::ChartRows rows() const {
        return report::chart_rows(form, passage, columns);
    }
    [[nodiscard]] Lines at(Ticks position) const {
        return report::now_playing(rows(), playing(), position);
    }
    /// At a beat (from 0) from the passage's first.
    [[nodiscard]] Lines at(int beat) const { return at(time::quarter_note * beat); }
};

std::size_t count(const std::string& text, const std::string& part) {
    std::size_t n = 0;
    for (auto at = text.find(part); at != std::string::npos; at = text.find(part, at + 1)) ++n;
    return n;
}

chart::Form with_signs(const std::string& signs, const std::string& sections) {
    return chart::unroll(chart::read_chart(signs + chart_text(sections), "t.yaml"));
}

/// Columns before the first of `wanted` in a line.
int column_of(const std::string& line, const char* wanted) {
    return report::columns_of(line.substr(0, line.find_first_of(wanted)));
}

/// The display at every beat of a time through: one bar and one beat are marked, the right ones.
void check_marks(const Shown& shown) {
    const auto rows = shown.rows();
    const auto playing = shown.playing();
    const int beats = shown.form.chart.meter.beats();
    for (int n = 0; n < shown.passage.bars() * beats; ++n) {
        // The last tick of a beat belongs to it.
        const auto lines =
            report::now_playing(rows, playing, time::quarter_note * (n + 1) - Ticks(1));
        const auto& row = rows.rows[rows.row_of(shown.passage.from + n / beats)];
        const auto bar = std::find_if(row.bars.begin(), row.bars.end(), [&](const auto& b) {
            return b.number == shown.passage.from + n / beats;
        });
        INFO(lines[0] << "\n" << lines[1]);
        bool good = count(lines[0], "[") == 1 && count(lines[0], "]") == 1;
        good = good && column_of(lines[0], "[") == bar->column - 1;
        good = good && column_of(lines[0], "]") == bar->column + bar->width;
        const auto beat = static_cast<std::size_t>(n % beats);
        good = good && column_of(lines[1], "123456") == bar->beats[beat];
        good = good && lines[1].find(std::to_string(beat + 1)) != std::string::npos;
        good = good && count(lines[1], "·") == static_cast<std::size_t>(beats - 1);
        good = good && lines[2].find_first_of("[]") == std::string::npos;
        CHECK(good);
    }
}

void check_size(const Lines& lines, int columns) {
    CHECK(lines.size() == report::now_playing_lines);
    for (const auto& line : lines) CHECK(report::columns_of(line) <= columns);
}

/// The sizes of a session of two times through, count-in and end included.
void check_sizes(Shown shown) {
    shown.play(2);
    const auto rows = shown.rows();
    const auto playing = shown.playing();
    const auto beats = shown.form.chart.meter.beats();
    for (int n = -2 * beats - 1; n < (2 * shown.passage.bars() + 1) * beats; ++n) {
        const auto lines = report::now_playing(rows, playing, time::quarter_note * n);
        check_size(lines, shown.columns);
    }
}

}  // namespace

TEST_CASE("the row being played, its bar in brackets, the beat below, and the next row",
          "[report]") {
    CHECK(Shown(blues_form()).at(5) ==
          Lines{"A | F7              [ B♭7             ] F7              | Cm7     F7      |",
                "                      ·   2   ·   ·",
                "A | B♭7             | Bdim7           | F7              | Am7♭5   D7♭9    |", "",
                "1st time through   bar 2 of 12   132 bpm", keys});
}

TEST_CASE("signs and cue words stand under their bars, behind the beats where it is being played",
          "[report]") {
    const auto form = with_signs(
        "segno: \"B:2\"\nto coda: \"B:4\"\nfine: \"B:3\"\ncues: {\"B:1\": drums break}\n",
        "  A: C6\n  B: F7 | Bb7 | Gm7 | C7\n  Coda: F6\n");
    const Shown shown(form);
    CHECK(shown.at(5)[0] ==
          "B [ F7              ] B♭7             | Gm7             | C7              |");
    CHECK(shown.at(5)[1] == "    ·   2   ·   · drums break  segno   fine              to coda");
    CHECK(shown.at(16)[1] ==
          "   drums break       segno             fine               1   ·   ·   · to coda");
}

TEST_CASE("the first and the last bar of a row are marked at the row's ends", "[report]") {
    const Shown shown(blues_form());
    CHECK(shown.at(0)[0] ==
          "A [ F7              ] B♭7             | F7              | Cm7     F7      |");
    CHECK(shown.at(0)[1] == "    1   ·   ·   ·");
    CHECK(shown.at(15)[0] ==
          "A | F7              | B♭7             | F7              [ Cm7     F7      ]");
    CHECK(shown.at(15)[1] ==
          "                                                          ·   ·   ·   4");
}

TEST_CASE("after the last row the first comes again, in the next time through", "[report]") {
    const Shown shown(blues_form());
    const auto last = shown.at(47);
    CHECK(last[0] == "A | Gm7             | C7              | F7      D7      [ Gm7     C7      ]");
    CHECK(last[2] == "A | F7              | B♭7             | F7              | Cm7     F7      |");
    const auto again = shown.at(48);
    CHECK(again[0] ==
          "A [ F7              ] B♭7             | F7              | Cm7     F7      |");
    CHECK(again[1] == "    1   ·   ·   ·");
    CHECK(again[4] == "2nd time through   bar 1 of 12   132 bpm");
}

TEST_CASE("after the last row of the last time through nothing comes", "[report]") {
    Shown shown(blues_form());
    shown.play(2);
    CHECK(shown.at(47)[4] == "1st of 2   bar 12 of 12   132 bpm");
    CHECK(!shown.at(47)[2].empty());
    CHECK(shown.at(95)[4] == "2nd of 2   bar 12 of 12   132 bpm");
    CHECK(shown.at(95)[2].empty());
    CHECK(!shown.at(79)[2].empty());  // the last but one row
}

TEST_CASE("when the last time through is over no bar is marked", "[report]") {
    Shown shown(blues_form());
    shown.play(2);
    for (const int beat : {96, 100, 1000}) {
        CHECK(shown.at(beat) ==
              Lines{"A | Gm7             | C7              | F7      D7      | Gm7     C7      |",
                    "", "", "", "2nd of 2   bar 12 of 12   132 bpm", keys});
    }
}

TEST_CASE("two bars of count-in are counted as a drummer does, the first row standing ready",
          "[report]") {
    const Shown shown(blues_form());
    const auto first = shown.at(-8);
    CHECK(first[0] ==
          "A | F7              | B♭7             | F7              | Cm7     F7      |");
    CHECK(first[1] == "count-in   1");
    CHECK(first[2] ==
          "A | B♭7             | Bdim7           | F7              | Am7♭5   D7♭9    |");
    CHECK(first[4] == "1st time through   bar 1 of 12   132 bpm");
    CHECK(shown.at(-7)[1] == "count-in   1 -");
    CHECK(shown.at(-6)[1] == "count-in   1 - 2");
    CHECK(shown.at(-5)[1] == "count-in   1 - 2 -");
    CHECK(shown.at(-4)[1] == "count-in   1 - 2 -   1");
    CHECK(shown.at(-1)[1] == "count-in   1 - 2 -   1 2 3 4");
    CHECK(shown.at(Ticks(-1))[1] == "count-in   1 - 2 -   1 2 3 4");
    CHECK(shown.at(Ticks(-960 * 8 - 1))[1] == "count-in");
    CHECK(shown.at(0)[1] == "    1   ·   ·   ·");
}

TEST_CASE("one bar of count-in, none, and a waltz's, as the band plays them", "[report]") {
    Shown shown(blues_form());
    shown.asked.count_in_bars = 1;
    CHECK(shown.at(-4)[1] == "count-in   1");
    CHECK(shown.at(-1)[1] == "count-in   1 2 3 4");
    shown.asked.count_in_bars = 0;
    CHECK(shown.at(-1)[1] == "count-in");
    Shown waltz(form_in_rows({"G6 | Bm7 E7 Am7 | Am7 / D7 | G6"}, "3/4"));
    CHECK(waltz.at(-1)[1] == "count-in   1 - -   1 2 3");
}

TEST_CASE("a waltz is marked on three beats", "[report]") {
    const Shown waltz(form_in_rows({"G6 | Bm7 E7 Am7 | Am7 / D7 | G6"}, "3/4"));
    CHECK(waltz.at(5)[0] ==
          "A | G6             [ Bm7  E7   Am7  ] Am7       D7   | G6             |");
    CHECK(waltz.at(5)[1] == "                     ·    ·    3");
}

TEST_CASE("a loop names its bars as the form does, and comes round again", "[report]") {
    Shown shown(blues_form());
    shown.show({9, 10}, 8);
    CHECK(shown.at(8 * 2 + 5) == Lines{"A | Gm7             [ C7              ]",  //
                                       "                      ·   2   ·   ·",
                                       "A | Gm7             | C7              |",  //
                                       "", "3rd of 8   bar 10 of 12   132 bpm", keys});
}

TEST_CASE("rows never run on from one section into the next", "[report]") {
    const Shown shown(six_and_eight());
    const auto lines = shown.at(5 * 4);
    CHECK(lines[0] == "A | C6              [ G7              ]");
    CHECK(lines[2] ==
          "A | C6              |         %       | Dm7             | G7              |");
}

TEST_CASE("one bar alone is marked like any other", "[report]") {
    Shown shown(blues_form());
    shown.show({4, 4}, std::nullopt);
    CHECK(shown.at(2)[0] == "A [ Cm7     F7      ]");
    CHECK(shown.at(2)[1] == "    ·   ·   3   ·");
    CHECK(shown.at(2)[2] == "A | Cm7     F7      |");
}

TEST_CASE("on a narrow terminal the status is shorter", "[report]") {
    Shown shown(blues_form());
    shown.columns = 40;
    CHECK(shown.at(0)[4] == "1st time through   bar 1 of 12   132 bpm");
    shown.asked.tempo = time::Bpm(132.5);
    CHECK(shown.at(0)[4] == "1st time through  bar 1 of 12  132.5 bpm");
    shown.columns = 38;
    CHECK(shown.at(0)[4] == "1st time   bar 1 of 12   132.5 bpm");
    shown.columns = 30;
    CHECK(shown.at(0)[4] == "1st time   bar 1   132.5 bpm");
}

TEST_CASE("the tempo is that of the bar being played", "[report]") {
    Shown shown(blues_form());
    shown.play(2);
    shown.decided = {{3, roadmap::NewTempo{time::Bpm(126)}},
                     {13, roadmap::NewTempo{time::Bpm(140.5)}}};
    CHECK(shown.at(-1)[4] == "1st of 2   bar 1 of 12   132 bpm");
    CHECK(shown.at(7)[4] == "1st of 2   bar 2 of 12   132 bpm");
    CHECK(shown.at(8)[4] == "1st of 2   bar 3 of 12   126 bpm");
    CHECK(shown.at(48)[4] == "2nd of 2   bar 1 of 12   140.5 bpm");
    CHECK(shown.at(96)[4] == "2nd of 2   bar 12 of 12   140.5 bpm");
}

TEST_CASE("a slow tune is counted in with one bar where nobody asks for more", "[report]") {
    Shown shown(blues_form());
    shown.asked.tempo = time::Bpm(72);
    CHECK(shown.at(-4)[1] == "count-in   1");
    CHECK(shown.at(-1)[1] == "count-in   1 2 3 4");
}

namespace {

/// What is said of silence in a bar (from 1): what stands behind the tempo.
std::string left_out(const Shown& shown, int bar) {
    const auto status = shown.at(4 * (bar - 1))[4];
    const auto end = status.find(" bpm") + 4;
    return status.substr(std::min(status.size(), end + 3));
}

/// A blues, twice, with so much silence: "4:4", "1:1 drums".
Shown with_silence(const char* silence) {
    Shown shown(blues_form());
    shown.play(2);
    shown.asked.silence = roadmap::read_silence(silence);
    return shown;
}

}  // namespace

TEST_CASE("where the band leaves the player alone the display says silence", "[report]") {
    const auto shown = with_silence("4:4");
    CHECK(shown.at(16)[4] == "1st of 2   bar 5 of 12   132 bpm   (silence)");
    for (const int bar : {1, 4, 9, 12, 17, 20}) CHECK(left_out(shown, bar).empty());
    for (const int bar : {5, 8, 13, 16, 21, 24}) CHECK(left_out(shown, bar) == "(silence)");
}

TEST_CASE("nothing is said of silence in the count-in, nor when all is over", "[report]") {
    Shown shown(blues_form());
    shown.asked.way = chart::read_road_map(shown.form, "head: silent; solo; head: silent");
    CHECK(shown.at(-1)[4] == "head   1st of 3   bar 1 of 12   132 bpm");
    CHECK(shown.at(0)[4] == "head   1st of 3   bar 1 of 12   132 bpm   (silence)");
    CHECK(left_out(shown, 13).empty());
    CHECK(left_out(shown, 36) == "(silence)");
    CHECK(left_out(shown, 37).empty());
}

TEST_CASE("where the drums alone are left out the display says so while somebody plays on",
          "[report]") {
    auto shown = with_silence("1:1 drums");
    CHECK(shown.at(4)[4] == "1st of 2   bar 2 of 12   132 bpm   (drums out)");
    CHECK(left_out(shown, 1).empty());
    shown.asked.manner.bass = chart::Bass::off;
    CHECK(left_out(shown, 2) == "(silence)");
    shown.asked.melody = true;
    CHECK(left_out(shown, 2) == "(drums out)");
}

TEST_CASE("a click stands for the drums that are left out", "[report]") {
    auto shown = with_silence("1:1 drums");
    shown.asked.manner.drums = chart::Drums::off;
    CHECK(left_out(shown, 2).empty());  // there are no drums to miss
    shown.asked.click = roadmap::read_click("2 4", time::Meter(4));
    CHECK(left_out(shown, 2) == "(drums out)");
}

TEST_CASE("whoever is left alone while playing reads it from that bar on", "[report]") {
    Shown shown(blues_form());
    shown.decided = {{3, roadmap::LaysOut{roadmap::everybody}},
                     {6, roadmap::LaysOut{roadmap::everybody, false}}};
    for (const int bar : {2, 6}) CHECK(left_out(shown, bar).empty());
    for (const int bar : {3, 5}) CHECK(left_out(shown, bar) == "(silence)");
}

TEST_CASE("a band that was asked not to play makes no silence to speak of", "[report]") {
    Shown shown(blues_form());
    shown.asked.manner.drums = chart::Drums::off;
    shown.asked.manner.bass = chart::Bass::off;
    CHECK(left_out(shown, 1).empty());
}

TEST_CASE("what is said of silence fits on a narrow terminal", "[report]") {
    for (const char* silence : {"1:1", "1:1 drums"}) {
        auto shown = with_silence(silence);
        shown.columns = report::narrowest_rows;
        check_sizes(shown);
        CHECK(shown.at(4)[4].find("bar 2   132 bpm   (") == 0);
    }
}

TEST_CASE("attributes add to the display and take nothing away", "[report]") {
    Shown shown(blues_form());
    const auto without = shown.at(5);
    shown.attributes = true;
    auto with = shown.at(5);
    CHECK(with[0] ==
          "A | F7              \x1B[1;7m[ B♭7             ]\x1B[0m F7              "
          "| Cm7     F7      |");
    CHECK(with[1] == "                      ·   \x1B[1m2\x1B[0m   ·   ·");
    CHECK(with[5] == std::string("\x1B[2m") + keys + "\x1B[0m");
    CHECK(shown.at(-3)[1] == "count-in   1 - 2 -   1 \x1B[1m2\x1B[0m");
    for (auto& line : with) {
        for (const char* sequence : {"\x1B[1;7m", "\x1B[1m", "\x1B[2m", "\x1B[0m"}) {
            const auto at = line.find(sequence);
            if (at != std::string::npos) line.erase(at, std::string(sequence).size());
        }
    }
    CHECK(with == without);
}

TEST_CASE("the mark goes through all beats of our charts, one at a time", "[report]") {
    for (const auto& form : tests::our_forms()) {
        Shown shown(form);
        check_marks(shown);
        check_sizes(shown);
        shown.columns = 40;
        shown.play(std::nullopt);
        check_marks(shown);
        check_sizes(shown);
    }
}

TEST_CASE("charts made at random keep the display's size, and one beat marked", "[report]") {
    for (unsigned seed = 0; seed < 20; ++seed) {
        AnyForm any(seed);
        Shown shown(any.make());
        shown.columns = 40 + static_cast<int>(any.below(41));
        shown.passage.from =
            1 + static_cast<int>(any.below(static_cast<unsigned>(shown.form.bars.size())));
        shown.play(std::nullopt);
        check_marks(shown);
        check_sizes(shown);
    }
}

namespace {

/// The blues with grips on its chords, fingers and all.
struct ShownGrips : Shown {
    guitar::VoicingPlan plan;

    explicit ShownGrips(const chart::Form& f) : Shown(f), plan(tests::plan_by_hand(f, grips())) {
        voicings = &plan;
    }
    static tests::Grips grips() {
        return {{"F7", {"1x12xx", "1x12xx"}},
                {"Bb7", {"x1013x", "x1024x"}},
                {"Bdim7", {"x2313x", "x2314x"}},
                {"Gm7", {"3x333x", "2x333x"}}};
    }
    /// Headings and diagrams at a beat.
    [[nodiscard]] Lines grips_at(Ticks position) const {
        const auto lines = at(position);
        return {lines.begin() + 4, lines.begin() + 12};
    }
    [[nodiscard]] std::string headings(double beat) const {
        const auto line = grips_at(Ticks(static_cast<std::int64_t>(beat * 960))).front();
        const auto end = line.find_last_not_of(' ');
        return end == std::string::npos ? "" : line.substr(0, end + 1);
    }
};

}  // namespace

TEST_CASE("a left-handed player sees the neck the other way round", "[report]") {
    ShownGrips shown(blues_form());
    shown.hand = report::Hand::left;
    const auto grip = shown.plan.voicings.front().grip;
    const auto neck = report::fret_diagram(grip, report::frets_shown, report::Hand::left);
    CHECK(neck != report::fret_diagram(grip, report::frets_shown, report::Hand::right));
    const auto lines = shown.grips_at(Ticks(0));
    for (std::size_t i = 0; i < neck.size(); ++i) CHECK(lines[i + 1].rfind(neck[i], 0) == 0);
}

TEST_CASE("the grip to hold and the next one are shown below the rows", "[report]") {
    const ShownGrips shown(blues_form());
    CHECK(shown.at(5) ==
          Lines{"A | F7              [ B♭7             ] F7              | Cm7     F7      |",
                "                      ·   2   ·   ·",
                "A | B♭7             | Bdim7           | F7              | Am7♭5   D7♭9    |", "",
                "now  B♭7                    next  F7  bar 3",
                "   x   o     x                   x     x x",
                "   ╒═╤═╤═╤═╤═╕                 ╒═╤═╤═╤═╤═╕",
                "   │ 1 │ 2 │ │                 1━┿━1 │ │ │",
                "   │ │ │ │ │ │                 │ │ │ 2 │ │",
                "   │ │ │ │ 4 │                 │ │ │ │ │ │",
                "   │ │ │ │ │ │                 │ │ │ │ │ │",
                "   │ │ │ │ │ │                 │ │ │ │ │ │", "",
                "1st time through   bar 2 of 12   132 bpm", keys});
}

TEST_CASE("the grips move on half a beat before the chord, as the hand does", "[report]") {
    const ShownGrips shown(blues_form());
    CHECK(shown.headings(3.4) == "now  F7                     next  B♭7  bar 2");
    CHECK(shown.headings(3.5) == "now  B♭7                    next  F7  bar 3");
    // The row says where we are.
    CHECK(shown.at(Ticks(3500))[0].find("[ F7") != std::string::npos);
    CHECK(shown.headings(13.4) == "now  Cm7                    next  F7  bar 4");
    CHECK(shown.headings(13.5) == "now  F7                     next  B♭7  bar 5");
}

TEST_CASE("in the count-in the first grip stands there as next", "[report]") {
    const ShownGrips shown(blues_form());
    CHECK(shown.headings(-8) == std::string(28, ' ') + "next  F7  bar 1");
    CHECK(shown.grips_at(time::quarter_note * -8)[3] == std::string(28, ' ') + "   1━┿━1 │ │ │");
    CHECK(shown.headings(-0.5) == "now  F7                     next  B♭7  bar 2");
}

TEST_CASE("at the end of a time through the next one's first grip comes, at the very end none",
          "[report]") {
    ShownGrips shown(blues_form());
    shown.play(2);
    CHECK(shown.headings(46) == "now  C7                     next  F7  bar 1");
    CHECK(shown.headings(94) == "now  C7");
    CHECK(shown.headings(96).empty());
    shown.show({9, 9}, 2);  // one chord, and no other grip to come
    CHECK(shown.headings(1) == "now  Gm7");
    shown.show({9, 10}, std::nullopt);
    CHECK(shown.headings(5) == "now  C7                     next  Gm7  bar 9");
}

TEST_CASE("a chord that goes on into the passage from before has its grip there", "[report]") {
    ShownGrips shown(form_in_rows({"F7 | F7 | Bb7 | N.C.", "F7 | F7 | Bb7 | F7"}));
    shown.show({2, 4}, std::nullopt);
    CHECK(shown.headings(-2) == std::string(28, ' ') + "next  F7  bar 2");
    CHECK(shown.headings(1) == "now  F7                     next  B♭7  bar 3");
    CHECK(shown.headings(9) == std::string(28, ' ') + "next  F7  bar 2");
    // Where a chord goes on over the seam, the next grip is the next other one.
    shown.show({5, 8}, std::nullopt);
    CHECK(shown.headings(13) == "now  F7                     next  B♭7  bar 7");
}

TEST_CASE("a road map of parts shows the grip that comes in the next part", "[report]") {
    ShownGrips shown(blues_form());
    shown.asked.way = chart::read_road_map(shown.form, "vamp: bars=9; head");
    CHECK(shown.headings(2) == "now  Gm7                    next  F7  bar 1");
}

TEST_CASE("with grips the display keeps its height and width, on the smallest terminal too",
          "[report]") {
    for (const auto& form : tests::our_forms()) {
        for (const int columns : {40, 60, 80}) {
            ShownGrips shown(form);
            shown.play(2);
            shown.columns = columns;
            const auto rows = shown.rows();
            const auto playing = shown.playing();
            const auto beats = form.chart.meter.beats();
            bool good = true;
            for (int n = -4 * beats; n < (4 * shown.passage.bars() + 2) * beats; ++n) {
                const auto lines = report::now_playing(rows, playing, eighth_note * n);
                good = good && lines.size() == report::now_playing_lines + report::voicings_lines;
                for (const auto& line : lines) {
                    good = good && report::columns_of(line) <= columns;
                }
            }
            CHECK(good);
        }
    }
    constexpr std::size_t rows_of_a_small_terminal = 24;
    CHECK(report::now_playing_lines + report::voicings_lines < rows_of_a_small_terminal);
}

TEST_CASE("with attributes the names of the grips are bold, and nothing is taken away",
          "[report]") {
    ShownGrips shown(blues_form());
    const auto plain = shown.at(5);
    shown.attributes = true;
    const auto bold = shown.at(5);
    REQUIRE(bold.size() == plain.size());
    CHECK(bold[4] == "\x1B[1m" + plain[4] + "\x1B[0m");
    for (std::size_t i = 5; i < 12; ++i) CHECK(bold[i] == plain[i]);
}

TEST_CASE("in a low window the more useful lines stay, up to the row and its beats", "[report]") {
    Shown shown(blues_form());
    const auto all = shown.at(5);
    REQUIRE(all.size() == 6);
    for (int height = 6; height > 0; --height) {
        shown.height = height;
        const std::vector<std::vector<std::size_t>> kept{
            {0}, {0, 1}, {0, 1, 4}, {0, 1, 4, 5}, {0, 1, 2, 4, 5}, {0, 1, 2, 3, 4, 5}};
        Lines expected;
        for (const auto line : kept[static_cast<std::size_t>(height - 1)]) {
            expected.push_back(all[line]);
        }
        CHECK(shown.at(5) == expected);
    }
}

TEST_CASE("where the grips have no room their names and frets stand in one line", "[report]") {
    ShownGrips shown(blues_form());
    const auto all = shown.at(5);
    REQUIRE(all.size() == 15);
    shown.height = 14;
    auto one_blank = all;
    one_blank.erase(one_blank.begin() + 3);
    CHECK(shown.at(5) == one_blank);
    shown.height = 13;
    auto closer = all;
    closer.erase(closer.begin() + 12);
    closer.erase(closer.begin() + 3);
    CHECK(shown.at(5) == closer);
    for (const int height : {12, 8}) {
        shown.height = height;
        const auto low = shown.at(5);
        CHECK(low == Lines{all[0], all[1], all[2], "", "now  B♭7  x1013x    next  F7  1x12xx", "",
                           all[13], all[14]});
    }
    shown.height = 6;
    CHECK(shown.at(5)[3] == "now  B♭7  x1013x    next  F7  1x12xx");
    shown.columns = 30;
    CHECK(shown.at(5)[3] == "now  B♭7  x1013x");
    CHECK(shown.at(-5)[3] == "next  F7  1x12xx");
    shown.height = 5;
    CHECK(shown.at(5).size() == 5);
}

TEST_CASE("a window too narrow for two grips shows the one to hold, in the count-in the first",
          "[report]") {
    ShownGrips shown(blues_form());
    shown.columns = 34;
    CHECK(shown.headings(5) == "now  B♭7            next  F7");
    shown.columns = 33;
    CHECK(shown.grips_at(time::quarter_note * 5)[0] == "now  B♭7");
    CHECK(shown.grips_at(time::quarter_note * 5)[2] == "   ╒═╤═╤═╤═╤═╕");
    CHECK(shown.grips_at(time::quarter_note * -5)[0] == "next  F7  bar 1");
    CHECK(shown.grips_at(time::quarter_note * -5)[3] == "   1━┿━1 │ │ │");
}

TEST_CASE("in a pause the row stands ready with which it goes on, unmarked", "[report]") {
    ShownGrips shown(blues_form());
    shown.decided = {{7, roadmap::Stopped{}}};
    shown.wishes.paused = true;
    const auto before = shown.at(23);
    CHECK(before[0] ==
          "A | B♭7             [ Bdim7           ] F7              | Am7♭5   D7♭9    |");
    CHECK(before[2] ==
          "A | Gm7             | C7              | F7      D7      | Gm7     C7      |");
    const auto paused = shown.at(25);
    CHECK(paused[0] ==
          "A | B♭7             | Bdim7           | F7              | Am7♭5   D7♭9    |");
    CHECK(paused[1].empty());
    CHECK(paused[2] == before[2]);
    CHECK(shown.headings(25) == std::string(28, ' ') + "next  B♭7  bar 5");
    shown.wishes.paused = false;  // where it ends nothing follows
    CHECK(shown.at(23)[2].empty());
    shown.wishes.paused = true;
    CHECK(paused[13] == "1st time through   bar 5 of 12   132 bpm   paused");
    CHECK(paused[14].find("space: go on") == 0);
    // In rows of two bars it may go on with an earlier one.
    shown.columns = 40;
    shown.wishes.goes_on_with = 1;
    CHECK(shown.at(25)[0] == "A | F7              | B♭7             |");
    CHECK(shown.at(25)[2] == "A | F7              | Cm7     F7      |");
    CHECK(shown.at(25)[13] == "1st time  bar 1 of 12  132 bpm  paused");
}

TEST_CASE("while a bar waits the row stands ready, and the bar before it is counted in",
          "[report]") {
    ShownGrips shown(blues_form());
    shown.play(2);
    const auto rest = chart::Way::of({5, 12}, 1);
    // Seven quarter notes, from the end of bar 6 on.
    shown.decided = {{7, roadmap::Paused{}}, {7, roadmap::Waited{7, rest}}};
    CHECK(shown.at(23)[2] ==
          "A | B♭7             | Bdim7           | F7              | Am7♭5   D7♭9    |");
    const auto waits = shown.at(26);
    CHECK(waits[0] ==
          "A | B♭7             | Bdim7           | F7              | Am7♭5   D7♭9    |");
    CHECK(waits[1] == "count-in");
    CHECK(waits[2] ==
          "A | Gm7             | C7              | F7      D7      | Gm7     C7      |");
    CHECK(waits[13] == "2nd of 2   bar 5 of 12   132 bpm");
    CHECK(shown.headings(26) == std::string(28, ' ') + "next  B♭7  bar 5");
    CHECK(shown.at(27)[1] == "count-in   1");
    CHECK(shown.at(30)[1] == "count-in   1 2 3 4");
    CHECK(shown.at(31)[0] ==
          "A [ B♭7             ] Bdim7           | F7              | Am7♭5   D7♭9    |");
    CHECK(shown.at(31)[1] == "    1   ·   ·   ·");
}

TEST_CASE("without grips the display is as it always was", "[report]") {
    ShownGrips shown(blues_form());
    auto with = shown.at(5);
    with.erase(with.begin() + 4, with.begin() + 4 + report::voicings_lines);
    shown.voicings = nullptr;
    CHECK(shown.at(5) == with);
}

TEST_CASE("a pause that nothing comes of does not break the display", "[report]") {
    Shown shown(blues_form());
    shown.decided = {{3, roadmap::Paused{}},
                     {3, roadmap::Waited{7, chart::Way::of({5, 8}, 1)}},
                     {4, roadmap::Stopped{}}};
    for (int beat = 0; beat < 30; ++beat) CHECK(shown.at(beat).size() == 6);
    CHECK(shown.at(9)[4] == "1st of 1   bar 2 of 12   132 bpm");
}
