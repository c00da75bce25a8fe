#include "support/catch.hpp"

#include <compline/time/swing_changes.hpp>

using namespace compline;
using time::Swing;
using time::SwingChanges;
using time::Ticks;

namespace {

constexpr Ticks bar{4 * 960};
const Swing otherwise(1.5);

SwingChanges swung_then_straight() {
    SwingChanges changes;
    changes.add(Ticks(0), Swing(2));
    changes.add(bar * 2, Swing::straight());
    return changes;
}

}  // namespace

TEST_CASE("without changes one swing holds everywhere, in the count-in too") {
    for (const int n : {-8, -1, 0, 100}) CHECK(SwingChanges().at(bar * n, otherwise) == otherwise);
}

TEST_CASE("a swing holds from its bar line on until the next one") {
    const auto changes = swung_then_straight();
    CHECK(changes.at(Ticks(-1), otherwise) == otherwise);
    CHECK(changes.at(Ticks(0), otherwise) == Swing(2));
    CHECK(changes.at(bar * 2 - Ticks(1), otherwise) == Swing(2));
    CHECK(changes.at(bar * 2, otherwise) == Swing::straight());
    CHECK(changes.at(bar * 1000, otherwise) == Swing::straight());
}

TEST_CASE("what comes again and again changes in the same places each time") {
    auto changes = swung_then_straight();
    changes.repeat(bar, bar * 3);  // bars 1, 2, 3; then 1, 2, 3 ...
    for (int n = 0; n < 60; ++n) {
        const int in_turn = n < 1 ? n : 1 + (n - 1) % 3;
        CHECK((changes.at(bar * n + Ticks(480), otherwise) == Swing(2)) == (in_turn < 2));
    }
}
