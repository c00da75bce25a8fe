// The chord of a moment and the next other one.

#include "../../src/report/due_chords.hpp"

#include "../../src/report/glance_words.hpp"
#include "report/rows.hpp"
#include "support/catch.hpp"

using namespace compline;
using namespace compline::tests;
using time::quarter_note;

namespace {

struct Due {
    chart::Form form;
    roadmap::Asked asked;
    std::vector<roadmap::Decision> decisions = {};

    explicit Due(const Lines& bars, std::optional<int> times = 1)
        : form(form_in_rows(bars)), asked(roadmap::Asked::of(form.whole(), times)) {}
    /// "F7", or "F7, B♭7 next bar", at a beat from 0.
    [[nodiscard]] std::string at(int beat) const {
        const report::Playing playing{roadmap::RoadMap(form, asked, decisions)};
        const auto position = quarter_note * beat;
        return glance_words(playing, playing.map.place_at(position), position);
    }
};

}  // namespace

TEST_CASE("the next chord is on its beat in this bar, in the next bar, or some bars ahead",
          "[report]") {
    const Due due({"F7 | Gm7 C7 | F7 | % | F7 / / Bb7"});
    CHECK(due.at(0) == "F7, Gm7 next bar");
    CHECK(due.at(4) == "Gm7, C7 on 3");
    CHECK(due.at(5) == "Gm7, C7 on 3");
    CHECK(due.at(6) == "C7, F7 next bar");
    CHECK(due.at(8) == "F7, B♭7 in 2 bars");
    CHECK(due.at(12) == "F7, B♭7 next bar, on 4");
    CHECK(due.at(16) == "F7, B♭7 on 4");
    CHECK(due.at(19) == "B♭7");
}

TEST_CASE("a tune that comes again has its first chord next, unless it is the same", "[report]") {
    CHECK(Due({"F7 | C7"}, std::nullopt).at(4) == "C7, F7 next bar");
    CHECK(Due({"F7 | C7 | F7"}, 2).at(8) == "F7, C7 in 2 bars");
    CHECK(Due({"F7 | C7 | F7"}, 2).at(20) == "F7");
    CHECK(Due({"F7"}, std::nullopt).at(4) == "F7");  // for ever
}

TEST_CASE("no chord is said to be none, and comes as one does", "[report]") {
    const Due due({"F7 | N.C. | F7"});
    CHECK(due.at(0) == "F7, N.C. next bar");
    CHECK(due.at(4) == "N.C., F7 next bar");
}

TEST_CASE("in the count-in the first chord is the next one, and the count is said", "[report]") {
    const Due due({"F7 | C7"});
    CHECK(due.at(-8) == "count-in 1, then F7");
    CHECK(due.at(-1) == "count-in 1 - 2 - 1 2 3 4, then F7");
}

TEST_CASE("what waits between two bars is a bar, and no chord of its own", "[report]") {
    Due due({"F7 | C7 | Bb7"}, 2);
    const auto rest = chart::Way::of({1, 3}, 1);
    due.decisions = {{2, roadmap::Paused{}}, {2, roadmap::Waited{7, rest}}};
    CHECK(due.at(3) == "F7, C7 in 3 bars");
    CHECK(due.at(11) == "F7, C7 next bar");
}
