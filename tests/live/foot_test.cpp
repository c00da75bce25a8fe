// Evenings without a device on which a foot asks for things, a cable comes out, or the whole
// program is stopped for a while.

#include "live/offline_rig.hpp"
#include "support/catch.hpp"
#include "support/comper.hpp"

#include <compline/live/device_choice.hpp>
#include <compline/practice/pedal.hpp>
#include <compline/practice/progress.hpp>
#include <compline/practice/scoring.hpp>

#include <algorithm>
#include <utility>
#include <variant>

using namespace compline;
using tests::OfflineEvening;
using tests::OfflineGuitar;
using tests::Sent;
using time::Frames;
using time::Seconds;
using TimedBy = OfflineGuitar::TimedBy;

namespace {

constexpr Seconds half_a_frame{0.5001 / 48000};
constexpr const char* words = "64=loop here, 67=pause, program 3=stop, note 36=drums";
constexpr const char* chart_text =
    "title: Eight Bars\nkey: C\ntempo: 240\nsections:\n"
    "  A: Dm7 | G7 | Cmaj7 | A7 | Dm7 | G7 | Cmaj7 | A7\n";

/// A bar a second, straight, behind a bar of count-in.
roadmap::RoadMap road(std::optional<int> times) {
    auto asked = roadmap::Asked::of({1, 8}, times);
    asked.swing = roadmap::AskedSwing{1.0};
    asked.count_in_bars = 1;
    return {chart::unroll(chart::read_chart(chart_text, "eight.yaml")), asked};
}

/// A strum on every bar line, from bar 1 on.
std::vector<midi::TimedMessage> strums(int bars) {
    const guitar::Shape grips[] = {tests::shape("x5x56x"), tests::shape("3x34xx"),
                                   tests::shape("x3x45x"), tests::shape("5x56xx")};
    std::vector<simulate::ScriptedStrum> script;
    for (int bar = 0; bar < bars; ++bar) {
        simulate::ScriptedStrum strum;
        strum.at = time::quarter_note * (4 * bar);
        strum.shape = grips[bar % 4];
        strum.length = Seconds(0.8);
        script.push_back(strum);
    }
    return simulate::perform(script, road(bars / 8 + 1), guitar::Fretboard::standard());
}

/// Down and up again a tenth of a second later.
void press(std::vector<midi::TimedMessage>& script, double at, int controller) {
    script.push_back({Seconds(at), midi::control_change(1, controller, 127)});
    script.push_back({Seconds(at + 0.1), midi::control_change(1, controller, 0)});
}

/// Bars 5 to 8 are looped, paused and gone on with; at last all stops.
std::vector<midi::TimedMessage> feet() {
    std::vector<midi::TimedMessage> script;
    press(script, 5.4, 64);
    script.push_back({Seconds(6.4), midi::note_on(10, 36, 90)});
    script.push_back({Seconds(6.5), midi::note_off(10, 36)});
    press(script, 7.4, 67);
    press(script, 9.4, 67);
    script.push_back({Seconds(13.4), midi::program_change(1, 3)});
    return script;
}

std::vector<midi::TimedMessage> merged(std::vector<midi::TimedMessage> one,
                                       const std::vector<midi::TimedMessage>& other) {
    one.insert(one.end(), other.begin(), other.end());
    std::stable_sort(one.begin(), one.end(),
                     [](const auto& a, const auto& b) { return a.at < b.at; });
    return one;
}

/// The program's loop: what is heard is what the player asks for, and what is kept of the evening.
class Night {
  public:
    Night(const OfflineEvening::Settings& settings, std::optional<int> times)
        : own_port_(settings.pedal),
          evening_(road(times), opening(times, own_port_), {}, practice::JudgedMeanwhile::nothing),
          offline_(settings, road(times)) {}

    void turn() {
        (void)offline_.turn();
        const auto& news = offline_.just_heard();
        const auto& rig = offline_.rig();
        std::vector<practice::Command> commands;
        const auto wants = pedal_.take(own_port_ ? news.pedal : news.messages, rig.session());
        for (const auto& want : wants) commands.push_back(want.in(evening_.state()));
        const auto orders = evening_.advance(rig.now(), news, commands);
        if (orders.follow_from) offline_.rig().follow(evening_.state().map, *orders.follow_from);
    }
    void go_on_until(Seconds at) {
        while (!evening_.state().over && offline_.rig().now() < at) turn();
    }
    void go_on() { go_on_until(Seconds(1e9)); }

    [[nodiscard]] OfflineEvening& offline() { return offline_; }
    [[nodiscard]] const practice::Evening& evening() const { return evening_; }
    /// As it is read from its file.
    [[nodiscard]] practice::Take take() const {
        const auto file = practice::to_file(evening_.take(), evening_.asked());
        return practice::read_take(midi::read_smf(midi::write_smf(file)).file);
    }
    [[nodiscard]] practice::Report judged() const {
        return practice::hear_and_judge(evening_.asked().form(), take(), {});
    }

  private:
    static practice::TakeInfo opening(std::optional<int> times, bool own_port) {
        auto info = practice::info_of(road(times), chart_text);
        info.pedal = {words, own_port};
        return info;
    }

    bool own_port_;
    practice::Pedal pedal_{words};
    practice::Evening evening_;
    OfflineEvening offline_;
};

/// What was decided, a letter each.
std::string decided(const practice::Evening& evening) {
    std::string letters;
    for (const auto& timed : evening.opening().decided) {
        letters += "TLWPGS"[timed.decision.what.index()];
    }
    return letters;
}

/// How often a decision of a kind was made.
template <typename What>
int times_decided(const practice::Evening& evening) {
    const auto& all = evening.opening().decided;
    return static_cast<int>(std::count_if(all.begin(), all.end(), [](const auto& timed) {
        return std::holds_alternative<What>(timed.decision.what);
    }));
}

}  // namespace

TEST_CASE("a foot loops, pauses and stops by a port of its own or by the guitar's", "[threads]") {
    const auto notes = strums(16);
    for (const bool own_port : {true, false}) {
        OfflineEvening::Settings settings;
        settings.pedal = own_port;
        Night night(settings, std::nullopt);
        if (own_port) {
            night.offline().start(tests::as_bytes(notes), tests::as_bytes(feet()));
        } else {
            night.offline().start(tests::as_bytes(merged(notes, feet())));
        }
        night.go_on();
        const auto& evening = night.evening();
        INFO(decided(evening));
        CHECK(night.offline().trouble().empty());
        CHECK(times_decided<roadmap::NewWay>(evening) == 1);
        CHECK(times_decided<roadmap::LaysOut>(evening) == 1);
        CHECK(times_decided<roadmap::Paused>(evening) == 1);
        CHECK(times_decided<roadmap::Waited>(evening) == 1);
        CHECK(times_decided<roadmap::Stopped>(evening) == 1);
        CHECK(evening.state().loop == chart::Passage{5, 8});

        // The take is all that came, and none of the foot's is heard as music.
        const auto take = night.take();
        CHECK(take.pedal.size() == (own_port ? feet().size() : 0));
        const auto judged = night.judged();
        const auto is_foot = [](const listen::Note& note) { return note.note.number() == 36; };
        const auto& heard = judged.heard.notes;
        CHECK(heard.size() > 30);
        CHECK(std::none_of(heard.begin(), heard.end(), is_foot));
        const auto without = notes.size();
        CHECK(take.messages.size() < without + (own_port ? 1 : feet().size() + 1));
        CHECK(std::any_of(take.messages.begin(), take.messages.end(), [](const auto& timed) {
                  return timed.message == midi::control_change(1, 64, 127);
              }) == !own_port);
    }
}

TEST_CASE("a flood from the pedal's port delays none of the guitar's notes", "[threads]") {
    const auto notes = strums(4);
    std::vector<midi::TimedMessage> flood;
    for (int i = 0; i < 12000; ++i) {
        flood.push_back({Seconds(i / 3000.0), midi::control_change(1, 11, i % 128)});
    }
    OfflineEvening::Settings settings;
    settings.pedal = true;
    settings.room = 1U << 14U;
    Night night(settings, 1);
    night.offline().start(tests::as_bytes(notes), tests::as_bytes(flood));
    night.go_on_until(Seconds(4.5));
    const auto& played = night.offline().rig().session().played();
    CHECK(played.pedal.size() == flood.size());
    REQUIRE(played.messages.size() == notes.size());
    for (std::size_t i = 0; i < notes.size(); ++i) {
        CHECK(played.messages[i].message == notes[i].message);
        CHECK(time::abs(played.messages[i].at - notes[i].at) < half_a_frame);
    }
    CHECK(night.offline().rig().machine().dropped_events == 0);
}

TEST_CASE("a cable that is out for three seconds of a loop leaves changes uncertain, none missed",
          "[threads]") {
    for (const auto timed_by : {TimedBy::frames, TimedBy::moments}) {
        OfflineEvening::Settings settings;
        settings.guitar = timed_by;
        Night night(settings, 2);
        night.offline().start(tests::as_bytes(strums(16)));
        night.go_on_until(Seconds(5.4));
        night.offline().guitar().pull_cable();
        night.go_on_until(Seconds(8.4));
        night.offline().guitar().put_cable_back();
        night.go_on();
        CHECK(night.offline().trouble().empty());
        const auto judged = night.judged();
        const auto& totals = judged.assessment.totals;
        // Bars 6, 7 and 8, and those whose chord was struck within a second of it.
        CHECK(totals.uncertain >= 4);
        CHECK(totals.uncertain <= 6);
        CHECK(totals.changes == 16 - totals.uncertain);
        CHECK(totals.count(assess::Verdict::on_time) == totals.changes);
        REQUIRE(judged.heard.unheard.size() == 1);
        const auto out = judged.heard.unheard.front();
        CHECK((out.to - out.from).count() == Approx(3).margin(0.4));
    }
}

TEST_CASE("a take that begins while the cable is out knows it", "[threads]") {
    Night night({}, 1);
    night.offline().start();
    night.offline().guitar().pull_cable();
    night.go_on_until(Seconds(1));
    REQUIRE(night.offline().rig().guitar().is_out());
    night.offline().rig().start();
    const auto& cable = night.offline().rig().session().played().cable;
    REQUIRE(cable.size() == 1);
    CHECK(cable.front().out);
    CHECK(cable.front().at < Seconds(-1));
}

TEST_CASE("a pedal whose cable comes out is waited for, and the guitar is heard all the time",
          "[threads]") {
    OfflineEvening::Settings settings;
    settings.pedal = true;
    Night night(settings, 1);
    night.offline().start(tests::as_bytes(strums(8)), tests::as_bytes(feet()));
    night.offline().pedal().pull_cable();
    night.go_on_until(Seconds(2));
    CHECK(night.offline().rig().pedal().is_out());
    night.offline().pedal().put_cable_back();
    night.go_on_until(Seconds(5.8));
    CHECK_FALSE(night.offline().rig().pedal().is_out());
    CHECK(night.evening().state().loop.has_value());
    CHECK_FALSE(night.offline().rig().guitar().is_out());
    CHECK(night.offline().rig().session().played().cable.empty());
}

TEST_CASE("a program that is stopped for three seconds goes on where the band stood still",
          "[threads]") {
    for (const auto timed_by : {TimedBy::frames, TimedBy::moments}) {
        OfflineEvening::Settings settings;
        settings.guitar = timed_by;
        settings.output.is_stopped = Frames(5 * 48000);  // about bar 4
        Night night(settings, 1);
        night.offline().start(tests::as_bytes(strums(11)));
        auto& rig = night.offline().rig();
        Seconds before = rig.now();
        Seconds furthest(0);
        Seconds back(0);
        while (!night.evening().state().over) {
            night.turn();
            const auto now = night.evening().state().now;
            furthest = std::max(furthest, now - before);
            back = std::max(back, before - now);
            before = now;
            if (!night.offline().trouble().empty()) break;
        }
        CHECK(night.offline().trouble().empty());
        CHECK(furthest < Seconds(0.2));  // the tune did not leap, nor is it over before its time
        CHECK(back < Seconds(0.1));
        CHECK(night.evening().state().times_over == 1);
        const auto& played = rig.session().played();
        REQUIRE(played.interruptions.size() == 1);
        const auto stopped = played.interruptions.front();
        CHECK(played.cable.empty());
        // Who plays on by the clock on the wall is three seconds early from there on.
        const auto judged = night.judged();
        const auto& changes = judged.assessment.changes;
        for (const auto& change : changes) {
            const auto away = time::abs(change.at - stopped);
            if (away < Seconds(0.9)) CHECK(change.uncertain);
            if (away > Seconds(2)) CHECK_FALSE(change.uncertain);
        }
        const auto last = played.messages.back().at;
        CHECK(last.count() == Approx(strums(11).back().at.count() - 3).margin(0.001));
    }
}

TEST_CASE("a stream that dies after the program was stopped is found dead all the same",
          "[threads]") {
    OfflineEvening::Settings settings;
    settings.output.is_stopped = Frames(3 * 48000);
    settings.output.falls_silent = Frames(7 * 48000);
    OfflineEvening evening(settings, road(std::nullopt));
    evening.start();
    evening.go_on();
    CHECK(evening.trouble() == "Offline:output plays no more");
}

TEST_CASE("a server that dies and takes the port along is no cable that is out", "[threads]") {
    OfflineEvening::Settings settings;
    settings.output.falls_silent = Frames(4 * 48000);
    OfflineEvening evening(settings, road(std::nullopt));
    evening.start();
    auto& rig = evening.rig();
    while (evening.now() - *rig.session().clock().last_called() < Seconds(0.1)) evening.turn();
    evening.guitar().pull_cable();
    evening.go_on();
    CHECK(evening.trouble() == "the MIDI input Offline:guitar has gone");
    CHECK_FALSE(rig.guitar().is_out());
    CHECK(rig.session().played().cable.empty());
}
