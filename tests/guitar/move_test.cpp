#include "support/catch.hpp"

#include <compline/chart/pins.hpp>
#include <compline/guitar/effort.hpp>
#include <compline/guitar/move.hpp>
#include <compline/simulate/chance.hpp>

#include <algorithm>
#include <string>

using namespace compline;
using guitar::Act;
using guitar::Finger;
using guitar::Grip;

namespace {

const auto neck = guitar::Fretboard::standard();

Grip grip(const std::string& shape, const std::string& fingers) {
    Grip made{guitar::Shape::of(chart::read_shape_text(shape)), {}};
    for (std::size_t i = 0; i < fingers.size(); ++i) {
        const char c = fingers[fingers.size() - 1 - i];
        made.fingers.at(i) = c == 'T'               ? Finger::thumb
                             : c >= '1' && c <= '4' ? static_cast<Finger>(c - '0')
                                                    : Finger::none;
    }
    return made;
}

guitar::Move move(const Grip& from, const Grip& to) { return guitar::move_between(neck, from, to); }

guitar::Cost cost(const Grip& from, const Grip& to) {
    return guitar::reach_cost(neck, from, to, {64});
}

}  // namespace

TEST_CASE("a move tells which finger stays, slides, moves, lands and lifts", "[guitar]") {
    const auto made = move(grip("x5x56x", "x2x34x"), grip("x5x46x", "x2x14x"));
    CHECK(made.fingers == std::vector<guitar::FingerMove>{{Finger::index, Act::lands, 0, 3, 0},
                                                          {Finger::middle, Act::stays, 5, 5, 0},
                                                          {Finger::ring, Act::lifts, 3, 0, 0},
                                                          {Finger::little, Act::stays, 2, 2, 0}});
    CHECK(made.is_guided());
    CHECK(made.semitones() == 1);
    const auto other = move(grip("x3x45x", "x1x23x"), grip("3x34xx", "1x23xx"));
    CHECK(other.fingers.front() == guitar::FingerMove{Finger::index, Act::moves, 5, 6, 0});
}

TEST_CASE("a barre that stays on one of its strings stays", "[guitar]") {
    const auto made = move(grip("x5557x", "x1113x"), grip("xx555x", "xx111x"));
    CHECK(made.fingers.front().act == Act::stays);
}

TEST_CASE("voices are paired so that they move least", "[guitar]") {
    using harmony::MidiNote;
    const std::vector<MidiNote> dm7 = {MidiNote(50), MidiNote(60), MidiNote(65)};
    const std::vector<MidiNote> g7 = {MidiNote(50), MidiNote(59), MidiNote(65)};
    int sum = 0;
    for (const auto& voice : guitar::least_motion(dm7, g7)) sum += voice.semitones();
    CHECK(sum == 1);
    // Two voices into three: the one that would have furthest to come is new.
    const auto grown = guitar::least_motion({MidiNote(60), MidiNote(64)},
                                            {MidiNote(48), MidiNote(60), MidiNote(65)});
    CHECK(grown == std::vector<guitar::VoiceMove>{{MidiNote(60), MidiNote(60)},
                                                  {MidiNote(64), MidiNote(65)}});
}

TEST_CASE("least motion is the least of all pairings", "[guitar]") {
    simulate::Chance chance(3);
    for (int n = 0; n < 500; ++n) {
        std::vector<harmony::MidiNote> from;
        std::vector<harmony::MidiNote> to;
        const auto notes = 2 + chance.below(3);
        for (std::uint64_t i = 0; i < notes; ++i) {
            from.emplace_back(static_cast<int>(40 + chance.below(30)));
            to.emplace_back(static_cast<int>(40 + chance.below(30)));
        }
        std::sort(from.begin(), from.end());
        std::sort(to.begin(), to.end());
        int motion = 0;
        for (const auto& voice : guitar::least_motion(from, to)) motion += voice.semitones();
        auto any = to;
        int least = 1000;
        do {
            int sum = 0;
            for (std::size_t i = 0; i < from.size(); ++i) {
                sum += std::abs(from[i].number() - any[i].number());
            }
            least = std::min(least, sum);
        } while (std::next_permutation(any.begin(), any.end()));
        REQUIRE(motion == least);
    }
}

TEST_CASE("a finger that stays costs nothing", "[guitar]") {
    const auto held = grip("x5x56x", "x2x34x");
    CHECK(cost(held, held) == 0);
    const auto bare = grip("x5x56x", "x2x34x");
    CHECK(cost(bare, grip("x5x57x", "x2x34x")) <
          cost(bare, grip("x6x57x", "x2x34x")));  // one slides, or two
}

// Common practice, no source.
TEST_CASE("a grip that slides a fret or two as it is moves more cheaply than any other",
          "[guitar]") {
    const auto held = grip("x5x56x", "x2x34x");
    const auto slid = grip("x6x67x", "x2x34x");
    const auto further = grip("x7x78x", "x2x34x");
    CHECK(move(held, slid).whole_grip);
    CHECK(cost(held, slid) < cost(held, further));
    simulate::Chance chance(5);
    int compared = 0;
    for (int n = 0; n < 3000; ++n) {
        guitar::Shape shape;
        const auto top = 2 + chance.below(2);
        for (std::uint64_t i = 0; i < 4; ++i) {
            if (chance.below(4) > 0) {
                shape.on(static_cast<int>(top + i)) = static_cast<int>(4 + chance.below(4));
            }
        }
        for (const auto& other : guitar::fingerings(shape, {})) {
            if (other.holds().empty() || other == held) continue;
            CAPTURE(other.shape.text(), other.finger_text());
            const bool alike = move(held, other).whole_grip;
            if (!alike) REQUIRE(cost(held, other) > cost(held, further));
            ++compared;
        }
    }
    CHECK(compared > 1000);
}

TEST_CASE("the less time is left, the more a jump costs, and a guide finger halves it",
          "[guitar]") {
    using guitar::haste;
    using time::Seconds;
    CHECK(haste(Seconds(1)) == 64);
    CHECK(haste(Seconds(0.5)) == 128);
    CHECK(haste(Seconds(0.1)) == haste(Seconds(0.3)));
    CHECK(haste(Seconds(9)) < 64);
    const auto low = grip("x3x45x", "x1x23x");
    const auto jump = grip("8x89xx", "2x34xx");
    CHECK(guitar::reach_cost(neck, low, jump, {128}) > guitar::reach_cost(neck, low, jump, {64}));
    const auto guided = grip("x5x46x", "x2x14x");
    const auto unguided = grip("5x46xx", "2x14xx");
    CHECK(guitar::reach_cost(neck, grip("x8x79x", "x2x14x"), guided, {64}) <
          guitar::reach_cost(neck, grip("x8x79x", "x2x14x"), unguided, {64}));
}

TEST_CASE("the same notes held through a change that has news are not free", "[guitar]") {
    const auto held = grip("x5x56x", "x2x34x");
    const guitar::WayIn news{64, guitar::Line::free, true};
    CHECK(guitar::reach_cost(neck, held, held, news) == guitar::weight::held);
    // Another fingering of the same shape is the same to the ear.
    const auto other = grip("x5x56x", "x1x23x");
    CHECK(guitar::reach_cost(neck, held, other, news) -
              guitar::reach_cost(neck, held, other, {64}) ==
          guitar::weight::held);
    const auto slid = grip("x6x67x", "x2x34x");
    CHECK(guitar::reach_cost(neck, held, slid, news) == guitar::reach_cost(neck, held, slid, {64}));
}
