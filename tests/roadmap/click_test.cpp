#include "support/catch.hpp"
#include "support/refusal.hpp"

#include <compline/roadmap/click.hpp>

#include <string>
#include <vector>

using namespace compline;
using tests::refusal;
using time::Meter;
using time::Ticks;

TEST_CASE("clicks are beats of the bar, with & for off-beats, and /N for every Nth bar") {
    const auto two_and_four = roadmap::read_click("2 4", Meter(4));
    CHECK(two_and_four.positions == std::vector{Ticks(960), Ticks(2880)});
    CHECK(two_and_four.every == 1);
    CHECK(roadmap::read_click(" 4  2 2", Meter(4)) == two_and_four);
    CHECK(roadmap::read_click("2&", Meter(3)).positions == std::vector{Ticks(1440)});
    const auto sparse = roadmap::read_click("1/2", Meter(4));
    CHECK(sparse.positions == std::vector{Ticks(0)});
    CHECK(sparse.every == 2);
    CHECK(roadmap::read_click("1 3/4", Meter(4)).every == 4);
}

TEST_CASE("a click that no bar has is refused in words") {
    for (const char* text : {"", " ", "5", "0", "2 x", "1/", "1/0", "1/17", "/2", "1/2 3", "&"}) {
        CAPTURE(text);
        const auto words = refusal([&] { (void)roadmap::read_click(text, Meter(4)); });
        CHECK(words.find("is not where to click: write beats of the bar, 1 to 4") !=
              std::string::npos);
    }
    CHECK(refusal([] {
              (void)roadmap::read_click("2 x", Meter(4));
          }).find("character 3: \"x\" is") == 0);
}
