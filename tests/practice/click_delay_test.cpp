#include "support/calibrating.hpp"
#include "support/catch.hpp"
#include "support/lines.hpp"

#include <compline/practice/click_delay.hpp>

#include <cmath>

using namespace compline;
using practice::ClickDelay;
using practice::PlayingFault;
using simulate::Chance;
using tests::TruePickup;
using time::Seconds;

using tests::holds;
using tests::refused_words;

namespace {

const std::vector<int> six_strings{1, 2, 3, 4, 5, 6};

std::vector<Seconds> clicks(int count) {
    std::vector<Seconds> at;
    for (int i = 1; i <= count; ++i) at.emplace_back(i);
    return at;
}

struct Player {
    double place_ms = 30;
    double uneven_ms = 3;
    int on_each = 16;
};

ClickDelay measured(const TruePickup& pickup, const Player& player, std::uint64_t seed) {
    Chance chance(seed);
    const auto played = tests::on_clicks(player.on_each, player.place_ms, player.uneven_ms, chance);
    return practice::measure_on_clicks(clicks(6 * player.on_each), pickup.sent(played, chance),
                                       six_strings, 1.5);
}

}  // namespace

TEST_CASE("played to a click, strings show their differences within 2 ms, whatever the place") {
    for (const double place : {-20.0, 0.0, 30.0}) {
        for (std::uint64_t seed = 1; seed <= 30; ++seed) {
            TruePickup pickup;
            pickup.string_ms[3] = 8;
            const auto found = measured(pickup, {place, 2}, seed);
            CAPTURE(place, seed);
            REQUIRE(found.is_known());
            REQUIRE(found.strings.size() == 6);
            for (const auto& one : found.strings) {
                // Against the mean of all, of which the late string is a sixth.
                const double true_ms = (one.string == 3 ? 8 : 0) - 8.0 / 6;
                CHECK(std::fabs(one.remains.milliseconds() - true_ms) < 2);
                CHECK(one.error.milliseconds() < 1.2);
            }
            CHECK(found.strings[2].is_sure());
        }
    }
}

TEST_CASE("to an uneven player it is said how little sure the differences are") {
    int right = 0;
    int all = 0;
    for (std::uint64_t seed = 1; seed <= 60; ++seed) {
        TruePickup pickup;
        pickup.string_ms[3] = 8;
        const auto found = measured(pickup, {30, 12}, seed);
        REQUIRE(found.is_known());
        for (const auto& one : found.strings) {
            const double true_ms = (one.string == 3 ? 8 : 0) - 8.0 / 6;
            const double off = std::fabs(one.remains.milliseconds() - true_ms);
            CHECK(one.error.milliseconds() > 2);
            right += off < 2 * one.error.milliseconds() ? 1 : 0;
            ++all;
        }
    }
    CHECK(right > 0.92 * all);
    CHECK(right < 0.99 * all);
}

TEST_CASE("the player's own place is in the sum and in no difference") {
    TruePickup pickup;
    pickup.noise_ms = 0;
    pickup.missed = 0;
    pickup.ghosts = 0;
    const auto on = measured(pickup, {0, 0}, 1);
    const auto behind = measured(pickup, {30, 0}, 1);
    CHECK((behind.sum - on.sum).milliseconds() == Approx(30).margin(0.01));
    for (std::size_t i = 0; i < 6; ++i) {
        CHECK((behind.strings[i].difference - on.strings[i].difference).milliseconds() ==
              Approx(0).margin(0.01));
        CHECK(std::fabs(on.strings[i].remains.milliseconds()) < 0.01);
    }
    // Low strings come later, by cycles of their waves; as played, that is a difference too.
    CHECK(on.strings[5].difference > on.strings[0].difference + time::from_milliseconds(8));
    CHECK(holds(practice::in_words(behind), "behind the click"));
}

TEST_CASE("the first two notes of each string and those far off are left out") {
    TruePickup pickup;
    pickup.noise_ms = 0;
    pickup.missed = 0;
    pickup.ghosts = 0;
    Chance chance(1);
    auto played = tests::on_clicks(16, 0, 1, chance);
    for (std::size_t i = 0; i < played.size(); ++i) {
        if (i % 16 < 2) played[i].at += time::from_milliseconds(90);
        if (i % 16 == 9) played[i].at += time::from_milliseconds(60);
    }
    const auto found = practice::measure_on_clicks(clicks(96), pickup.sent(played, chance),
                                                   six_strings, pickup.cycles);
    REQUIRE(found.is_known());
    CHECK(found.used == 6 * 13);
    CHECK(found.left_out == 6 * 3);
    for (const auto& one : found.strings) CHECK(std::fabs(one.remains.milliseconds()) < 1);
}

TEST_CASE("a note counts for the nearest click within half a beat, one for each click") {
    const auto at = [](double seconds, int velocity = 80) {
        listen::Note note;
        note.on = Seconds(seconds);
        note.off = note.on + Seconds(0.1);
        note.note = harmony::MidiNote(64);
        note.string = 1;
        note.velocity = velocity;
        return note;
    };
    std::vector<listen::Note> notes;
    for (int i = 1; i <= 12; ++i) notes.push_back(at(i + 0.4));
    notes.push_back(at(12.45, 10));
    notes.push_back(at(13.6));
    const std::vector<int> one{1};
    const auto found = practice::measure_on_clicks(clicks(13), notes, one, 0);
    REQUIRE(found.is_known());
    CHECK(found.used == 10);
    CHECK(found.off_click == 2);
    CHECK(found.sum.milliseconds() == Approx(400));
}

TEST_CASE("playing that tells nothing is refused in words, with what to do") {
    CHECK(holds(refused_words(practice::measure_on_clicks(clicks(9), {}, six_strings, 1.5),
                              PlayingFault::no_notes),
                "No note came near a click"));
    CHECK(practice::measure_on_clicks({}, {}, six_strings, 1.5).fault == PlayingFault::no_notes);
    TruePickup one_channel;
    one_channel.strings = false;
    CHECK(holds(refused_words(measured(one_channel, {}, 1), PlayingFault::one_channel),
                "All strings come on one channel"));
    CHECK(holds(refused_words(measured({}, {0, 60}, 1), PlayingFault::not_in_time), "too uneven"));
    CHECK(holds(refused_words(measured({}, {0, 5, 8}, 1), PlayingFault::too_few_notes),
                "Too few notes on strings 1, 2, 3, 4, 5 and 6: play 16 on each."));
}

TEST_CASE("differences are said as played and without cycles, and that the sum is not set") {
    TruePickup pickup;
    pickup.string_ms[3] = 8;
    const auto words = practice::in_words(measured(pickup, {30, 3}, 2));
    CAPTURE(words);
    CHECK(holds(words, "-1.5 cycles   give or take"));
    CHECK(holds(words, "  string 3 "));
    CHECK(holds(words, "differences are set, not the sum."));
    CHECK(tests::widest_line(words) <= 80);
}
