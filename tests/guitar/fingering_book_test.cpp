#include "../../src/guitar/fingering_book.hpp"

#include "../../src/guitar/movable_shapes.hpp"
#include "support/catch.hpp"

#include <algorithm>
#include <limits>
#include <vector>

using namespace compline;
using guitar::Cost;

namespace {

/// The fingerings of a shape that a book should know, found where the shape lies.
std::vector<guitar::FingeringBook::Fingered> found_there(const guitar::Fretboard& neck,
                                                         const guitar::Shape& shape,
                                                         guitar::Hands hands) {
    std::vector<guitar::FingeringBook::Fingered> all;
    Cost best = std::numeric_limits<Cost>::max();
    for (const auto& grip : guitar::fingerings(shape, hands, neck.capo())) {
        all.push_back({grip.fingers, guitar::pack(neck, grip), 0, guitar::form_cost(grip)});
        best = std::min(best, all.back().form);
    }
    all.erase(std::remove_if(all.begin(), all.end(),
                             [&](const auto& one) { return one.form > best + guitar::clumsiest; }),
              all.end());
    return all;
}

void check_everywhere(const guitar::Fretboard& neck, guitar::Hands hands) {
    guitar::VoicingWishes wishes;
    wishes.strings = {6, 4, 3};
    wishes.open_strings = true;
    wishes.right_hand = hands.right;
    guitar::FingeringBook book(neck, hands);
    for (const auto& form : guitar::movable_shapes_on(neck, wishes)) {
        if (form.all_open) continue;
        for (int lowest = 1; lowest + form.span <= 16; ++lowest) {
            if (form.span > guitar::widest_span(lowest, neck.capo())) continue;
            const auto shape = form.shape(neck.strings(), lowest);
            const auto expected = found_there(neck, shape, hands);
            const auto& entry = book.fingerings(shape, lowest);
            CAPTURE(neck.capo(), shape.text());
            REQUIRE(entry.all.size() == expected.size());
            for (std::size_t i = 0; i < expected.size(); ++i) {
                const auto grip = entry.all[i].at(lowest - entry.lowest);
                REQUIRE(entry.all[i].fingers == expected[i].fingers);
                REQUIRE(entry.all[i].form == expected[i].form);
                REQUIRE(grip.place == expected[i].packed.place);
                REQUIRE(grip.fret == expected[i].packed.fret);
                REQUIRE(grip.cover == expected[i].packed.cover);
                REQUIRE(grip.form == expected[i].packed.form);
                REQUIRE(int{grip.hand} == int{expected[i].packed.hand});
            }
        }
    }
}

}  // namespace

TEST_CASE("a shape's fingerings are those found where it lies, at every fret and with every capo",
          "[guitar]") {
    for (const int capo : {0, 1, 3, 6, 9}) {
        const guitar::Fretboard neck(guitar::read_tuning("E2 A2 D3 G3 B3 E4"), 22, capo);
        check_everywhere(neck, {false, guitar::RightHand::fingers});
    }
    check_everywhere(guitar::Fretboard::standard(), {true, guitar::RightHand::fingers});
}
