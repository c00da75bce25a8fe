#include "support/catch.hpp"

#include <compline/band/band.hpp>

using namespace compline;
using chart::Bass;
using chart::Drums;
using chart::Feel;
using time::Bpm;

TEST_CASE("the tempo picks the band: brushes in two, then ride and walking, then quarters") {
    for (const double bpm : {40.0, 79.9}) {
        const auto slow = band::manner_of({}, Bpm(bpm));
        CHECK(slow.drums == Drums::brushes);
        CHECK(slow.bass == Bass::two_feel);
    }
    for (const double bpm : {80.0, 132.0, 260.0}) {
        const auto medium = band::manner_of({}, Bpm(bpm));
        CHECK(medium.drums == Drums::ride);
        CHECK(medium.bass == Bass::walking);
        CHECK(medium.feathered);
    }
    const auto fast = band::manner_of({}, Bpm(261));
    CHECK(fast.drums == Drums::quarters);
    CHECK(fast.bass == Bass::walking);
    CHECK_FALSE(fast.feathered);
}

TEST_CASE("what is asked for is played at every tempo") {
    for (const double bpm : {50.0, 150.0, 300.0}) {
        const auto manner = band::manner_of({Feel::straight, Drums::hats, Bass::roots}, Bpm(bpm));
        CHECK(manner.feel == Feel::straight);
        CHECK(manner.drums == Drums::hats);
        CHECK(manner.bass == Bass::roots);
    }
    CHECK_FALSE(band::manner_of({{}, Drums::ride, {}}, Bpm(300)).feathered);
}

TEST_CASE("a ballad has brushes and a bass in two, also where the tempo would allow more") {
    const auto ballad = band::manner_of({Feel::ballad, {}, {}}, Bpm(90));
    CHECK(ballad.drums == Drums::brushes);
    CHECK(ballad.bass == Bass::two_feel);
}

TEST_CASE("a bossa keeps its pattern when it is slow or fast") {
    for (const double bpm : {70.0, 140.0, 280.0}) {
        CHECK(band::manner_of({Feel::bossa, {}, {}}, Bpm(bpm)).drums == Drums::ride);
    }
}

TEST_CASE("two bars of count-in, under 80 bpm one") {
    CHECK(roadmap::usual_count_in(Bpm(79)) == 1);
    CHECK(roadmap::usual_count_in(Bpm(80)) == 2);
    CHECK(roadmap::usual_count_in(Bpm(240)) == 2);
}
