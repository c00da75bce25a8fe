#include "support/bass_ear.hpp"
#include "support/booking.hpp"
#include "support/catch.hpp"
#include "support/forms.hpp"
#include "support/our_forms.hpp"
#include "support/voicings.hpp"

#include <compline/band/part_writer.hpp>

#include <algorithm>
#include <set>

// What tells a bass player from a machine: register, room for the guitar, and never twice the same.

using namespace compline;
using chart::Bass;
using chart::Feel;
using tests::HeardBass;
using time::Ticks;

namespace {

constexpr Ticks beat = time::quarter_note;

const chart::AskedManner plain_walk{Feel::swing, {}, Bass::walking, true};
const chart::AskedManner plain_two_feel{Feel::swing, {}, Bass::two_feel, true};

/// The bars of a line, each as its notes.
std::vector<std::vector<int>> bars_of(const std::vector<HeardBass>& line, Ticks bar) {
    std::vector<std::vector<int>> bars;
    for (const auto& note : line) {
        const auto number = static_cast<std::size_t>(note.at / bar);
        if (bars.size() <= number) bars.resize(number + 1);
        bars[number].push_back(note.note);
    }
    return bars;
}

}  // namespace

TEST_CASE("the bass is at home from F1 to C3 and uses the bottom of its E string on every chart") {
    for (const auto& form : tests::our_forms()) {
        for (const auto& manner : {plain_walk, plain_two_feel}) {
            int notes = 0;
            int at_home = 0;
            int lowest_third = 0;
            int open_string = 0;
            for (std::uint64_t seed = 1; seed <= 20; ++seed) {
                for (const auto& note : tests::hear_bass(form, manner, seed, 2)) {
                    ++notes;
                    at_home += note.note >= 29 && note.note <= 48 ? 1 : 0;
                    lowest_third += note.note <= 32 ? 1 : 0;
                    open_string += note.note == 28 ? 1 : 0;
                    CHECK(note.note >= 28);
                }
            }
            CAPTURE(form.chart.title, notes, at_home, lowest_third, open_string);
            CHECK(at_home > notes * 95 / 100);
            CHECK(lowest_third > notes / 50);
        }
    }
}

TEST_CASE("the same change played ten times has four lines at least, in four and in two") {
    const auto form = tests::make_form(time::Meter(4), time::Bpm(140),
                                       {"Cmaj7", "Am7", "Dm7", "G7", "Em7 A7", "Dm7 G7"});
    for (const auto& manner : {plain_walk, plain_two_feel}) {
        const auto bars = bars_of(tests::hear_bass(form, manner, 1, 10), form.chart.meter.bar());
        for (const std::size_t first : {0U, 2U, 4U}) {
            std::set<std::vector<int>> lines;
            for (std::size_t time = 0; time < 9; ++time) {
                auto line = bars.at(time * 6 + first);
                const auto& next = bars.at(time * 6 + first + 1);
                line.insert(line.end(), next.begin(), next.end());
                lines.insert(line);
            }
            std::set<std::vector<int>> by_seed;
            for (std::uint64_t seed = 1; seed <= 10; ++seed) {
                const auto once =
                    bars_of(tests::hear_bass(form, manner, seed), form.chart.meter.bar());
                auto line = once.at(first);
                line.insert(line.end(), once.at(first + 1).begin(), once.at(first + 1).end());
                by_seed.insert(line);
            }
            CAPTURE(*manner.bass == Bass::walking, first, lines.size(), by_seed.size());
            CHECK(lines.size() >= 4);
            CHECK(by_seed.size() >= 4);
        }
    }
}

TEST_CASE(
    "two chords a bar at 220 are at times root and fifth or root and root, at 140 they lead") {
    const auto form =
        tests::make_form(time::Meter(4), time::Bpm(140), {"Dm7 G7", "Em7 A7", "Fm7 Bb7", "Cmaj7"});
    const auto count = [&](double bpm) {
        struct {
            int all = 0, fifths = 0, roots = 0;
        } found;
        for (std::uint64_t seed = 1; seed <= 20; ++seed) {
            auto booking = tests::Booking::of(form.whole(), 4, 0);
            booking.asked.manner = plain_walk;
            booking.players.seed = seed;
            booking.asked.tempo = time::Bpm(bpm);
            const auto line = tests::hear_bass(booking.map(form), booking.players);
            for (std::size_t i = 1; i + 1 < line.size(); ++i) {
                const bool second = line[i].at - line[i].chord_starts == beat &&
                                    line[i].chord_ends - line[i].chord_starts == beat * 2;
                if (!second) continue;
                ++found.all;
                found.roots += line[i].note == line[i - 1].note ? 1 : 0;
                found.fifths += line[i].above_root == 7 ? 1 : 0;
            }
        }
        return found;
    };
    const auto fast = count(220);
    const auto moderate = count(140);
    CAPTURE(fast.all, fast.fifths, fast.roots, moderate.fifths, moderate.roots);
    REQUIRE(fast.all == 20 * 4 * 6);
    CHECK(fast.fifths > fast.all / 4);
    CHECK(fast.roots > fast.all / 12);
    CHECK(fast.fifths + fast.roots < fast.all * 4 / 5);
    CHECK(moderate.roots < moderate.all / 50);
    CHECK(moderate.fifths + moderate.roots < (fast.fifths + fast.roots) * 3 / 4);
}

TEST_CASE("the bass stays a third below the lowest note of the band's guitar wherever it can") {
    for (const auto& form : tests::our_forms()) {
        auto booking = tests::Booking::of(form.whole(), 2, 0);
        booking.players.voicings = tests::plan_by_hand(form);
        int notes = 0;
        int above = 0;
        for (const auto& manner : {plain_walk, plain_two_feel}) {
            booking.asked.manner = manner;
            for (booking.players.seed = 1; booking.players.seed <= 10; ++booking.players.seed) {
                for (const auto& note : tests::hear_bass(booking.map(form), booking.players)) {
                    const auto bar = form.bar(note.bar).start;
                    int lowest = 127;
                    for (Ticks t; t < form.chart.meter.bar(); t += beat) {
                        const auto* const voicing = booking.players.voicings->at(bar + t);
                        if (voicing == nullptr) continue;
                        for (const auto& place : voicing->grip.shape.places()) {
                            lowest = std::min(
                                lowest, booking.players.voicings->fretboard.note(place).number());
                        }
                    }
                    ++notes;
                    // Where the grip is so low that the bass has this note above it only, it is.
                    const bool has_a_lower_one = note.note - 12 >= 28;
                    above += note.note > lowest - 3 && has_a_lower_one ? 1 : 0;
                }
            }
        }
        CAPTURE(form.chart.title, notes, above);
        CHECK(above == 0);
    }
}
