#include "../../src/guitar/guide_line.hpp"

#include "../../tools/plan.d/random_tune.hpp"
#include "support/catch.hpp"
#include "support/our_forms.hpp"

#include <compline/guitar/voicing_plan.hpp>
#include <compline/text/bad_input.hpp>

#include <algorithm>
#include <cstdlib>
#include <limits>
#include <set>
#include <string>
#include <vector>

using namespace compline;
using guitar::Shape;
using guitar::VoicingPlan;
using guitar::VoicingStyle;

namespace {

const auto neck = guitar::Fretboard::standard();

std::vector<harmony::Chord> chords(const std::vector<const char*>& symbols) {
    std::vector<harmony::Chord> all;
    for (const auto* symbol : symbols) all.push_back(harmony::read_chord(symbol));
    return all;
}

std::vector<Shape> line_of(const std::vector<const char*>& symbols) {
    return guitar::guide_line(chords(symbols), neck, {4, 3}, std::nullopt);
}

int motion(const Shape& from, const Shape& to) {
    return std::abs(*to.on(4) - *from.on(4)) + std::abs(*to.on(3) - *from.on(3));
}

std::set<int> tones(const Shape& shape) {
    std::set<int> all;
    for (const auto& place : shape.places()) all.insert(neck.note(place).pitch_class());
    return all;
}

VoicingPlan plan_of(const chart::Form& form, VoicingStyle style) {
    guitar::VoicingWishes wishes;
    wishes.style = style;
    return guitar::plan_voicings(form, form.whole(), form.chart.tempo, neck, wishes).front();
}

}  // namespace

// Common practice, no source.
TEST_CASE("through a ii-V-I one guide tone stays and the other falls a semitone", "[guitar]") {
    const auto line = line_of({"Dm7", "G7", "Cmaj7"});
    CHECK(motion(line[0], line[1]) == 1);
    CHECK(motion(line[1], line[2]) == 1);
    CHECK(tones(line[0]) == std::set<int>{5, 0});
    CHECK(tones(line[1]) == std::set<int>{5, 11});
    CHECK(tones(line[2]) == std::set<int>{4, 11});
}

TEST_CASE("guide tones are third and seventh, or what a chord has in their place", "[guitar]") {
    const auto of = [](const char* symbol) {
        std::set<int> set;
        const auto bits = guitar::guide_tones_of(harmony::read_chord(symbol));
        for (int tone = 0; tone < 12; ++tone) {
            if ((bits >> tone & 1) != 0) set.insert(tone);
        }
        return set;
    };
    CHECK(of("C6") == std::set<int>{4, 9});
    CHECK(of("C7sus4") == std::set<int>{5, 10});
    CHECK(of("C") == std::set<int>{4, 7});
    CHECK(of("Caug") == std::set<int>{4, 8});
    CHECK(of("Cdim7") == std::set<int>{3, 9});
    CHECK(of("Cm7b5") == std::set<int>{3, 10});
    CHECK(of("C7alt") == std::set<int>{4, 10});
    CHECK(of("C5") == std::set<int>{0, 7});
    CHECK(of("C11") == std::set<int>{5, 10});
    CHECK(of("C(no5)") == std::set<int>{0, 4});
    CHECK(of("Cmaj9(no3)") == std::set<int>{0, 11});
}

TEST_CASE("no other line of guide tones on the two strings moves less", "[guitar]") {
    for (std::uint64_t seed = 1; seed <= 40; ++seed) {
        std::vector<harmony::Chord> tune;
        for (const auto& span : plan_rivals::random_tune(seed, 5, 1).spans) {
            tune.push_back(*span.chord);
        }
        const auto line = guitar::guide_line(tune, neck, {4, 3}, std::nullopt);
        const auto n = tune.size();
        REQUIRE(line.size() == n);
        int found = 0;
        for (std::size_t i = 0; i < n; ++i) found += motion(line[i], line[(i + 1) % n]);
        // Every line: two octaves of each string's tones, all ways round.
        std::vector<std::vector<Shape>> all(n);
        for (std::size_t i = 0; i < n; ++i) {
            for (int low = 1; low <= 14; ++low) {
                for (int high = 1; high <= 14; ++high) {
                    Shape shape = line[0];
                    shape.on(4) = low;
                    shape.on(3) = high;
                    const bool reached = std::abs(low - high) <= (std::min(low, high) < 5 ? 3 : 4);
                    if (reached && tones(shape) == tones(line[i])) all[i].push_back(shape);
                }
            }
        }
        int least = std::numeric_limits<int>::max();
        std::vector<std::size_t> at(n, 0);
        for (bool more = true; more;) {
            int sum = 0;
            for (std::size_t i = 0; i < n; ++i) {
                sum += motion(all[i][at[i]], all[(i + 1) % n][at[(i + 1) % n]]);
            }
            least = std::min(least, sum);
            std::size_t i = 0;
            while (i < n && ++at[i] == all[i].size()) at[i++] = 0;
            more = i < n;
        }
        CAPTURE(seed);
        CHECK(found == least);
    }
}

TEST_CASE("the line goes past a chord whose guide tones are out of reach of each other",
          "[guitar]") {
    const guitar::Fretboard octaves(guitar::read_tuning("E2 E3 E4 E5"), 22);
    const auto symbols = chords({"C7", "Cm(maj7)", "C7"});
    const auto line = guitar::guide_line(symbols, octaves, {4, 3}, std::nullopt);
    REQUIRE(line.size() == 3);
    CHECK(line[0].places().empty());
    CHECK(line[1].places().size() == 2);
    CHECK(line[2].text() == "xxxx");
    CHECK(guitar::guide_line(chords({"C7"}), octaves, {4, 3}, {}).front().places().empty());
}

TEST_CASE("a plan of guide tones says where they are out of reach, and where they are not",
          "[guitar]") {
    const auto refusal = [](const char* tuning) {
        const guitar::Fretboard other(guitar::read_tuning(tuning), 22);
        guitar::VoicingWishes wishes;
        wishes.style = VoicingStyle::guide_tones;
        const auto form = tests::our_forms().front();
        try {
            (void)guitar::plan_voicings(form, form.whole(), form.chart.tempo, other, wishes);
        } catch (const text::BadInput& error) {
            return std::string(error.what());
        }
        return std::string("a plan");
    };
    const auto nowhere = refusal("E2 E3 E4 E5");
    CAPTURE(nowhere);
    CHECK(nowhere.find("bar 1, ") == 0);
    CHECK(nowhere.find("on strings 3 and 2") != std::string::npos);
    CHECK(nowhere.find("nor on any other two side by side") != std::string::npos);
    const auto elsewhere = refusal("E2 E3 E4 A4");
    CAPTURE(elsewhere);
    CHECK(elsewhere.find("on 2 and 1") != std::string::npos);
}

TEST_CASE("the line lies on two strings side by side, above the lowest that is left for a root",
          "[guitar]") {
    using Pair = std::pair<int, int>;
    CHECK(guitar::guide_strings({6, 5, 4, 3}) == Pair(4, 3));
    CHECK(guitar::guide_strings({5, 4, 3, 2}) == Pair(4, 3));
    CHECK(guitar::guide_strings({5, 3, 2}) == Pair(3, 2));
    CHECK(guitar::guide_strings({2, 1}) == Pair(2, 1));
    CHECK_FALSE(guitar::guide_strings({6, 4, 2}));
}

TEST_CASE("each step of the ladder keeps the guide tones where the line has them", "[guitar]") {
    for (const auto& form : tests::our_forms()) {
        const auto line = plan_of(form, VoicingStyle::guide_tones);
        // A colour that the chart writes comes before the line, and not all lie beside it.
        for (const auto& [style, tenths] :
             {std::pair(VoicingStyle::shells, 8U), std::pair(VoicingStyle::one_colour, 6U)}) {
            const auto plan = plan_of(form, style);
            REQUIRE(plan.voicings.size() == line.voicings.size());
            std::size_t kept = 0;
            for (std::size_t i = 0; i < plan.voicings.size(); ++i) {
                const auto& guides = line.voicings[i].grip.shape;
                const auto& shape = plan.voicings[i].grip.shape;
                kept += shape.on(4) == guides.on(4) && shape.on(3) == guides.on(3) ? 1 : 0;
            }
            CAPTURE(form.chart.title, guitar::name_of(style), kept, plan.voicings.size());
            CHECK(10 * kept >= tenths * plan.voicings.size());
        }
    }
}

TEST_CASE("one colour is guide tones and one tone more", "[guitar]") {
    for (const auto& form : tests::our_forms()) {
        for (const auto& voicing : plan_of(form, VoicingStyle::one_colour).voicings) {
            const auto guides = guitar::guide_tones_of(voicing.change.to);
            CAPTURE(form.chart.title, voicing.change.bar, voicing.grip.shape.text());
            CHECK(voicing.grip.shape.places().size() == 3);
            int of_guides = 0;
            for (const int tone : tones(voicing.grip.shape)) of_guides += guides >> tone & 1;
            CHECK(of_guides == 2);
        }
    }
}
