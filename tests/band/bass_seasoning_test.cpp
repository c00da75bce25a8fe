#include "support/bass_ear.hpp"
#include "support/booking.hpp"
#include "support/catch.hpp"
#include "support/forms.hpp"
#include "support/our_forms.hpp"

#include <cstdlib>
#include <map>

// Skip notes and dead ones: what a bass player adds between the beats.

using namespace compline;
using chart::Bass;
using chart::Feel;
using tests::HeardBass;
using time::eighth_note;
using time::Ticks;

namespace {

constexpr std::uint64_t seeds = 20;

const chart::AskedManner walking{Feel::swing, {}, Bass::walking};
const chart::AskedManner plain_walk{Feel::swing, {}, Bass::walking, true};
const chart::AskedManner two_feel{Feel::swing, {}, Bass::two_feel};
const chart::AskedManner plain_two_feel{Feel::swing, {}, Bass::two_feel, true};

std::vector<int> numbers(const std::vector<HeardBass>& line) {
    std::vector<int> numbers;
    for (const auto& note : line) numbers.push_back(note.note);
    return numbers;
}

std::vector<HeardBass> at_tempo(const chart::Form& form, double bpm, std::uint64_t seed) {
    auto booking = tests::Booking::of(form.whole(), 2, 0);
    booking.asked.manner = walking;
    booking.players.seed = seed;
    booking.asked.tempo = time::Bpm(bpm);
    return tests::hear_bass(booking.map(form), booking.players);
}

}  // namespace

TEST_CASE("a walking bass seasons about one bar in six, more often where a phrase ends") {
    int bars = 0;
    int seasoned = 0;
    int dead = 0;
    int at_phrase_ends = 0;
    for (const auto& form : tests::our_forms()) {
        for (std::uint64_t seed = 1; seed <= seeds; ++seed) {
            bars += 2 * static_cast<int>(form.bars.size());
            for (const auto& note : tests::hear_bass(form, walking, seed, 2)) {
                seasoned += note.short_one ? 1 : 0;
                dead += note.dead ? 1 : 0;
                const auto& bar = form.bar(note.bar);
                at_phrase_ends += note.short_one && bar.bar_in_section % 4 == 0 ? 1 : 0;
            }
        }
    }
    CAPTURE(bars, seasoned, dead, at_phrase_ends);
    CHECK(seasoned > bars / 9);
    CHECK(seasoned < bars / 5);
    CHECK(dead > seasoned / 5);
    CHECK(dead < seasoned * 3 / 5);
    CHECK(at_phrase_ends > seasoned / 3);  // in a quarter of the bars
}

TEST_CASE("a plain bass has the same notes on its beats and nothing between them") {
    const std::pair<chart::AskedManner, chart::AskedManner> manners[] = {
        {walking, plain_walk}, {two_feel, plain_two_feel}};
    for (const auto& [seasoned, plain] : manners) {
        int more = 0;
        for (const auto& form : tests::our_forms()) {
            for (std::uint64_t seed = 1; seed <= seeds; ++seed) {
                const auto with = tests::hear_bass(form, seasoned, seed, 2);
                const auto without = tests::hear_bass(form, plain, seed, 2);
                CAPTURE(form.chart.title, seed);
                CHECK(numbers(tests::without_short_ones(with)) == numbers(without));
                CHECK(numbers(without) == numbers(tests::without_short_ones(without)));
                more += static_cast<int>(with.size() - without.size());
            }
        }
        CHECK(more > 100);
    }
}

TEST_CASE("a short note is the note before or the chord's root or fifth, and runs into a beat") {
    for (const auto& form : tests::our_forms()) {
        for (const auto& manner : {walking, two_feel}) {
            for (std::uint64_t seed = 1; seed <= seeds; ++seed) {
                const auto line = tests::hear_bass(form, manner, seed, 2);
                for (std::size_t i = 0; i < line.size(); ++i) {
                    if (!line[i].short_one) continue;
                    CAPTURE(form.chart.title, seed, line[i].bar, line[i].symbol, line[i].note);
                    REQUIRE(i > 0);
                    REQUIRE(i + 2 < line.size());  // never into the last note of all
                    const bool again = line[i].note == line[i - 1].note;
                    const bool own = line[i].is_one_of({0, 6, 7, 8}) && line[i].rests();
                    CHECK((again || (own && !line[i].dead)));
                    CHECK(line[i + 1].at == line[i].at + eighth_note);
                    CHECK(line[i + 1].note != line[i].note);
                    CHECK(std::abs(line[i + 1].note - line[i].note) <= 7);
                    CHECK_FALSE(line[i + 1].kick);
                    CHECK_FALSE(line[i - 1].kick);
                }
            }
        }
    }
}

TEST_CASE("a dead note is shorter and softer than any other") {
    const auto form = tests::our_forms().front();
    auto booking = tests::Booking::of(form.whole(), 2, 0);
    booking.asked.manner = walking;
    booking.asked.tempo = time::Bpm(140);
    int dead = 0;
    for (booking.players.seed = 1; booking.players.seed <= seeds; ++booking.players.seed) {
        for (const auto& note : booking.play(form).notes) {
            dead += note.dead ? 1 : 0;
            CHECK((note.length < Ticks(200)) == note.dead);
            CHECK((note.velocity < 60) == note.dead);
        }
    }
    CHECK(dead > 20);
}

TEST_CASE("over 240 bpm there are no skip notes, and dead ones still") {
    const auto form = tests::our_forms().at(1);
    std::map<double, int> skips;
    std::map<double, int> dead;
    for (const double bpm : {240.0, 241.0, 300.0}) {
        for (std::uint64_t seed = 1; seed <= seeds; ++seed) {
            for (const auto& note : at_tempo(form, bpm, seed)) {
                skips[bpm] += note.short_one && !note.dead ? 1 : 0;
                dead[bpm] += note.dead ? 1 : 0;
            }
        }
        CHECK(dead[bpm] > 10);
    }
    CHECK(skips[240.0] > 10);
    CHECK(skips[241.0] == 0);
    CHECK(skips[300.0] == 0);
}

TEST_CASE("no short note dangles before a rest, a silence or the end") {
    const auto form = tests::make_form(time::Meter(4), time::Bpm(140),
                                       {"F7", "N.C.", "Bb7", "F7", "C7 N.C.", "F7", "Gm7", "C7"});
    for (const auto bass : {Bass::walking, Bass::two_feel}) {
        int short_ones = 0;
        for (std::uint64_t seed = 1; seed <= 200; ++seed) {
            auto booking = tests::Booking::of(form.whole(), 2, 0);
            booking.asked.manner = {Feel::swing, {}, bass};
            booking.players.seed = seed;
            booking.asked.silence = roadmap::read_silence("3:1");
            const auto line = tests::hear_bass(booking.map(form), booking.players);
            for (std::size_t i = 0; i < line.size(); ++i) {
                if (!line[i].short_one) continue;
                ++short_ones;
                CAPTURE(seed, line[i].bar);
                REQUIRE(i + 2 < line.size());
                CHECK(line[i + 1].at == line[i].at + eighth_note);
                CHECK_FALSE(line[i].symbol.empty());  // nor is it struck in the rest
            }
        }
        CHECK(short_ones > 50);
    }
}
