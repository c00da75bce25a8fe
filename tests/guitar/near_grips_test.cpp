#include "support/catch.hpp"
#include "support/comper.hpp"

#include <compline/guitar/likely_fingers.hpp>
#include <compline/guitar/near_grips.hpp>
#include <compline/guitar/pinning.hpp>

using namespace compline;
using namespace compline::tests;

namespace {

const auto neck = guitar::Fretboard::standard();

guitar::Grip held(const std::string& text) {
    return *guitar::likely_fingers(neck, {shape(text)}).front();
}

struct TwoChords {
    chart::Form form = form_of("Dm7 | G7");
    time::Ticks second = form.bar(2).start;

    std::optional<guitar::Grip> near(const std::string& from, const std::string& instead,
                                     const guitar::VoicingWishes& wishes = {}) const {
        guitar::NearGrips grips(form, form.whole(), neck, wishes);
        return grips.nearest(second, held(from), held(instead));
    }
};

}  // namespace

TEST_CASE("near a minor seventh its dominant lies under the same hand", "[guitar]") {
    const auto grip = TwoChords().near("x5x56x", "x-10-9-10-x-x");
    REQUIRE(grip.has_value());
    const auto move = guitar::move_between(neck, held("x5x56x"), *grip);
    CHECK(move.is_guided());
    CHECK(move.travel() <= 2);
    CHECK(std::abs(move.hand) <= 1);
    CHECK_FALSE(guitar::why_not_pinned(
        neck, grip->shape, {harmony::read_chord("G7"), {}, harmony::Strictness::working}));
}

TEST_CASE("a near grip lies on the strings that are played, or on those wished for", "[guitar]") {
    const TwoChords chords;
    guitar::VoicingWishes wishes;
    wishes.strings = {3, 2, 1};
    const auto high = chords.near("3x34xx", "3x34xx", wishes);
    REQUIRE(high.has_value());
    for (const auto& place : high->shape.places()) CHECK(place.string <= 3);
    const auto low = chords.near("1x23xx", "3x34xx");
    REQUIRE(low.has_value());
    CHECK(low->shape.on(6).has_value());
    CHECK_FALSE(low->shape.on(1).has_value());
}

TEST_CASE("where no chord begins nothing lies near", "[guitar]") {
    TwoChords chords;
    chords.second += time::quarter_note;
    CHECK_FALSE(chords.near("x5x56x", "3x34xx").has_value());
}
