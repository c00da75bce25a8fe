#include "support/bass_rules.hpp"
#include "support/catch.hpp"
#include "support/forms.hpp"

#include <compline/band/part_writer.hpp>

#include <algorithm>

using namespace compline;
using band::PartWriter;

namespace {

chart::Form blues() {
    return tests::make_form(time::Meter(4), time::Bpm(132),
                            {"F7", "Bb7", "F7", "Cm7 F7", "Bb7", "Bdim7", "F7", "Am7b5 D7b9", "Gm7",
                             "C7", "F7 D7", "Gm7 C7"});
}

std::vector<band::BassNote> line_of(PartWriter& writer, int times) {
    std::vector<band::BassNote> line;
    for (int time = 0; time < times; ++time) {
        const auto part = writer.next();
        REQUIRE(part);
        line.insert(line.end(), part->notes.begin(), part->notes.end());
    }
    return line;
}

}  // namespace

TEST_CASE("a band without an end keeps the rules of a walking line from chorus to chorus") {
    const auto form = blues();
    for (const chart::Passage passage :
         {form.whole(), chart::Passage{4, 7}, chart::Passage{8, 8}}) {
        CAPTURE(passage.from, passage.to);
        const int times = 40;
        PartWriter endless(form, passage, std::nullopt, 2);
        PartWriter ending(form, passage, times, 2);
        const auto line = line_of(endless, times - 2);
        const auto whole = line_of(ending, times);
        REQUIRE(line.size() < whole.size());
        CHECK(std::equal(line.begin(), line.end(), whole.begin()));
        for (const auto& fault : tests::faults_of(whole, form, passage, times)) FAIL_CHECK(fault);
    }
}

TEST_CASE("a band asked for some choruses plays like one without an end, until it sees the end") {
    const auto form = blues();
    PartWriter endless(form, form.whole(), std::nullopt, 2);
    PartWriter five(form, form.whole(), 5, 2);
    for (int time = 0; time < 5; ++time) {
        const auto one = endless.next();
        const auto other = five.next();
        REQUIRE(one);
        REQUIRE(other);
        CHECK(one->strokes == other->strokes);
        if (time < 3) CHECK(one->notes == other->notes);
    }
    CHECK_FALSE(five.next());
    CHECK(endless.next());
}

TEST_CASE("the count-in comes before the first time through alone") {
    const auto form = blues();
    for (const int bars : {0, 1, 2}) {
        PartWriter writer(form, {5, 8}, 3, bars);
        const auto first = writer.next();
        REQUIRE(first);
        CHECK((first->strokes.front().at < time::Ticks(0)) == (bars > 0));
        const auto second = writer.next();
        REQUIRE(second);
        CHECK(second->strokes.front().at == form.chart.meter.bar() * 4);
        CHECK(second->notes.front().at == form.chart.meter.bar() * 4);
    }
}

TEST_CASE("a passage of nothing but N.C. has drums and no bass") {
    const auto form = tests::make_form(time::Meter(3), time::Bpm(132), {"N.C.", "F7"});
    PartWriter writer(form, {1, 1}, std::nullopt, 0);
    for (int time = 0; time < 3; ++time) {
        const auto part = writer.next();
        REQUIRE(part);
        CHECK(part->notes.empty());
        CHECK_FALSE(part->strokes.empty());
    }
}
