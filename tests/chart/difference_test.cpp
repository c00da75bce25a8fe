// Which bars of two charts are not the same to a judge.

#include "chart/support.hpp"
#include "support/catch.hpp"

#include <compline/chart/difference.hpp>

#include <string>
#include <vector>

using namespace compline;

namespace {

chart::Form form_of(const std::vector<std::string>& lines) {
    return chart::unroll(tests::chart_of(lines));
}

/// "2: D7 / Am7 D7", a line for each bar that differs.
std::vector<std::string> in_words(const chart::Form& one, const chart::Form& other) {
    std::vector<std::string> words;
    for (const auto& bar : chart::differences(one, other)) {
        words.push_back(std::to_string(bar.bar) + ": " + bar.one + " / " + bar.other);
    }
    return words;
}

std::vector<std::string> differences(const std::string& one, const std::string& other) {
    return in_words(form_of({one}), form_of({other}));
}

using Lines = std::vector<std::string>;

}  // namespace

TEST_CASE("charts that say the same in other writing do not differ") {
    CHECK(differences("F6 | Bb7 | Bb7 | C7", "F6 / / / | Bb7 | % | C7").empty());
    CHECK(differences("F6 D7 | Gm7 C7", "F6 / D7 / | Gm7 / C7 /").empty());
}

TEST_CASE("a bar with another chord is named with both of its writings") {
    CHECK(differences("F6 | D7 | Gm7 C7 | F6", "F6 | Am7 D7 | Gm7 C7 | F6") ==
          Lines{"2: D7 / Am7 D7"});
    CHECK(differences("F6 | D7", "F6 | N.C.") == Lines{"2: D7 / N.C."});
    CHECK(differences("F6 | Bb7", "F6 | Bbmaj7") == Lines{"2: Bb7 / Bbmaj7"});
}

TEST_CASE("a bar whose chords come on other beats differs, and the bars after it do not") {
    CHECK(differences("F6 | Gm7 / C7 / | F6", "F6 | Gm7 / / C7 | F6") ==
          Lines{"2: Gm7 C7 / Gm7 C7"});
    // The first chord is the same and as long: it is what follows that differs.
    CHECK(differences("Gm7 / C7 / | F6", "Gm7 / C7 F6 | F6") == Lines{"1: Gm7 C7 / Gm7 C7 F6"});
}

TEST_CASE("a chart that is shorter lacks the bars that the other has") {
    CHECK(differences("F6 | D7 | Gm7", "F6") == Lines{"2: D7 / ", "3: Gm7 / "});
    CHECK(differences("F6", "F6 | D7") == Lines{"2:  / D7"});
}

TEST_CASE("a bar with another kick, another meter or another feel differs") {
    const auto plain = form_of({"F6 | D7"});
    auto other = plain;
    other.bars[1].kicks.emplace_back(480);
    CHECK(in_words(plain, other) == Lines{"2: D7 / D7"});
    other = plain;
    other.bars[1].meter = time::Meter(time::quarter_note, {3, 1});
    CHECK(in_words(plain, other) == Lines{"2: D7 / D7"});
    other = plain;
    other.bars[0].manner.feel = chart::Feel::straight;
    CHECK(in_words(plain, other) == Lines{"1: F6 / F6"});
}

TEST_CASE("a feel that is not written is swing") {
    auto one = form_of({"F6 | D7"});
    auto other = one;
    one.bars[0].manner.feel.reset();
    other.bars[0].manner.feel = chart::Feel::swing;
    CHECK(in_words(one, other).empty());
    CHECK(in_words(other, one).empty());
}

TEST_CASE("a bar is the same wherever longer bars before it have put it") {
    const auto one = form_of({"F6 | D7 | Gm7"});
    auto other = one;
    other.bars[0].meter = time::Meter(5);
    other.spans[0].length = time::Meter(5).bar();
    for (const std::size_t i : {1U, 2U}) {
        other.bars[i].start += time::quarter_note;
        other.spans[i].start += time::quarter_note;
    }
    CHECK(in_words(one, other) == Lines{"1: F6 / F6"});
}
