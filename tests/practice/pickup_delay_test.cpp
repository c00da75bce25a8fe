#include "support/calibrating.hpp"
#include "support/catch.hpp"
#include "support/lines.hpp"
#include "support/onset_figures.hpp"

#include <compline/practice/pickup_delay.hpp>

#include <algorithm>
#include <cmath>

using namespace compline;
using practice::PickupDelay;
using practice::SoundFault;
using simulate::Chance;
using tests::TruePickup;
using time::SampleRate;

using tests::holds;
using tests::refused_words;

namespace {

const SampleRate rate(48000);
const std::vector<int> six_strings{1, 2, 3, 4, 5, 6};

PickupDelay measured(const TruePickup& pickup, std::uint64_t seed,
                     int on_each = practice::enough_notes) {
    Chance chance(seed);
    const auto played = tests::notes_by_string(on_each, chance);
    const auto notes = pickup.sent(played, chance);
    return practice::fit_pickup_delay(practice::pair_up(tests::heard(played, rate), rate, notes),
                                      six_strings);
}

double worst_error_ms(const TruePickup& pickup, const PickupDelay& found) {
    return pickup.worst_error_ms([&](int string, int note) {
        return found.of(harmony::MidiNote(note), string).milliseconds();
    });
}

listen::SoundOnset sound_at(double ms) {
    return {time::nearest_frame(time::from_milliseconds(ms), rate), -10};
}

listen::Note note_at(double ms, int velocity = 80) {
    listen::Note note;
    note.on = time::from_milliseconds(ms);
    note.off = note.on + time::Seconds(0.3);
    note.velocity = velocity;
    note.string = 2;
    return note;
}

}  // namespace

TEST_CASE("what a MIDI pickup needs is found within half a millisecond, whatever it is") {
    for (const double constant : {2.0, 10.0, 25.0}) {
        for (const double cycles : {0.5, 1.5, 3.0}) {
            TruePickup pickup;
            pickup.constant_ms = constant;
            pickup.cycles = cycles;
            pickup.string_ms[3] = 8;
            const auto found = measured(pickup, 11);
            CAPTURE(constant, cycles, found.common.cycles, found.common.constant.milliseconds());
            REQUIRE(found.is_known());
            CHECK(worst_error_ms(pickup, found) < 0.5);
            CHECK(found.strings.size() == 6);
            CHECK(found.strings[2].difference.milliseconds() == Approx(8).margin(0.6));
        }
    }
}

namespace {

/// Many guitars, each with another delay, and what was found of them.
struct Guitars {
    static constexpr int count = 200;
    int known = 0;
    int within_half_a_ms = 0;  ///< every note of the neck
    int as_sure = 0;           ///< every note as sure as it was said
    double rms_ms = 0;         ///< of the worst note of each

    template <typename Strings>
    explicit Guitars(Strings strings) {
        for (std::uint64_t seed = 1; seed <= count; ++seed) {
            Chance chance(seed);
            TruePickup pickup;
            pickup.constant_ms = 2 + 23 * chance.uniform();
            pickup.cycles = 0.5 + 2.5 * chance.uniform();
            strings(pickup, chance);
            const auto found = measured(pickup, seed);
            const double error = worst_error_ms(pickup, found);
            known += found.is_known() ? 1 : 0;
            within_half_a_ms += error < 0.5 ? 1 : 0;
            as_sure += error < found.sure_within.milliseconds() ? 1 : 0;
            rms_ms += error * error / count;
        }
        rms_ms = std::sqrt(rms_ms);
    }
};

}  // namespace

TEST_CASE("of hundreds of guitars most have every note within half a millisecond") {
    const Guitars guitars([](TruePickup& pickup, Chance& chance) {
        pickup.string_ms[1 + static_cast<int>(chance.below(6))] = 8;
    });
    CAPTURE(guitars.within_half_a_ms, guitars.as_sure, guitars.rms_ms);
    CHECK(guitars.known == Guitars::count);
    CHECK(guitars.within_half_a_ms >= 0.85 * Guitars::count);
    CHECK(guitars.rms_ms < 0.4);
    CHECK(guitars.as_sure >= 0.9 * Guitars::count);
}

TEST_CASE("where each string differs by a little, it is said how sure the delay is") {
    const Guitars guitars([](TruePickup& pickup, Chance& chance) {
        for (int string = 1; string <= 6; ++string) pickup.string_ms[string] = 2 * chance.scatter();
    });
    CAPTURE(guitars.within_half_a_ms, guitars.as_sure, guitars.rms_ms);
    CHECK(guitars.known == Guitars::count);
    CHECK(guitars.rms_ms < 0.7);
    CHECK(guitars.as_sure >= 0.7 * Guitars::count);
}

TEST_CASE("from the sound to the delay: found within half a millisecond over hum and hiss") {
    Chance chance(21);
    const auto played = tests::notes_by_string(practice::enough_notes, chance);
    TruePickup pickup;
    pickup.constant_ms = 9;
    pickup.cycles = 1.2;
    pickup.string_ms[5] = 8;
    const auto notes = pickup.sent(played, chance);
    auto sound = tests::plucked(played, rate, played.back().at + time::Seconds(0.5), 4);
    tests::add_hum(sound, rate, 50, -40);
    tests::add_hiss(sound, -75, 6);
    const auto onsets = tests::onsets_of(sound, rate);
    CHECK(onsets.size() == played.size());
    const auto found =
        practice::fit_pickup_delay(practice::pair_up(onsets, rate, notes), six_strings);
    REQUIRE(found.is_known());
    CHECK(worst_error_ms(pickup, found) < 0.5);
}

TEST_CASE("wrong pairs, one in six, and all of them late, do not move the delay") {
    Chance chance(31);
    const auto played = tests::notes_by_string(36, chance);
    TruePickup pickup;
    pickup.string_ms[4] = 8;
    auto pairs = practice::pair_up(tests::heard(played, rate), rate, pickup.sent(played, chance));
    for (std::size_t i = 0; i < pairs.pairs.size(); i += 6) {
        pairs.pairs[i].note_on += time::from_milliseconds(30);
    }
    const auto found = practice::fit_pickup_delay(pairs, six_strings);
    REQUIRE(found.is_known());
    CHECK(found.left_out >= 35);
    CHECK(worst_error_ms(pickup, found) < 0.5);
}

TEST_CASE("a string on which one pitch alone was played has its cycles by the others") {
    Chance chance(5);
    auto played = tests::notes_by_string(16, chance);
    std::erase_if(played, [](const auto& pluck) {
        return pluck.string != 6 && pluck.note.number() != tests::open_notes[pluck.string - 1];
    });
    TruePickup pickup;
    pickup.missed = 0;
    pickup.string_ms[2] = -5;
    const auto pairs =
        practice::pair_up(tests::heard(played, rate), rate, pickup.sent(played, chance));
    const auto found = practice::fit_pickup_delay(pairs, six_strings);
    REQUIRE(found.is_known());
    CHECK(worst_error_ms(pickup, found) < 1.2);
    CHECK(found.strings[1].difference.milliseconds() == Approx(-5).margin(1));
}

TEST_CASE("a MIDI pickup with one channel for all strings has one delay for all") {
    TruePickup pickup;
    pickup.strings = false;
    const auto found = measured(pickup, 3);
    REQUIRE(found.is_known());
    CHECK(found.strings.empty());
    CHECK(worst_error_ms(pickup, found) < 0.5);
    CHECK(holds(practice::in_words(found), "All strings come on one channel"));
}

TEST_CASE("notes that come before their sound are found too") {
    TruePickup pickup;
    pickup.constant_ms = -12;
    pickup.cycles = 0.5;
    const auto found = measured(pickup, 8);
    REQUIRE(found.is_known());
    CHECK(worst_error_ms(pickup, found) < 0.5);
}

TEST_CASE("each sound has one note, each note one sound, and the rest is counted") {
    const std::vector<listen::SoundOnset> sounds{sound_at(1000), sound_at(2000), sound_at(3000)};
    const std::vector<listen::Note> notes{note_at(979),  note_at(1010, 20), note_at(1020),
                                          note_at(1030), note_at(2080),     note_at(3081)};
    const auto found = practice::pair_up(sounds, rate, notes);
    REQUIRE(found.pairs.size() == 2);
    CHECK(found.pairs[0].delay().milliseconds() == Approx(20));
    CHECK(found.pairs[1].delay().milliseconds() == Approx(80));
    CHECK(found.sounds_alone == 1);
    CHECK(found.notes_alone == 4);
}

TEST_CASE("a note that is slid into has no beginning of its own") {
    auto slid = note_at(1010);
    slid.slid = true;
    const std::vector<listen::SoundOnset> sounds{sound_at(1000)};
    const std::vector<listen::Note> notes{slid, note_at(1020)};
    const auto found = practice::pair_up(sounds, rate, notes);
    REQUIRE(found.pairs.size() == 1);
    CHECK(found.pairs[0].delay().milliseconds() == Approx(20));
    CHECK(found.notes_alone == 0);
}

TEST_CASE("a delay that cannot be known is refused in words, with what to do") {
    Chance chance(2);
    const auto played = tests::notes_by_string(16, chance);
    const auto sounds = tests::heard(played, rate);
    const auto notes = TruePickup{}.sent(played, chance);
    const auto fit = [](const practice::Pairs& pairs) {
        return practice::fit_pickup_delay(pairs, six_strings);
    };
    CHECK(holds(refused_words(fit(practice::pair_up({}, rate, notes)), SoundFault::no_sound),
                "Nothing is heard"));
    CHECK(holds(refused_words(fit(practice::pair_up(sounds, rate, {})), SoundFault::no_notes),
                "sends nothing"));
    CHECK(holds(refused_words(measured({}, 4, 5), SoundFault::too_few_notes),
                "Too few notes on strings"));

    auto others = notes;
    for (auto& note : others) note.on += time::Seconds(0.2 * chance.uniform());
    CHECK(
        holds(refused_words(fit(practice::pair_up(sounds, rate, others)), SoundFault::not_together),
              "do not belong together"));

    auto one_pitch = practice::pair_up(sounds, rate, notes);
    for (auto& pair : one_pitch.pairs) pair.note = harmony::MidiNote(64);
    one_pitch.pairs.resize(60);
    for (auto& pair : one_pitch.pairs) pair.string.reset();
    for (auto& pair : one_pitch.pairs) pair.note_on = pair.sound + time::Seconds(0.01);
    CHECK(holds(refused_words(fit(one_pitch), SoundFault::too_much_alike), "about one pitch"));
}

TEST_CASE("strings that lack notes are named") {
    TruePickup pickup;
    pickup.missed = 0;
    Chance chance(6);
    auto played = tests::notes_by_string(8, chance);
    std::erase_if(played, [](const auto& pluck) { return pluck.string == 2; });
    const auto pairs =
        practice::pair_up(tests::heard(played, rate), rate, pickup.sent(played, chance));
    const auto found = practice::fit_pickup_delay(pairs, six_strings);
    CHECK(found.lacking == std::vector<int>{2});
    CHECK(holds(practice::in_words(found), "Too few notes on string 2: each needs 6, better 24."));
    const std::vector<int> five{1, 3, 4, 5, 6};
    CHECK(practice::fit_pickup_delay(pairs, five).is_known());
}

TEST_CASE("a delay is said by its constant, its cycles and its strings, with how sure it is") {
    TruePickup pickup;
    pickup.string_ms[3] = 8;
    const auto found = measured(pickup, 11);
    const auto words = practice::in_words(found);
    CAPTURE(words);
    CHECK(holds(words, "cycles of its wave"));
    CHECK(holds(words, "String 3: "));
    CHECK(holds(words, " ms later than the others"));
    CHECK(holds(words, "Sure to "));
    CHECK(tests::widest_line(words) <= 80);
    const auto more = found.of(harmony::MidiNote(40), 3) - found.of(harmony::MidiNote(40), 9);
    CHECK(more.count() == Approx(found.strings[2].difference.count()));
}
