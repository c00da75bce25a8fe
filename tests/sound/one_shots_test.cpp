#include "support/catch.hpp"
#include "support/figures.hpp"

#include <compline/sound/bank.hpp>
#include <compline/sound/noise.hpp>

#include <algorithm>
#include <cmath>
#include <cstring>
#include <numeric>
#include <utility>
#include <vector>

using namespace compline;
using sound::Bank;
using sound::Samples;
using tests::Spectrum;
using time::SampleRate;
using time::Seconds;

namespace {

/// How much of a frequency there is (Goertzel's algorithm): a sine's amplitude.
double amount_of(double hz, const Samples& samples, double rate) {
    const double turn = 2 * std::cos(2 * 3.141592653589793 * hz / rate);
    double last = 0;
    double before = 0;
    for (const float sample : samples) {
        const double now = sample + turn * last - before;
        before = last;
        last = now;
    }
    const double power = last * last + before * before - turn * last * before;
    return 2 * std::sqrt(std::max(power, 0.0)) / static_cast<double>(samples.size());
}

std::vector<sound::SoundId> every_sound() {
    std::vector<sound::SoundId> sounds = {
        sound::ride,        sound::hihat_foot, sound::kick, sound::stick,     sound::crash,
        sound::cross_stick, sound::snare,      sound::tom,  sound::brush_tap, sound::brush_sweep};
    for (int n = 28; n <= 55; ++n) sounds.push_back(sound::bass(harmony::MidiNote(n)));
    for (int n = 40; n <= 88; ++n) sounds.push_back(sound::guitar(harmony::MidiNote(n)));
    return sounds;
}

const SampleRate rate(48000);

const Bank& bank() {
    static const Bank made(rate, Bank::Guitar::with);
    return made;
}

const Samples& bass(int note) { return bank().samples(sound::bass(harmony::MidiNote(note))); }
const Samples& guitar(int note) { return bank().samples(sound::guitar(harmony::MidiNote(note))); }

double centroid(sound::SoundId id) { return Spectrum(bank().samples(id), rate).centroid(); }
double attack_ms(const Samples& samples) { return tests::attack(samples, rate).milliseconds(); }
double falls_by(double decibels, const Samples& samples) {
    return tests::falls_by(decibels, samples, rate).count();
}
double falls_by(double decibels, sound::SoundId id) {
    return falls_by(decibels, bank().samples(id));
}
double seconds_of(sound::SoundId id) {
    return static_cast<double>(bank().samples(id).size()) / rate.hz();
}

/// How much louder one stretch is than another, in dB.
double louder(const Samples& samples, std::pair<double, double> one,
              std::pair<double, double> other) {
    const auto level = [&](std::pair<double, double> stretch) {
        return tests::level(samples, rate, Seconds(stretch.first), Seconds(stretch.second));
    };
    return tests::decibels(level(one) / level(other));
}

/// The bits of all samples in one number (FNV-1a).
std::uint64_t fingerprint(const Bank& sounds) {
    std::uint64_t hash = 0xCBF29CE484222325ULL;
    for (const auto id : every_sound()) {
        for (const float sample : sounds.samples(id)) {
            std::uint32_t bits = 0;
            std::memcpy(&bits, &sample, sizeof bits);
            hash = (hash ^ bits) * 0x100000001B3ULL;
        }
    }
    return hash;
}

}  // namespace

TEST_CASE("every sound speaks on its first sample, stays in bounds and dies away") {
    for (const int hz : {44100, 48000, 88200, 96000}) {
        const Bank sounds(SampleRate(hz), Bank::Guitar::with);
        for (const auto id : every_sound()) {
            const auto& samples = sounds.samples(id);
            CAPTURE(hz, id.index());
            REQUIRE(samples.size() > 1000);
            CHECK(samples.front() != 0.0F);
            CHECK(tests::peak(samples) > 0.2);
            CHECK(tests::peak(samples) < 0.7);
            CHECK(std::fabs(samples.back()) < 1e-4);
            const Seconds end(static_cast<double>(samples.size()) / hz);
            const double last = tests::level(samples, SampleRate(hz), end * 0.98, end);
            CHECK(last < 0.01 * tests::level(samples));
            CHECK(std::all_of(samples.begin(), samples.end(),
                              [](float s) { return std::isfinite(s); }));
        }
    }
}

TEST_CASE("the sounds are the same on every machine, to the last bit") {
    // These numbers change only when a sound was changed on purpose.
    CHECK(fingerprint(bank()) == 0x5B607BB505EA8E0CULL);
    CHECK(fingerprint(Bank(SampleRate(44100))) == 0x966F9A01FAC0D54CULL);
}

TEST_CASE("a sound is one sound at every sample rate: as long, as loud, as bright") {
    for (const int hz : {44100, 88200, 96000}) {
        const Bank other(SampleRate(hz), Bank::Guitar::with);
        for (const auto id : every_sound()) {
            CAPTURE(hz, id.index());
            const auto& here = bank().samples(id);
            const auto& there = other.samples(id);
            const double length = static_cast<double>(there.size()) / hz;
            CHECK(length == Approx(static_cast<double>(here.size()) / rate.hz()).margin(1e-4));
            const double apart = tests::decibels(tests::level(there) / tests::level(here));
            CHECK(std::fabs(apart) < 0.5);
            CHECK(Spectrum(there, SampleRate(hz)).centroid() ==
                  Approx(Spectrum(here, rate).centroid()).epsilon(0.05));
        }
    }
}

TEST_CASE("no sound has much above 0.45 of the sample rate, nor a steady push") {
    for (const int hz : {44100, 48000, 96000}) {
        const Bank sounds(SampleRate(hz), Bank::Guitar::with);
        for (const auto id : every_sound()) {
            CAPTURE(hz, id.index());
            const auto& samples = sounds.samples(id);
            // A sound that speaks at once has a step in it, and a step has a little of everything.
            CHECK(Spectrum(samples, SampleRate(hz)).share_above(0.45 * hz) < 0.0005);
            const double sum = std::accumulate(samples.begin(), samples.end(), 0.0);
            const double steady = sum / static_cast<double>(samples.size());
            CHECK(std::fabs(steady) < 0.02 * tests::level(samples));
        }
    }
}

TEST_CASE("what a low sample rate cannot hold is left out and does not come back elsewhere") {
    const SampleRate low(16000);
    for (const auto& make : {sound::make_hihat_foot, sound::make_ride, sound::make_crash}) {
        const auto full = make(rate);
        const double held = Spectrum(full, rate).share_below(0.5 * low.hz());
        const double expected = tests::level(full) * std::sqrt(held);
        CHECK(std::fabs(tests::decibels(tests::level(make(low)) / expected)) < 0.5);
    }
    // A guitar's fourth partial would come back below half of a rate of 8000, were it not left out.
    const SampleRate lowest(8000);
    const harmony::MidiNote high(88);
    const auto samples = sound::make_guitar(high, lowest);
    const double folded = lowest.hz() - 4 * high.hz();
    CHECK(amount_of(folded, samples, lowest.hz()) < 0.01 * amount_of(high.hz(), samples, 8000));
}

TEST_CASE("from dark to bright: kick, tom, rim, snare, brushes, ride, hi-hat") {
    const std::vector<sound::SoundId> order = {sound::kick,  sound::tom,       sound::cross_stick,
                                               sound::snare, sound::brush_tap, sound::brush_sweep,
                                               sound::ride,  sound::hihat_foot};
    for (std::size_t i = 1; i < order.size(); ++i) {
        CAPTURE(order[i].index());
        CHECK(centroid(order[i]) > 1.1 * centroid(order[i - 1]));
    }
    CHECK(centroid(sound::crash) > centroid(sound::snare));
}

TEST_CASE("what is struck with a stick is there within a millisecond") {
    for (const auto id : {sound::ride, sound::crash, sound::hihat_foot, sound::stick,
                          sound::cross_stick, sound::snare, sound::tom}) {
        CAPTURE(id.index());
        CHECK(attack_ms(bank().samples(id)) <= 1.0);
    }
}

TEST_CASE("the softer the beater, the softer the attack") {
    CHECK(attack_ms(bank().samples(sound::kick)) <= 5.0);
    CHECK(attack_ms(bank().samples(sound::brush_tap)) >= 1.0);
    CHECK(attack_ms(bank().samples(sound::brush_tap)) <= 6.0);
    for (int note = 28; note <= 55; ++note) {
        CAPTURE(note);
        CHECK(attack_ms(bass(note)) <= 12.0);
    }
    for (int note = 40; note <= 88; ++note) {
        CAPTURE(note);
        CHECK(attack_ms(guitar(note)) <= 8.0);
    }
}

TEST_CASE("the ride is a stick's tip and then a wash") {
    const auto& ride = bank().samples(sound::ride);
    CHECK(tests::peak(ride, rate, Seconds(0), Seconds(0.005)) == tests::peak(ride));
    const double tip = louder(ride, {0, 0.005}, {0.090, 0.110});
    CHECK(tip > 6);
    CHECK(tip < 14);
    CHECK(louder(ride, {0.090, 0.110}, {0.290, 0.310}) < 6);  // it washes on
    CHECK(falls_by(20, sound::ride) > 0.5);
    CHECK(falls_by(20, sound::ride) < 1.0);
    CHECK(seconds_of(sound::ride) == Approx(1.8));
}

TEST_CASE("the crash opens and rings for two seconds and a half") {
    const auto& crash = bank().samples(sound::crash);
    CHECK(louder(crash, {0, 0.005}, {0.040, 0.060}) < 6);
    CHECK(tests::level(crash) > tests::level(bank().samples(sound::ride)));
    CHECK(falls_by(20, sound::crash) > 1.0);
    CHECK(falls_by(20, sound::crash) > falls_by(20, sound::ride));
    CHECK(falls_by(60, sound::crash) > 2.2);
    CHECK(seconds_of(sound::crash) == Approx(2.5));
}

TEST_CASE("the foot hi-hat is short and dry") {
    CHECK(seconds_of(sound::hihat_foot) < 0.120);
    CHECK(falls_by(20, sound::hihat_foot) < 0.050);
    CHECK(Spectrum(bank().samples(sound::hihat_foot), rate).share_below(1000) < 0.02);
}

TEST_CASE("the kick is felt more than heard") {
    const Spectrum kick(bank().samples(sound::kick), rate);
    CHECK(kick.share_below(120) > 0.95);
    CHECK(kick.share_above(300) < 0.005);
    CHECK(falls_by(20, sound::kick) < 0.25);
}

TEST_CASE("a cross-stick is a click with wood in it, over in a blink") {
    const Spectrum rim(bank().samples(sound::cross_stick), rate);
    CHECK(rim.share(780, 950) > 0.4);      // the wood
    CHECK(rim.share_above(4500) > 0.005);  // the click
    CHECK(rim.share_below(300) < 0.02);
    CHECK(falls_by(20, sound::cross_stick) < 0.060);
    CHECK(falls_by(60, sound::cross_stick) < 0.200);
}

TEST_CASE("a snare is a skin and its wires, a floor tom is all skin") {
    const Spectrum snare(bank().samples(sound::snare), rate);
    CHECK(snare.share(150, 450) > 0.2);
    CHECK(snare.share(1000, 7000) > 0.3);
    CHECK(falls_by(20, sound::snare) > 0.080);
    CHECK(falls_by(20, sound::snare) < 0.200);
    const Spectrum tom(bank().samples(sound::tom), rate);
    CHECK(tom.share(60, 250) > 0.9);
    CHECK(falls_by(20, sound::tom) > 0.3);
    CHECK(falls_by(20, sound::tom) < 0.6);
}

TEST_CASE("a brush tap is a breath of wire, a sweep swells and fades") {
    const auto& tap = bank().samples(sound::brush_tap);
    CHECK(falls_by(20, sound::brush_tap) < 0.150);
    CHECK(Spectrum(tap, rate).share(600, 8000) > 0.8);
    CHECK(Spectrum(tap, rate).share_below(300) > 0.001);  // there is a drum under it

    const auto& sweep = bank().samples(sound::brush_sweep);
    CHECK(seconds_of(sound::brush_sweep) == Approx(0.45));
    CHECK(attack_ms(sweep) > 80);
    CHECK(louder(sweep, {0.15, 0.23}, {0, 0.02}) > 20);    // it begins softly
    CHECK(louder(sweep, {0.15, 0.23}, {0.05, 0.09}) > 6);  // swells
    CHECK(louder(sweep, {0.15, 0.23}, {0.32, 0.36}) > 6);  // and fades
    CHECK(louder(sweep, {0.15, 0.23}, {0.43, 0.45}) > 25);
}

TEST_CASE("a bass note begins with a thump and rings for one to two seconds") {
    for (int note = 28; note <= 55; ++note) {
        CAPTURE(note);
        const auto& samples = bass(note);
        // In 150 ms it loses far more at its start than a little later.
        CHECK(louder(samples, {0, 0.060}, {0.150, 0.210}) >
              louder(samples, {0.400, 0.460}, {0.550, 0.610}) + 1.5);
        CHECK(falls_by(40, samples) > 1.0);
        CHECK(falls_by(40, samples) < 2.0);
        CHECK(falls_by(20, samples) > 0.4);
    }
}

TEST_CASE("a guitar note is plucked: it falls from its start on, the high ones sooner") {
    for (int note = 40; note <= 88; ++note) {
        CAPTURE(note);
        const auto& samples = guitar(note);
        CHECK(louder(samples, {0, 0.050}, {0.200, 0.250}) > 2);
        CHECK(falls_by(20, samples) > 0.4);
        CHECK(falls_by(20, samples) < 1.2);
        if (note > 52) CHECK(falls_by(20, samples) < falls_by(20, guitar(note - 12)));
    }
}

TEST_CASE("strings have the partials of their note at any rate") {
    for (const int hz : {44100, 96000}) {
        for (const int number : {28, 55}) {
            const harmony::MidiNote note(number);
            const auto samples = sound::make_bass(note, SampleRate(hz));
            const double tone = amount_of(note.hz(), samples, hz);
            CHECK(tone > 10 * amount_of(note.hz() * 1.5, samples, hz));
            CHECK(tone > 5 * amount_of(note.hz() * 1.06, samples, hz));
        }
    }
}

TEST_CASE("a bank without guitar has nothing where the guitar would be, and says so") {
    const Bank plain(SampleRate(8000));
    CHECK_FALSE(plain.has(sound::guitar(harmony::MidiNote(60))));
    CHECK(plain.has(sound::ride));
    CHECK(plain.samples(sound::guitar(harmony::MidiNote(60))).empty());
    CHECK(plain.samples(sound::SoundId(9999)).empty());
    CHECK_FALSE(plain.samples(sound::bass(harmony::MidiNote(55))).empty());
}

TEST_CASE("noise is even between -1 and 1 and the same everywhere") {
    sound::Noise noise(1);
    double sum = 0;
    double squares = 0;
    for (int i = 0; i < 100000; ++i) {
        const double x = noise.next();
        REQUIRE(std::fabs(x) <= 1.0);
        sum += x;
        squares += x * x;
    }
    CHECK(std::fabs(sum / 100000) < 0.01);
    CHECK(squares / 100000 == Approx(1.0 / 3).margin(0.01));
    // xorshift64* from seed 1, as its authors publish it: 0x47E4CE4B896CDD1D comes first.
    CHECK(sound::Noise(1).next() ==
          static_cast<double>(static_cast<std::int64_t>(0x47E4CE4B896CDD1DULL) >> 11) * 0x1p-52);
}
