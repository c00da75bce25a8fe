#include "support/catch.hpp"

#include <compline/simulate/chance.hpp>
#include <compline/simulate/rough_pickup.hpp>
#include <compline/text/bad_input.hpp>

#include <algorithm>
#include <cmath>
#include <map>
#include <set>
#include <stdexcept>
#include <string>
#include <vector>

using namespace compline;
using midi::Message;
using midi::TimedMessage;
using simulate::Fault;
using simulate::roughen;
using simulate::Roughness;
using simulate::RoughTake;
using time::Seconds;

namespace {

struct Pick {
    double on_ms;
    double off_ms;
    int string;
    int note;
    int velocity = 80;
};

std::vector<TimedMessage> played(const std::vector<Pick>& picks) {
    std::vector<TimedMessage> messages;
    for (const auto& pick : picks) {
        messages.push_back({time::from_milliseconds(pick.on_ms),
                            midi::note_on(pick.string, pick.note, pick.velocity)});
        messages.push_back(
            {time::from_milliseconds(pick.off_ms), midi::note_off(pick.string, pick.note)});
    }
    std::stable_sort(messages.begin(), messages.end(), [](const auto& a, const auto& b) {
        if (a.at != b.at) return a.at < b.at;
        return a.message.ends_note() && b.message.starts_note();
    });
    return messages;
}

/// Shells on strings 6, 4 and 3 that go up and down the neck, a chord every half second.
std::vector<TimedMessage> shells(int chords, double ring_ms = 500) {
    std::vector<Pick> picks;
    simulate::Chance chance(5);
    for (int n = 0; n < chords; ++n) {
        const int fret = 3 + n * 2 % 5;
        const double on = 500.0 * n;
        const int velocity = 70 + static_cast<int>(chance.below(25));
        picks.push_back({on, on + ring_ms, 6, 40 + fret, velocity});
        picks.push_back({on + 3, on + ring_ms, 4, 50 + fret, velocity});
        picks.push_back({on + 6, on + ring_ms, 3, 55 + fret, velocity});
    }
    return played(picks);
}

std::vector<TimedMessage> starts(const std::vector<TimedMessage>& messages) {
    std::vector<TimedMessage> on;
    for (const auto& timed : messages) {
        if (timed.message.starts_note()) on.push_back(timed);
    }
    return on;
}

std::vector<TimedMessage> bends(const std::vector<TimedMessage>& messages) {
    std::vector<TimedMessage> found;
    for (const auto& timed : messages) {
        if (timed.message.kind() == Message::Kind::pitch_bend) found.push_back(timed);
    }
    return found;
}

bool same(const std::vector<TimedMessage>& a, const std::vector<TimedMessage>& b) {
    return std::equal(a.begin(), a.end(), b.begin(), b.end(), [](const auto& x, const auto& y) {
        return x.at == y.at && x.message == y.message;
    });
}

/// A guitarist who slides on string 4 from D3's fifth fret.
std::vector<TimedMessage> one_slide(int frets) {
    return played({{0, 400, 4, 55, 80}, {400, 900, 4, 55 + frets, 90}, {950, 1200, 4, 60, 70}});
}

Roughness sliding(double range) {
    Roughness rough;
    rough.slides = 1;
    rough.bend_range = range;
    return rough;
}

double ms(Seconds s) { return s.milliseconds(); }

}  // namespace

TEST_CASE("a pickup without faults sends what was played, and the truth is that") {
    const auto clean = shells(20);
    const auto take = roughen(clean, {}, 1);
    CHECK(same(take.messages, clean));
    CHECK(take.faults.empty());
    REQUIRE(take.truth.size() == 60);
    const auto& third = take.truth[2];
    CHECK(third.note.string == 3);
    CHECK(third.note.fret == 3);
    CHECK(ms(third.note.on) == Approx(6));
    CHECK(ms(third.note.off) == Approx(500));
    CHECK_FALSE(third.note.slid);
    CHECK_FALSE(third.dropped);
}

TEST_CASE("the same seed is the same rough take, another seed is another") {
    const auto clean = shells(60);
    const auto rough = roughness_of(simulate::Wear::high);
    CHECK(same(roughen(clean, rough, 7).messages, roughen(clean, rough, 7).messages));
    CHECK_FALSE(same(roughen(clean, rough, 7).messages, roughen(clean, rough, 8).messages));
}

TEST_CASE("a pickup takes a cycle or two to find a note, longer on a low string") {
    Roughness rough;
    rough.delay = {time::from_milliseconds(2), 1.5};
    const auto take = roughen(played({{100, 500, 6, 40}, {200, 600, 1, 64}}), rough, 1);
    const auto on = starts(take.messages);
    CHECK(ms(on[0].at) == Approx(100 + 2 + 1500 / 82.4069).margin(0.001));
    CHECK(ms(on[1].at) == Approx(200 + 2 + 1500 / 329.628).margin(0.001));
    CHECK(ms(take.truth[0].note.on) == Approx(100));
    const auto heard = listen::hear(take.messages, listening_to(rough), Seconds(1));
    CHECK(ms(heard.notes[0].on) == Approx(100).margin(0.001));
    CHECK(ms(heard.notes[1].on) == Approx(200).margin(0.001));
}

TEST_CASE("one string of a pickup can be later than the others") {
    Roughness rough;
    rough.delay = {time::from_milliseconds(2), 0, {Seconds(0), time::from_milliseconds(8)}};
    const auto take =
        roughen(played({{100, 500, 2, 59}, {200, 600, 1, 64}, {300, 700, 6, 40}}), rough, 1);
    const auto on = starts(take.messages);
    CHECK(ms(on[0].at) == Approx(110));
    CHECK(ms(on[1].at) == Approx(202));
    CHECK(ms(on[2].at) == Approx(302));
    const auto heard = listen::hear(take.messages, listening_to(rough), Seconds(1));
    CHECK(ms(heard.notes[0].on) == Approx(100));
    rough.delay.by_string = {time::from_milliseconds(51)};
    CHECK_THROWS_AS(roughen(shells(1), rough, 1), text::BadInput);
}

TEST_CASE("the delay scatters around its middle") {
    Roughness rough;
    rough.delay.constant = time::from_milliseconds(10);
    rough.scatter = time::from_milliseconds(2);
    const auto clean = shells(300);
    const auto on = starts(roughen(clean, rough, 1).messages);
    const auto true_on = starts(clean);
    REQUIRE(on.size() == 900);
    std::map<int, std::vector<double>> true_times;
    std::map<int, std::vector<double>> times;
    for (const auto& timed : true_on) true_times[timed.message.channel()].push_back(ms(timed.at));
    for (const auto& timed : on) times[timed.message.channel()].push_back(ms(timed.at));
    double sum = 0;
    double squares = 0;
    for (const auto& [channel, of_channel] : times) {
        for (std::size_t i = 0; i < of_channel.size(); ++i) {
            const double off = of_channel[i] - true_times[channel][i] - 10;
            CHECK(std::fabs(off) <= 6.0001);
            sum += off;
            squares += off * off;
        }
    }
    CHECK(std::fabs(sum / 900) < 0.25);
    CHECK(std::sqrt(squares / 900) == Approx(2).margin(0.2));
}

TEST_CASE("velocities scatter and stay velocities") {
    Roughness rough;
    rough.velocity_sd = 40;
    std::set<int> seen;
    for (const auto& timed : starts(roughen(shells(100), rough, 1).messages)) {
        seen.insert(timed.message.data2);
    }
    CHECK(seen.size() > 50);
    CHECK(*seen.begin() >= 1);
    CHECK(*seen.rbegin() <= 127);
}

TEST_CASE("a ghost is short, soft, near a strum and on a string that is left alone") {
    Roughness rough;
    rough.ghosts = 0.3;
    const auto clean = shells(200);
    const auto take = roughen(clean, rough, 3);
    CHECK(take.count(Fault::ghost) > 100);
    CHECK(starts(take.messages).size() ==
          starts(clean).size() + static_cast<std::size_t>(take.count(Fault::ghost)));
    for (const auto& it : take.faults) {
        REQUIRE(it.fault == Fault::ghost);
        CHECK(ms(it.length) >= 15);
        CHECK(ms(it.length) <= 44);
        CHECK(it.velocity < 0.35 * 95);
        const bool left_alone = it.string == 1 || it.string == 2 || it.string == 5;
        CHECK(left_alone);
        CHECK(rough.fretboard.fret(it.string, it.note).has_value());
        const double after = ms(it.at) - 500 * std::floor((ms(it.at) + 100) / 500);
        CHECK(after >= -30.001);
        CHECK(after <= 36.001);
    }
}

TEST_CASE("a double trigger sends a note again, after a note-off or over the first") {
    Roughness rough;
    rough.double_triggers = 0.5;
    const auto take = roughen(shells(100), rough, 3);
    CHECK(take.count(Fault::double_trigger) > 100);
    CHECK(take.count(Fault::double_trigger) < 200);
    std::map<int, TimedMessage> last;
    std::set<int> sounding;
    int after_end = 0;
    int over = 0;
    for (const auto& timed : take.messages) {
        const int channel = timed.message.channel();
        if (timed.message.ends_note()) sounding.erase(channel);
        if (!timed.message.starts_note()) continue;
        const auto before = last.find(channel);
        if (before != last.end() && before->second.message.data1 == timed.message.data1) {
            const double gap = ms(timed.at - before->second.at);
            CHECK(gap >= 15);
            CHECK(gap <= 50);
            ++(sounding.count(channel) > 0 ? over : after_end);
        }
        last[channel] = timed;
        sounding.insert(channel);
    }
    CHECK(over > 40);
    CHECK(after_end > 40);
    CHECK(over + after_end == take.count(Fault::double_trigger));
}

TEST_CASE("a flicker is an octave or a twelfth off, and the note follows at once") {
    Roughness rough;
    rough.flickers = 1;
    const auto take = roughen(shells(100), rough, 3);
    CHECK(take.count(Fault::flicker) == 300);
    std::map<int, int> apart;
    std::map<int, std::vector<TimedMessage>> of_string;
    for (const auto& timed : take.messages) of_string[timed.message.channel()].push_back(timed);
    for (const auto& [string, messages] : of_string) {
        for (std::size_t i = 0; i + 3 < messages.size(); i += 4) {
            const auto& wrong = messages[i];
            const auto& right = messages[i + 2];
            REQUIRE(messages[i + 1].message.ends_note());
            REQUIRE(right.message.starts_note());
            CHECK(messages[i + 1].message.data1 == wrong.message.data1);
            CHECK(right.at == messages[i + 1].at);
            CHECK(ms(right.at - wrong.at) >= 10);
            CHECK(ms(right.at - wrong.at) <= 50);
            ++apart[wrong.message.data1 - right.message.data1];
        }
    }
    CHECK(apart.size() == 4);
    CHECK(apart[12] > 100);
    CHECK(apart[19] > 50);
    CHECK(apart[-12] > 10);
    CHECK(apart[-19] > 3);
}

TEST_CASE("a flicker an octave up is found in half the time") {
    Roughness rough;
    rough.flickers = 1;
    rough.delay.cycles = 2;
    const auto take = roughen(played({{100, 600, 6, 43}}), rough, 3);
    const harmony::MidiNote wrong(starts(take.messages).front().message.data1);
    REQUIRE(wrong.number() != 43);
    CHECK(ms(starts(take.messages).front().at) == Approx(100 + 2000 / wrong.hz()));
    CHECK(ms(take.faults.front().at) == Approx(100));
}

TEST_CASE("a finger that leaves a string lets the open string ring softly") {
    Roughness rough;
    rough.lift_offs = 1;
    const auto take = roughen(shells(100, 200), rough, 3);
    CHECK(take.count(Fault::lift_off) == 300);
    for (const auto& it : take.faults) {
        CHECK(it.note == rough.fretboard.open(it.string));
        CHECK(it.velocity < 47.5);
        CHECK(ms(it.length) >= 40);
        CHECK(ms(it.length) <= 200);
        const double after = std::fmod(ms(it.at), 500) - 200;
        CHECK(after >= -0.001);
        CHECK(after <= 25);
    }
    // No finger leaves an open string.
    CHECK(roughen(played({{0, 400, 4, 50}}), rough, 3).count(Fault::lift_off) == 0);
    // Legato leaves no room for it.
    CHECK(roughen(shells(100, 500), rough, 3).count(Fault::lift_off) == 3);
}

TEST_CASE("a slide bends the note, and is half done when the new note is due") {
    const auto take = roughen(one_slide(4), sliding(12), 1);
    CHECK(take.count(Fault::slide) == 1);  // before the third note the string was silent
    const auto on = starts(take.messages);
    REQUIRE(on.size() == 2);
    CHECK(ms(on[1].at) == Approx(950));
    const auto bent = bends(take.messages);
    REQUIRE(bent.size() >= 4);
    // Back at the centre before the next note-on.
    CHECK(bent.back().message.bend() == 0);
    CHECK(ms(bent.back().at) == Approx(950));
    const double target = 8192 * 4.0 / 12;
    double before = 0;
    for (std::size_t i = 0; i + 1 < bent.size(); ++i) {
        CHECK(bent[i].message.bend() > before);
        before = bent[i].message.bend();
        CHECK((bent[i].message.bend() >= target / 2) == (ms(bent[i].at) >= 400 - 1e-6));
        if (i == 0) continue;
        CHECK(ms(bent[i].at - bent[i - 1].at) >= 5 - 1e-6);
        CHECK(ms(bent[i].at - bent[i - 1].at) <= 8 + 1e-6);
    }
    CHECK(before == Approx(target).margin(1));
    CHECK(ms(bent[bent.size() - 2].at - bent.front().at) < 60);
    REQUIRE(take.truth.size() == 3);
    CHECK(take.truth[1].note.slid);
    CHECK(take.truth[1].note.velocity == 80);
    CHECK(ms(take.truth[1].note.on) == Approx(400));
    CHECK(ms(take.truth[0].note.off) == Approx(400));
}

TEST_CASE("no slide goes beyond the bend range, beyond five frets, or to an open string") {
    CHECK(roughen(one_slide(2), sliding(2), 1).count(Fault::slide) == 1);
    CHECK(roughen(one_slide(3), sliding(2), 1).count(Fault::slide) == 0);
    CHECK(roughen(one_slide(5), sliding(12), 1).count(Fault::slide) == 1);
    CHECK(roughen(one_slide(6), sliding(12), 1).count(Fault::slide) == 0);
    CHECK(roughen(one_slide(-5), sliding(12), 1).count(Fault::slide) == 0);
    CHECK(roughen(one_slide(-4), sliding(12), 1).count(Fault::slide) == 1);
    // A chain of slides is one bend.
    const auto chain =
        played({{0, 400, 4, 55}, {400, 800, 4, 57}, {800, 1200, 4, 59}, {1200, 1600, 4, 58}});
    CHECK(roughen(chain, sliding(2), 1).count(Fault::slide) == 2);  // picked anew in between
    const auto all = roughen(chain, sliding(12), 1);
    CHECK(all.count(Fault::slide) == 3);
    CHECK(starts(all.messages).size() == 1);
    CHECK(bends(all.messages).back().message.bend() == Approx(8192 * 3.0 / 12).margin(1));
}

TEST_CASE("a pickup that knows no bends sends every fret passed as a note") {
    auto rough = sliding(2);
    rough.slides_as = simulate::SlidesAs::notes;
    const auto take = roughen(one_slide(4), rough, 1);
    const auto on = starts(take.messages);
    REQUIRE(on.size() == 6);
    for (int n = 0; n < 5; ++n) {
        CHECK(on[static_cast<std::size_t>(n)].message.data1 == 55 + n);
    }
    CHECK(ms(on[4].at) == Approx(400));
    for (std::size_t n = 2; n < 5; ++n) {
        CHECK(ms(on[n].at - on[n - 1].at) >= 15);
        CHECK(ms(on[n].at - on[n - 1].at) <= 40);
    }
    CHECK(take.count(Fault::fret_passed) == 3);
    CHECK(take.truth.size() == 3);
    CHECK(take.truth[1].note.slid);
    CHECK(bends(take.messages).empty());
    const auto down = starts(roughen(one_slide(-4), rough, 1).messages);
    REQUIRE(down.size() == 6);
    for (int n = 0; n < 5; ++n) {
        CHECK(down[static_cast<std::size_t>(n)].message.data1 == 55 - n);
    }
    rough.one_channel = true;
    rough.slides_as = simulate::SlidesAs::bends;
    CHECK(bends(roughen(one_slide(4), rough, 1).messages).empty());
}

TEST_CASE("the bend range is sent once at the start where the pickup sends it") {
    auto rough = sliding(12);
    rough.tells_bend_range = true;
    const auto take = roughen(one_slide(4), rough, 1);
    std::vector<std::pair<int, int>> sent;
    for (const auto& timed : take.messages) {
        if (timed.message.kind() != Message::Kind::control_change) continue;
        CHECK(timed.at < Seconds(0));
        if (timed.message.channel() == 4) {
            sent.emplace_back(timed.message.data1, timed.message.data2);
        }
    }
    CHECK(sent == std::vector<std::pair<int, int>>{
                      {101, 0}, {100, 0}, {6, 12}, {38, 0}, {101, 127}, {100, 127}});
    const auto heard = listen::hear(take.messages, listening_to(rough), Seconds(5));
    CHECK(std::any_of(heard.notes.begin(), heard.notes.end(),
                      [](const auto& note) { return note.note.number() == 59; }));
}

TEST_CASE("vibrato sways a long note by less than half a semitone") {
    Roughness rough;
    rough.vibrato = 1;
    const auto take = roughen(played({{0, 2000, 3, 60}, {2000, 2400, 3, 62}}), rough, 1);
    const auto bent = bends(take.messages);
    CHECK(bent.size() > 100);
    int most = 0;
    for (const auto& timed : bent) most = std::max(most, std::abs(timed.message.bend()));
    CHECK(most <= 0.35 / 2 * 8192 + 1);
    CHECK(most >= 0.09 / 2 * 8192);
    CHECK(take.count(Fault::vibrato) == 1);
    // A note sent twice sways once.
    rough.double_triggers = 1;
    for (std::uint64_t seed = 1; seed <= 8; ++seed) {
        CHECK(roughen(played({{0, 2000, 3, 60}}), rough, seed).count(Fault::vibrato) == 1);
    }
    CHECK(bent.back().message.bend() == 0);
}

TEST_CASE("only the softest fifth of the notes is dropped, and the truth says so") {
    Roughness rough;
    rough.dropped = 0.5;
    const auto clean = shells(200);
    const auto take = roughen(clean, rough, 1);
    const int dropped = take.count(Fault::dropped);
    CHECK(dropped > 40);
    CHECK(dropped < 90);
    CHECK(take.audible().size() == 600 - static_cast<std::size_t>(dropped));
    CHECK(starts(take.messages).size() == take.audible().size());
    CHECK(take.truth.size() == 600);
    for (const auto& it : take.truth) {
        if (it.dropped) CHECK(it.note.velocity <= 75);
    }
}

TEST_CASE("note-offs get lost, and come late where a note is bound to the next") {
    Roughness rough;
    rough.lost_offs = 1;
    const auto stuck = roughen(shells(10), rough, 1).messages;
    CHECK(starts(stuck).size() == stuck.size());
    rough.lost_offs = 0;
    rough.late_offs = 1;
    const auto late = roughen(shells(10), rough, 1);
    CHECK(late.count(Fault::late_off) == 27);  // all but the last chord
    CHECK(roughen(shells(10, 300), rough, 1).count(Fault::late_off) == 0);
    // It would end the new note, were that the same.
    const auto again = played({{0, 400, 4, 55}, {400, 800, 4, 55}});
    CHECK(roughen(again, rough, 1).count(Fault::late_off) == 0);
    std::map<int, TimedMessage> sounding;
    for (const auto& timed : late.messages) {
        const int channel = timed.message.channel();
        if (timed.message.starts_note()) {
            sounding[channel] = timed;
        } else if (sounding[channel].message.data1 != timed.message.data1) {
            const double by = ms(timed.at - sounding[channel].at);
            CHECK(by >= 5);
            CHECK(by <= 60);
        }
    }
}

TEST_CASE("over USB every message comes with the next millisecond") {
    Roughness rough;
    rough.delay.cycles = 1.5;
    const auto exact = roughen(shells(20), rough, 1).messages;
    rough.transport = simulate::Transport::usb;
    const auto framed = roughen(shells(20), rough, 1).messages;
    REQUIRE(framed.size() == exact.size());
    for (std::size_t i = 0; i < exact.size(); ++i) {
        CHECK(framed[i].message == exact[i].message);
        CHECK(ms(framed[i].at) == Approx(std::round(ms(framed[i].at))).margin(1e-6));
        CHECK(framed[i].at >= exact[i].at - Seconds(1e-8));
        CHECK(ms(framed[i].at - exact[i].at) < 1);
    }
}

TEST_CASE("over a DIN cable messages queue up, a third of a millisecond a byte") {
    Roughness rough;
    rough.transport = simulate::Transport::din;
    const auto chord =
        played({{0, 300, 6, 43}, {0, 300, 4, 53}, {0, 300, 3, 58}, {400, 600, 3, 58}});
    const auto sent = roughen(chord, rough, 1).messages;
    CHECK(ms(sent[0].at) == Approx(0.96));
    CHECK(ms(sent[1].at) == Approx(1.92));
    CHECK(ms(sent[2].at) == Approx(2.88));
    // The note-offs are note-ons of velocity 0, and the same status is said once.
    CHECK(sent[3].message.status == (0x90 | (sent[3].message.channel() - 1)));
    CHECK(sent[3].message.ends_note());
    const auto& again = sent[6];
    REQUIRE(again.message.starts_note());
    const bool running = sent[5].message.channel() == again.message.channel();
    CHECK(ms(again.at) == Approx(400 + (running ? 0.64 : 0.96)));
    // On one channel the status runs on.
    rough.one_channel = true;
    const auto one = roughen(chord, rough, 1).messages;
    CHECK(ms(one[1].at) == Approx(0.96 + 0.64));
}

TEST_CASE("a pickup may count its channels from anywhere, from either string, or use only one") {
    Roughness rough;
    rough.strings = {11, true};
    const auto take = roughen(shells(3), rough, 1);
    CHECK(take.messages[0].message.channel() == 11);
    CHECK(take.messages[2].message.channel() == 14);
    CHECK(take.truth[0].note.string == 6);
    rough.strings.first_channel = 4;
    rough.one_channel = true;
    for (const auto& timed : roughen(shells(3), rough, 1).messages) {
        CHECK(timed.message.channel() == 4);
    }
}

TEST_CASE("a fault's places do not depend on the other faults") {
    Roughness one;
    one.double_triggers = 0.1;
    Roughness both = one;
    both.lift_offs = 0.3;
    const auto clean = shells(100, 250);
    const auto of = [](const RoughTake& take) {
        std::vector<double> times;
        for (const auto& it : take.faults) {
            if (it.fault == Fault::double_trigger) times.push_back(it.at.count());
        }
        return times;
    };
    CHECK(of(roughen(clean, one, 9)) == of(roughen(clean, both, 9)));
}

TEST_CASE("each channel is well formed however rough the pickup is") {
    const auto rough = roughness_of(simulate::Wear::high);
    for (std::uint64_t seed = 1; seed <= 20; ++seed) {
        const auto take = roughen(shells(100), rough, seed);
        Seconds now{-1e9};
        std::array<int, 17> bend{};
        for (const auto& timed : take.messages) {
            CHECK(timed.at >= now);
            now = timed.at;
            int& of_channel = bend.at(static_cast<std::size_t>(timed.message.channel()));
            if (timed.message.kind() == Message::Kind::pitch_bend)
                of_channel = timed.message.bend();
            if (timed.message.starts_note()) CHECK(of_channel == 0);
        }
    }
}

TEST_CASE("what is no clean take, and rates that are none, are refused with words") {
    const auto refused = [](const std::vector<TimedMessage>& messages, const Roughness& rough) {
        try {
            (void)roughen(messages, rough, 1);
        } catch (const text::BadInput& error) {
            return std::string(error.what());
        }
        return std::string("taken");
    };
    CHECK(refused({{Seconds(1.5), midi::pitch_bend(3, 100)}}, {}) ==
          "at 1.500 s: found a message of status 0xE2, expected a clean take: note-ons and "
          "note-offs only");
    CHECK(refused({{Seconds(0), midi::note_on(9, 60, 80)}}, {}) ==
          "at 0.000 s: found channel 9, expected a channel a string, 1 to 6");
    CHECK(refused({{Seconds(0), midi::note_on(1, 40, 80)}}, {}) ==
          "at 0.000 s: found note 40 on string 1, expected a note that this string has");
    CHECK(refused({{Seconds(1), midi::note_on(1, 64, 80)}, {Seconds(0), midi::note_off(1, 64)}},
                  {}) ==
          "at 0.000 s: found an earlier message, expected messages in order of time");
    Roughness rough;
    rough.ghosts = 1.5;
    CHECK(refused({}, rough) == "ghosts: found 1.5, expected 0 to 1");
    rough = {};
    rough.flickers = std::nan("");
    CHECK(refused({}, rough) == "flickers: found nan, expected 0 to 1");
    rough = {};
    rough.strings.first_channel = 12;
    CHECK(refused({}, rough) == "first channel: found 12, expected 1 to 11");
}
