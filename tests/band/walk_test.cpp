#include "support/catch.hpp"

#include <compline/band/walk.hpp>
#include <compline/sound/noise.hpp>

#include <cstdlib>

using namespace compline;
using band::Step;

namespace {

std::vector<int> numbers(const std::vector<harmony::MidiNote>& line) {
    std::vector<int> result;
    for (const auto note : line) result.push_back(note.number());
    return result;
}

}  // namespace

TEST_CASE("a walk through no steps is no line, and one step is its note nearest the middle") {
    CHECK(band::walk({}).empty());
    CHECK(numbers(band::walk({Step{{{5, 0}}}})) == std::vector<int>{41});
}

TEST_CASE("a walk takes the nearer octave and does not strike a note twice") {
    CHECK(numbers(band::walk({Step{{{5, 0}}}, Step{{{7, 0}}}, Step{{{9, 0}}}})) ==
          std::vector<int>{41, 43, 45});
    const auto same = numbers(band::walk({Step{{{9, 0}}}, Step{{{9, 0}}}}));
    CHECK(std::abs(same[1] - same[0]) == 12);
}

TEST_CASE("a walk keeps its limits whatever it is asked for") {
    sound::Noise chance(5);
    const auto pick = [&](int count) {
        return static_cast<int>((chance.next() + 1.0) / 2 * count);
    };
    for (int round = 0; round < 50; ++round) {
        std::vector<Step> steps;
        for (int i = 0; i < 60; ++i) {
            const int pitch_class = pick(12);
            // A leading step needs a next note within its reach; odd steps lead to even ones.
            const bool leads = i % 2 != 0;
            if (!leads) steps.push_back(Step{{{pitch_class, 0}, {pick(12), 3}}, 12});
            if (leads) steps.push_back(Step{{{pitch_class, 0}, {(pitch_class + 6) % 12, 0}}, 6});
        }
        const auto line = numbers(band::walk(steps));
        REQUIRE(line.size() == steps.size());
        for (std::size_t i = 0; i < line.size(); ++i) {
            CHECK(line[i] >= 28);
            CHECK(line[i] <= 55);
            const auto& choices = steps[i].choices;
            CHECK(
                (line[i] % 12 == choices[0].pitch_class || line[i] % 12 == choices[1].pitch_class));
            if (i > 0) CHECK(std::abs(line[i] - line[i - 1]) <= steps[i - 1].leap_to_next);
        }
    }
}
