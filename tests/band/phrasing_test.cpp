// Drums that breathe: phrases of four bars, cells of the ride, light fills; and the fills.

#include "support/booking.hpp"
#include "support/catch.hpp"
#include "support/forms.hpp"

#include <compline/band/drums.hpp>
#include <compline/band/part_writer.hpp>

#include <algorithm>
#include <map>
#include <set>
#include <string>

using namespace compline;
using band::Drum;
using chart::Drums;
using chart::Feel;
using chart::Phrasing;
using time::eighth_note;
using time::Meter;
using time::Ticks;

namespace {

chart::Form form_of(int bars, int beats = 4) {
    return tests::make_form(Meter(beats), time::Bpm(132),
                            std::vector<std::string>(static_cast<std::size_t>(bars), "F7"));
}

struct Asked {
    std::optional<Feel> feel;
    std::optional<Drums> drums;
    Phrasing phrasing = Phrasing::breathing;
    bool fills = false;
    std::uint64_t seed = 1;
    int times = 1;
};

std::vector<band::Stroke> play(const chart::Form& form, const Asked& asked) {
    auto booking = tests::Booking::of(form.whole(), asked.times, 0);
    booking.asked.manner = {asked.feel, asked.drums, {}, false, asked.phrasing};
    booking.players.fills = asked.fills;
    booking.players.seed = asked.seed;
    return booking.play(form).strokes;
}

std::vector<band::Stroke> only(const std::vector<band::Stroke>& strokes, std::set<Drum> drums) {
    std::vector<band::Stroke> found;
    std::copy_if(strokes.begin(), strokes.end(), std::back_inserter(found),
                 [&](const band::Stroke& s) { return drums.contains(s.drum); });
    return found;
}

/// Eighths of a bar, from 0, on which a drum is struck.
std::set<int> struck(const std::vector<band::Stroke>& strokes, Drum drum, int bar, Meter meter) {
    std::set<int> found;
    for (const auto& stroke : strokes) {
        if (stroke.drum != drum || stroke.at / meter.bar() != bar) continue;
        found.insert(static_cast<int>((stroke.at % meter.bar()) / eighth_note));
    }
    return found;
}

const std::vector<Asked> manners = {
    {},
    {Feel::straight, {}},
    {Feel::bossa, {}},
    {Feel::bossa, Drums::brushes},
    {Feel::ballad, {}},
    {Feel::ballad, Drums::ride},
    {{}, Drums::brushes},
    {{}, Drums::quarters},
};

bool is_hand_that_breathes(Drum drum) {
    return drum == Drum::ride || drum == Drum::brush_tap || drum == Drum::brush_sweep;
}

}  // namespace

TEST_CASE("breathing moves no stroke in time: all are on beats and off-beats, foot and kick stay") {
    for (const int beats : {3, 4, 5, 6}) {
        const auto form = form_of(32, beats);
        for (auto asked : manners) {
            const auto breathing = play(form, asked);
            asked.phrasing = Phrasing::even;
            const auto even = play(form, asked);
            const std::set<Drum> stay = {Drum::hihat_foot, Drum::kick};
            CHECK(only(breathing, stay) == only(even, stay));
            for (const auto& stroke : breathing) CHECK(stroke.at % eighth_note == Ticks(0));
            CHECK(breathing != even);
        }
    }
}

TEST_CASE("a phrase rises to its fourth bar and falls over it, by a few steps") {
    for (const int beats : {3, 4, 5, 6}) {
        const Meter meter(beats);
        const auto form = form_of(8, beats);
        for (auto asked : manners) {
            const auto breathing = play(form, asked);
            asked.phrasing = Phrasing::even;
            std::map<std::pair<Ticks, Drum>, int> even;
            for (const auto& s : play(form, asked)) even[{s.at, s.drum}] = s.velocity;
            // How much louder than even, on the first beat of each bar, where no fill is.
            std::map<std::int64_t, int> louder;
            for (const auto& stroke : breathing) {
                const auto found = even.find({stroke.at, stroke.drum});
                if (!is_hand_that_breathes(stroke.drum) || found == even.end()) continue;
                const int more = stroke.velocity - found->second;
                if (stroke.at / meter.bar() < 7) CHECK(std::abs(more) <= 10);
                const bool first_beat = stroke.at % meter.bar() < time::quarter_note * 2;
                if (first_beat) louder.emplace(stroke.at / meter.bar(), more);
            }
            for (const int phrase : {0, 4}) {
                CHECK(louder[phrase] < louder[phrase + 1]);
                CHECK(louder[phrase + 1] < louder[phrase + 2]);
                CHECK(louder[phrase + 2] < louder[phrase + 3]);
            }
            CHECK(louder[3] > louder[4]);
        }
    }
}

TEST_CASE("the ride leaves out a skip here and there, quarters come in a phrase's third bar") {
    std::map<std::set<int>, int> cells;
    for (std::uint64_t seed = 0; seed < 30; ++seed) {
        Asked asked;
        asked.seed = seed;
        const auto strokes = play(form_of(32), asked);
        for (int bar = 0; bar < 32; ++bar) {
            const auto ride = struck(strokes, Drum::ride, bar, Meter(4));
            ++cells[ride];
            for (const int beat : {0, 2, 4, 6}) CHECK(ride.contains(beat));
            if (ride.size() == 4) CHECK(bar % 4 == 2);
        }
    }
    const std::set<int> usual{0, 2, 3, 4, 6, 7};
    REQUIRE(cells.size() == 4);
    CHECK(cells[usual] > 30 * 32 / 2);
    CHECK(cells[{0, 2, 4, 6, 7}] > 0);  // ahead of 1 alone
    CHECK(cells[{0, 2, 3, 4, 6}] > 0);  // ahead of 3 alone
    CHECK(cells[{0, 2, 4, 6}] > 0);
}

TEST_CASE("every eighth bar is led out of by a light fill, lighter than any that is asked for") {
    Asked asked;
    asked.times = 2;
    const auto strokes = only(play(form_of(16), asked), {Drum::snare, Drum::tom});
    std::set<std::int64_t> bars;
    int loudest = 0;
    for (const auto& stroke : strokes) {
        bars.insert(stroke.at / Meter(4).bar());
        loudest = std::max(loudest, stroke.velocity);
        CHECK(stroke.at % Meter(4).bar() >= time::quarter_note * 2);
    }
    CHECK(bars == std::set<std::int64_t>{7, 15, 23});  // after the very last bar nothing comes
    asked.phrasing = Phrasing::even;
    asked.fills = true;
    for (const auto& fill : only(play(form_of(16), asked), {Drum::snare, Drum::tom})) {
        CHECK(fill.velocity > loudest);
    }
}

TEST_CASE("a section of six bars is led out of, a loop of two bars is not, nor is a kick hidden") {
    auto form = form_of(12);
    for (std::size_t bar = 6; bar < 12; ++bar) {
        form.bars[bar].section = "B";
        form.bars[bar].bar_in_section = static_cast<int>(bar) - 5;
    }
    std::set<std::int64_t> bars;
    for (const auto& stroke : only(play(form, {}), {Drum::snare, Drum::tom})) {
        bars.insert(stroke.at / Meter(4).bar());
    }
    CHECK(bars == std::set<std::int64_t>{5});
    form.bars[5].kicks = {time::quarter_note * 3};
    CHECK(only(play(form, {}), {Drum::snare, Drum::tom}).size() == 1);  // the kick itself
    Asked asked;
    asked.times = 4;
    CHECK(only(play(form_of(2), asked), {Drum::snare, Drum::tom}).empty());
}

TEST_CASE("the foot alone and nobody do not breathe") {
    for (const auto drums : {Drums::hats, Drums::off}) {
        Asked asked{{}, drums};
        const auto breathing = play(form_of(16), asked);
        asked.phrasing = Phrasing::even;
        CHECK(play(form_of(16), asked) == breathing);
    }
}

TEST_CASE("the same seed breathes the same, another and another time through otherwise") {
    Asked asked;
    const auto one = play(form_of(32), asked);
    CHECK(play(form_of(32), asked) == one);
    asked.seed = 2;
    CHECK(play(form_of(32), asked) != one);
    asked.times = 2;
    auto both = play(form_of(32), asked);
    const Ticks half = Meter(4).bar() * 32;
    const auto second =
        std::find_if(both.begin(), both.end(), [&](const band::Stroke& s) { return s.at >= half; });
    std::vector<band::Stroke> again(second, both.end());
    both.erase(second, both.end());
    for (auto& stroke : again) stroke.at -= half;
    CHECK(again != both);
}

TEST_CASE("a seed keeps the drums it has always had, time for time") {
    Asked asked;
    asked.seed = 2;
    asked.times = 3;
    std::string rides;
    const auto strokes = play(form_of(8), asked);
    for (int bar = 0; bar < 24; ++bar) {
        rides += std::to_string(struck(strokes, Drum::ride, bar, Meter(4)).size());
        if (bar % 8 == 7) rides += ' ';
    }
    CHECK(rides == "56566656 66455656 56466645 ");
}

TEST_CASE("there are many fills, none is played twice running, with sticks and with brushes") {
    for (const auto drums : {Drums::ride, Drums::brushes}) {
        std::vector<std::vector<band::Stroke>> figures;
        Asked asked{{}, drums, Phrasing::even, true, 3, 60};
        const auto form = form_of(2);
        const auto strokes = play(form, asked);
        for (int time = 0; time + 1 < asked.times; ++time) {
            const Ticks from = Meter(4).bar() * (2 * time + 1);
            std::vector<band::Stroke> figure;
            for (auto stroke : strokes) {
                if (stroke.at < from || stroke.at >= from + Meter(4).bar()) continue;
                stroke.at -= from;
                figure.push_back(stroke);
                CHECK(stroke.at % eighth_note == Ticks(0));
            }
            if (!figures.empty()) CHECK(figure != figures.back());
            figures.push_back(figure);
        }
        std::vector<std::vector<band::Stroke>> kinds;
        for (const auto& figure : figures) {
            const bool is_new = std::find(kinds.begin(), kinds.end(), figure) == kinds.end();
            if (is_new) kinds.push_back(figure);
        }
        CHECK(kinds.size() == band::fill_figures);
    }
}

TEST_CASE("every figure in every manner keeps the foot, is in order and strikes nothing twice") {
    for (const int beats : {3, 4, 5, 6}) {
        for (const auto& asked : manners) {
            for (int figure = 0; figure < band::fill_figures; ++figure) {
                for (const bool light : {false, true}) {
                    if (light && figure >= band::light_figures) continue;
                    band::DrumBar bar;
                    bar.manner = {asked.feel.value_or(Feel::swing),
                                  asked.drums.value_or(Drums::ride), chart::Bass::walking, true,
                                  light};
                    bar.number = 7;
                    bar.fill = !light;
                    bar.light_fill = light;
                    bar.figure = figure;
                    const auto strokes = band::drum_bar(bar, Meter(beats));
                    std::set<std::pair<Ticks, Drum>> struck;
                    for (const auto& stroke : strokes) {
                        CHECK(struck.emplace(stroke.at, stroke.drum).second);
                        CHECK(stroke.at < Meter(beats).bar());
                        CHECK(stroke.velocity <= 100);
                    }
                    CHECK(std::is_sorted(strokes.begin(), strokes.end(),
                                         [](const auto& a, const auto& b) { return a.at < b.at; }));
                    const auto feet = only(strokes, {Drum::hihat_foot});
                    CHECK(feet.size() == band::usual_hihat_beats(Meter(beats)).size());
                }
            }
        }
    }
}
