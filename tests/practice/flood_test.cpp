// A minute of the most that a guitar can send: nothing is lost on the way to the judge, and it says
// what it says of the same strums alone.

#include "../../tools/live.d/flood.hpp"

#include "support/catch.hpp"
#include "support/comper.hpp"
#include "time/stamp_stream.hpp"

#include <compline/assess/assessment.hpp>
#include <compline/listen/listener.hpp>
#include <compline/practice/session.hpp>
#include <compline/simulate/guitarist.hpp>

#include <algorithm>
#include <vector>

using namespace compline;
using time::Seconds;

namespace {

constexpr time::SampleRate rate{48000};
constexpr time::Bpm tempo{120};
constexpr Seconds minute{60};
constexpr int beats = 120;
constexpr int beats_a_bar = 4;
constexpr std::int64_t zero = 96000;

chart::Form four_bars() { return tests::form_of("Dm7 | G7 | Cmaj7 | A7"); }

roadmap::RoadMap road() {
    const auto form = four_bars();
    auto asked = roadmap::Asked::of(form.whole(), beats / beats_a_bar / 4 + 1);
    asked.tempo = tempo;
    asked.swing = roadmap::AskedSwing{1.0};
    return {form, asked};
}

/// A strum on every beat, from early to late, with a wrong grip and a chord that never comes.
std::vector<midi::TimedMessage> strums() {
    const guitar::Shape grips[] = {tests::shape("x5x56x"), tests::shape("3x34xx"),
                                   tests::shape("x3x45x"), tests::shape("5x56xx")};
    std::vector<simulate::ScriptedStrum> script;
    for (int beat = 0; beat < beats; ++beat) {
        simulate::ScriptedStrum strum;
        strum.at = time::quarter_note * beat;
        strum.lateness = time::from_milliseconds(beat * 37 % 120 - 30);
        const int bar = beat / beats_a_bar;
        strum.shape = grips[(bar == 15 ? bar - 1 : bar) % 4];  // A7 never comes
        if (beat == 36) strum.shape = tests::shape("3x44xx");  // F sharp on G7
        strum.length = Seconds(0.35);
        script.push_back(strum);
    }
    return simulate::perform(script, road(), guitar::Fretboard::standard());
}

std::uint32_t device_frame(Seconds at) {
    return static_cast<std::uint32_t>(10000 + zero + nearest_frame(at, rate).count());
}

/// What a session makes of messages that come with their frames, a block of 256 at a time, read
/// every second block as the program does.
std::vector<midi::TimedMessage> through_a_session(const std::vector<midi::TimedMessage>& sent) {
    tests::StampStream stream({});
    practice::Session session(rate, Seconds(0));
    session.start(time::Frames(zero));
    std::size_t handed_on = 0;
    auto next = sent.begin();
    for (int block = 0; next != sent.end() || block % 2 == 1; ++block) {
        const auto stamp = stream.next();
        const auto block_end = stamp.device_frame + static_cast<std::uint32_t>(stamp.frames);
        for (; next != sent.end() && device_frame(next->at) < block_end; ++next) {
            listen::Arrival arrival;
            arrival.message = next->message;
            arrival.timing = listen::Arrival::Timing::at_a_device_frame;
            arrival.device_frame = device_frame(next->at);
            session.add(arrival);
        }
        session.add(stamp);
        if (block % 2 == 1) handed_on += session.advance().messages.size();
    }
    CHECK(handed_on == sent.size());
    CHECK(session.played().interruptions.empty());
    return session.played().messages;
}

listen::Heard heard(const std::vector<midi::TimedMessage>& messages) {
    return listen::hear(messages, {}, minute);
}

assess::Assessment judged(const listen::Heard& heard) {
    assess::Performance performance;
    performance.notes = heard.notes;
    performance.end = minute;
    return assess::assess(road(), performance, {});
}

bool same_message(const midi::TimedMessage& a, const midi::TimedMessage& b) {
    constexpr Seconds half_frame{0.5001 / 48000};
    return a.message == b.message && time::abs(a.at - b.at) <= half_frame;
}

bool same_note(const listen::Note& a, const listen::Note& b) {
    return a.on == b.on && a.off == b.off && a.note == b.note && a.velocity == b.velocity &&
           a.string == b.string && a.fret == b.fret && a.slid == b.slid;
}

bool same_verdict(const assess::Change& a, const assess::Change& b) {
    return a.verdict == b.verdict && a.tones == b.tones && a.lateness == b.lateness &&
           a.spread == b.spread && a.cost() == b.cost() && a.wrong.size() == b.wrong.size();
}

}  // namespace

TEST_CASE("a note whose note-off is lost spoils nothing that comes after it", "[practice]") {
    auto take = strums();
    const auto expected = judged(heard(take));
    // E flat on a string that no grip uses, struck with the first Dm7 and never let go.
    take.insert(take.begin(), {Seconds(0), midi::note_on(1, 75, 80)});
    const auto heard_now = heard(take);
    CHECK(heard_now.cleaned.unended == 1);
    const auto verdicts = judged(heard_now);
    REQUIRE(verdicts.changes.size() == expected.changes.size());
    CHECK(verdicts.changes.front().tones == assess::Tones::wrong);
    CHECK(std::equal(verdicts.changes.begin() + 1, verdicts.changes.end(),
                     expected.changes.begin() + 1, same_verdict));
}

TEST_CASE("a minute of 3000 bends a second is heard whole and judged as the strums alone are",
          "[practice]") {
    const auto sent = outside::flooded(strums(), Seconds(0), minute);
    CHECK(sent.size() == 180'000 + strums().size());
    const auto taken = through_a_session(sent);
    REQUIRE(taken.size() == sent.size());
    CHECK(std::equal(taken.begin(), taken.end(), sent.begin(), same_message));

    const auto flooded = heard(taken);
    const auto plain = heard(through_a_session(strums()));
    CHECK(flooded.cleaned == plain.cleaned);
    CHECK(flooded.strings == plain.strings);
    CHECK(std::equal(flooded.notes.begin(), flooded.notes.end(), plain.notes.begin(),
                     plain.notes.end(), same_note));

    const auto verdicts = judged(flooded);
    const auto expected = judged(plain);
    CHECK(expected.changes.size() == beats / beats_a_bar);
    CHECK(std::equal(verdicts.changes.begin(), verdicts.changes.end(), expected.changes.begin(),
                     expected.changes.end(), same_verdict));
    CHECK(expected.totals.count(assess::Verdict::on_time) > 5);
    CHECK(expected.totals.count(assess::Verdict::late) > 5);
    CHECK(expected.totals.count(assess::Verdict::missed) == 1);
    CHECK(verdicts.time.all.mean_ms == expected.time.all.mean_ms);
}
