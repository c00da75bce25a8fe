// The last two lines of what the player sees: what is so now, and what can be asked for.

#include "../../src/report/status_words.hpp"

#include "report/rows.hpp"
#include "support/catch.hpp"

#include <compline/chart/road_map_text.hpp>

using namespace compline;
using namespace compline::tests;
using report::Decided;

namespace {

/// The blues four times, in a window of so many columns.
struct Status {
    chart::Form form = blues_form();
    roadmap::Asked asked;
    std::vector<roadmap::Decision> decisions;
    Decided decided;
    int columns = 80;
    report::View view = report::View::rows;

    Status() {
        asked = roadmap::Asked::of(form.whole(), 4);
        asked.tempo = time::Bpm(132);
    }
    [[nodiscard]] report::Playing playing() const {
        return {
            roadmap::RoadMap(form, asked, decisions), false, nullptr, decided, {columns, 23}, view};
    }
    /// In a bar, from 1; what comes after "bar 5 of 12   ".
    [[nodiscard]] std::string in(int bar) const {
        const auto shown = playing();
        return status_line(shown, shown.map.place_at(time::quarter_note * (4 * (bar - 1))));
    }
    [[nodiscard]] std::string keys() const { return keys_line(playing()); }
};

}  // namespace

TEST_CASE("a tempo that comes stands behind that of now, to a tenth", "[report]") {
    Status status;
    status.decided.tempo = time::Bpm(132);
    CHECK(status.in(5) == "1st of 4   bar 5 of 12   132 bpm");
    status.decided.tempo = time::Bpm(126.72);
    status.decisions = {{6, roadmap::NewTempo{time::Bpm(126.72)}}};
    CHECK(status.in(5) == "1st of 4   bar 5 of 12   132, then 126.7 bpm");
    CHECK(status.in(6) == "1st of 4   bar 6 of 12   126.7 bpm");
}

TEST_CASE("who is heard by sound reads in every window that time alone is judged", "[report]") {
    Status status;
    auto playing = status.playing();
    playing.heard_by = listen::HeardBy::sound;
    const auto in = [&](int columns) {
        playing.window.columns = columns;
        return status_line(playing, playing.map.place_at(time::quarter_note * 16));
    };
    CHECK(in(80) == "1st of 4   bar 5 of 12   132 bpm   by sound: time alone");
    CHECK(in(46) == "1st of 4   bar 5 of 12   132 bpm   time alone");
    CHECK(in(30) == "bar 5   132 bpm   time alone");
    CHECK(in(19) == "132 bpm  time alone");
}

TEST_CASE("a player who was sent out is named until he is back", "[report]") {
    Status status;
    status.decided.drums_out = true;
    CHECK(status.in(5) == "1st of 4   bar 5 of 12   132 bpm   drums out");
    status.decided.bass_out = true;
    CHECK(status.in(5) == "1st of 4   bar 5 of 12   132 bpm   drums, bass out");
    status.decided.drums_out = false;
    CHECK(status.in(5) == "1st of 4   bar 5 of 12   132 bpm   bass out");
    // The rule of silence speaks for itself, and of drums that are out already not again.
    status.asked.silence = roadmap::read_silence("4:4 drums");
    CHECK(status.in(5) == "1st of 4   bar 5 of 12   132 bpm   bass out   (drums out)");
    status.decided.drums_out = true;
    CHECK(status.in(5) == "1st of 4   bar 5 of 12   132 bpm   drums, bass out");
}

TEST_CASE("a loop is named by its bars, and before it begins as what comes", "[report]") {
    Status status;
    status.decided.loop = chart::Passage{9, 12};
    CHECK(status.in(9) == "1st of 4   bar 9 of 12   132 bpm   loop 9-12");
    CHECK(status.in(12) == "1st of 4   bar 12 of 12   132 bpm   loop 9-12");
    CHECK(status.in(8) == "1st of 4   bar 8 of 12   132 bpm   then loop 9-12");
    CHECK(status.in(13) == "2nd of 4   bar 1 of 12   132 bpm   then loop 9-12");
    status.decided.loop = chart::Passage{4, 4};
    CHECK(status.in(4) == "1st of 4   bar 4 of 12   132 bpm   loop 4");
}

TEST_CASE("a pause is said as soon as it is asked for, and when it comes", "[report]") {
    Status status;
    status.decided.paused = true;
    status.decisions = {{7, roadmap::Stopped{}}};
    // How often is played is not said by a way that breaks off.
    CHECK(status.in(5) == "1st time through   bar 5 of 12   132 bpm   pause in 2 bars");
    CHECK(status.in(6) == "1st time through   bar 6 of 12   132 bpm   pause with the next bar");
    CHECK(status.in(7) == "1st time through   bar 6 of 12   132 bpm   paused");
}

TEST_CASE("why a wish changed nothing stands last, and stays longest", "[report]") {
    Status status;
    status.decided.refused = "no slower";
    CHECK(status.in(5) == "1st of 4   bar 5 of 12   132 bpm   no slower");
    status.decided.loop = chart::Passage{5, 8};
    status.decided.drums_out = true;
    CHECK(status.in(5) == "1st of 4   bar 5 of 12   132 bpm   loop 5-8   drums out   no slower");
    status.columns = 16;
    CHECK(status.in(5) == "no slower");
}

TEST_CASE("the status of a narrow window loses whole words, the less useful first", "[report]") {
    Status status;
    status.asked.way = chart::read_road_map(status.form, "head; solo x2");
    status.decided.loop = chart::Passage{5, 8};
    status.decided.drums_out = true;
    const std::vector<std::pair<int, std::string>> lines{
        {80, "head   1st of 3   bar 5 of 12   132 bpm   loop 5-8   drums out"},
        {61, "head  1st of 3  bar 5 of 12  132 bpm  loop 5-8  drums out"},
        {56, "1st of 3   bar 5 of 12   132 bpm   loop 5-8   drums out"},
        {46, "1st of 3  bar 5  132 bpm  loop 5-8  drums out"},
        {40, "bar 5   132 bpm   loop 5-8   drums out"},
        {30, "132 bpm   loop 5-8   drums out"},
        {20, "132 bpm   drums out"},
        {12, "132 bpm"}};
    for (const auto& [columns, line] : lines) {
        status.columns = columns;
        CHECK(status.in(5) == line);
    }
}

TEST_CASE("the keys say what they do now", "[report]") {
    Status status;
    CHECK(status.keys() ==
          "space: pause  ↑ ↓: tempo  l: loop here  d b: drums, bass  Home: top  q: stop");
    status.decided.paused = true;
    CHECK(status.keys() ==
          "space: go on  ↑ ↓: tempo  l: loop here  d b: drums, bass  Home: top  q: stop");
    status.decided = {};
    status.decided.loop = chart::Passage{5, 8};
    CHECK(status.keys() ==
          "space: pause  ↑ ↓: tempo  w: whole tune  d b: drums, bass  Home: top  q: stop");
}

TEST_CASE("as many keys are named as the window has room for, whole words only", "[report]") {
    Status status;
    const std::vector<std::pair<int, std::string>> lines{
        {120,
         "space: pause   ↑ ↓: tempo   l: loop here   d b: drums, bass   Home: top   r: start over  "
         " v: large   q: stop"},
        {102,
         "space: pause  ↑ ↓: tempo  l: loop here  d b: drums, bass  Home: top  r: start over  "
         "v: large  q: stop"},
        {81, "space: pause   ↑ ↓: tempo   l: loop here   d b: drums, bass   Home: top   q: stop"},
        {75, "space: pause   ↑ ↓: tempo   l: loop here   d b: drums, bass   q: stop"},
        {60, "space: pause   ↑ ↓: tempo   l: loop here   q: stop"},
        {40, "space: pause   ↑ ↓: tempo   q: stop"},
        {30, "space: pause   q: stop"},
        {20, "space: pause"}};
    for (const auto& [columns, line] : lines) {
        status.columns = columns;
        CHECK(status.keys() == line);
    }
}

TEST_CASE("in the large view its section is named, and the way back to the rows", "[report]") {
    Status status;
    status.view = report::View::large;
    CHECK(status.in(5) == "A   1st of 4   bar 5 of 12   132 bpm");
    CHECK(status.keys() ==
          "space: pause   ↑ ↓: tempo   l: loop here   d b: drums, bass   v: rows   q: stop");
    status.columns = 60;
    CHECK(status.keys() == "space: pause   ↑ ↓: tempo   l: loop here   v: rows   q: stop");
    status.columns = 20;
    CHECK(status.in(5) == "A   bar 5   132 bpm");
}

TEST_CASE("what is unlike a plain time through is said in a word or two, a pause before all",
          "[report]") {
    Status status;
    const auto word = [&](int bar) {
        const auto shown = status.playing();
        return notice(shown, shown.map.place_at(time::quarter_note * (4 * (bar - 1))));
    };
    CHECK(word(5).empty());
    status.decided.loop = chart::Passage{5, 8};
    CHECK(word(5) == "loop 5-8");
    CHECK(word(4) == "then loop 5-8");
    status.decided.until_cue = true;
    CHECK(word(5) == "until cue");
    status.decided.drums_out = true;
    CHECK(word(5) == "drums out");
    status.asked.silence = roadmap::read_silence("4:4");
    CHECK(word(5) == "silence");
    CHECK(word(4) == "drums out");
    status.decided.paused = true;
    CHECK(word(5) == "pause");
}
