// What the band does before bar 1 and where the tune is out of time.

#include "chart/support.hpp"
#include "support/catch.hpp"

#include <compline/band/part_writer.hpp>

#include <string>

using namespace compline;
using time::Ticks;

namespace {

band::Part part_of(const std::string& above, const std::string& sections, bool bass = true) {
    const auto form =
        chart::unroll(chart::read_chart(above + tests::chart_text(sections), "t.yaml"));
    auto asked = roadmap::Asked::of(form.whole(), 1);
    asked.count_in_bars = 1;
    if (!bass) asked.manner.bass = chart::Bass::off;
    return *band::PartWriter({form, asked}, {}).next();
}

/// Notes that begin before bar 1: pitch class and where.
std::string leading(const band::Part& part) {
    std::string text;
    for (const auto& note : part.notes) {
        if (note.at >= Ticks(0)) continue;
        text += std::to_string(note.note.pitch_class()) + " at " + std::to_string(note.at.count()) +
                " for " + std::to_string(note.length.count()) + "; ";
    }
    return text;
}

}  // namespace

TEST_CASE("the bass leads in with roots in the last beats of the count-in, and the sticks go on") {
    const auto part = part_of("lead-in: {beats: 2, chords: Gm7 C7/E}\n", "  A: F6 | F6\n");
    CHECK(leading(part) == "7 at -1920 for 960; 4 at -960 for 960; ");
    const auto without = part_of("", "  A: F6 | F6\n");
    CHECK(leading(without).empty());
    std::size_t sticks = 0;
    for (const auto& stroke : part.strokes) sticks += stroke.at < Ticks(0) ? 1 : 0;
    CHECK(sticks == 4);
    CHECK(leading(part_of("lead-in: {beats: 2, chords: C7}\n", "  A: F6\n", false)).empty());
    CHECK(leading(part_of("lead-in: {beats: 2}\n", "  A: F6\n")).empty());
}

TEST_CASE("nobody plays out of time, and its last bar counts in what comes") {
    const auto part = part_of("", "  A: F6\n  R: {tempo: rubato, bars: C7 | D7 | C7}\n  B: F6\n");
    const Ticks bar(3840);
    for (const auto& note : part.notes) {
        const bool rests = note.at < bar || note.at >= bar * 4;
        CHECK(rests);
    }
    std::string clicks;
    for (const auto& stroke : part.strokes) {
        if (stroke.at >= bar && stroke.at < bar * 4) {
            clicks += std::to_string((stroke.at - bar * 3).count()) + " ";
        }
    }
    CHECK(clicks == "0 960 1920 2880 ");
}
