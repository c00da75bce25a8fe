// The conductor goes on by another map while it hands over.

#include "support/catch.hpp"
#include "support/forms.hpp"
#include "support/random_decisions.hpp"

#include <compline/band/place.hpp>
#include <compline/practice/conductor.hpp>

#include <algorithm>
#include <random>
#include <variant>
#include <vector>

using namespace compline;
using practice::Conductor;
using roadmap::NewTempo;
using roadmap::RoadMap;
using time::Bpm;
using time::Frames;
using time::Seconds;

namespace {

constexpr time::SampleRate rate{48000};
constexpr Frames first{4800};

RoadMap road(std::optional<int> times, double bpm, int count_in = 1) {
    const auto form = tests::make_form(time::Meter(4), Bpm(132), {"Dm7", "G7", "Cmaj7", "A7"});
    auto asked = roadmap::Asked::of({1, 4}, times);
    asked.tempo = Bpm(bpm);
    asked.count_in_bars = count_in;
    return {form, asked};
}

/// Strict about what it is given: in order, in time, and never what it has already.
class Listener {
  public:
    Listener(const RoadMap& map, const band::Stage& stage)
        : stage_(stage), map_(map), conductor_(map, {}, stage, rate) {
        conductor_.start(first);
    }

    void feed() {
        conductor_.feed(now_, [this](const sound::Cue& cue) {
            if (room_-- == 0) return false;
            CHECK(cue.at >= now_);
            CHECK((cues_.empty() || cues_.back().at <= cue.at));
            cues_.push_back(cue);
            return true;
        });
    }
    void feed_until(Frames end) {
        for (; now_ < end && is_on(); now_ = now_ + Frames(960)) feed();
    }
    /// So many cues, and then there is no room until it is fed again.
    void feed(int room) {
        room_ = room;
        feed();
        room_ = -1;
    }
    Frames decide(const roadmap::Decision& decision) {
        map_ = map_.with(decision);
        const auto from = conductor_.follow(map_, decision.from_bar);
        while (!cues_.empty() && cues_.back().at >= from) cues_.pop_back();
        return from;
    }
    /// The first bar that begins a quarter of a second from now or later.
    [[nodiscard]] std::int64_t next_bar() const {
        const auto soon = time::time_of(now_ - conductor_.zero(), rate) + Seconds(0.25);
        const auto place = map_.place_at(soon);
        return place.before ? 1 : place.number + 1;
    }
    [[nodiscard]] Frames frame_of_bar(std::int64_t number) const {
        const auto at = map_.time_of(map_.bar(number).start);
        return conductor_.zero() + time::nearest_frame(at, rate);
    }
    [[nodiscard]] bool is_as_rendered() const {
        const auto part = band::arrange(map_, {});
        const auto all = band::place(part, map_, rate, conductor_.zero(), stage_, first);
        return std::equal(all.begin(), all.end(), cues_.begin(), cues_.end(),
                          [](const sound::Cue& a, const sound::Cue& b) {
                              return a.at == b.at && a.stop == b.stop && a.sound == b.sound &&
                                     a.gain == b.gain && a.pan == b.pan;
                          });
    }
    [[nodiscard]] const RoadMap& map() const { return map_; }
    [[nodiscard]] Seconds now() const { return time::time_of(now_ - conductor_.zero(), rate); }
    /// Something is still to be played, or it is only a pause.
    [[nodiscard]] bool is_on() const {
        const auto& decided = map_.decided();
        return !conductor_.done() ||
               (!decided.empty() && std::holds_alternative<roadmap::Paused>(decided.back().what));
    }
    [[nodiscard]] const Conductor& conductor() const { return conductor_; }
    [[nodiscard]] const std::vector<sound::Cue>& cues() const { return cues_; }

  private:
    const band::Stage& stage_;
    RoadMap map_;
    Conductor conductor_;
    Frames now_;
    int room_ = -1;
    std::vector<sound::Cue> cues_;
};

constexpr Frames for_ever{48000 * 600};

}  // namespace

TEST_CASE("a tempo that is decided while the band plays is played as if it had been known before") {
    const band::Stage stage;
    for (std::int64_t second = 0; second < 20; ++second) {
        CAPTURE(second);
        Listener listener(road(3, 132), stage);
        listener.feed_until(Frames(48000 * second));
        const auto bar = listener.next_bar();
        if (bar == 1) continue;  // the count-in goes on in its own tempo
        listener.decide({bar, NewTempo{Bpm(171)}});
        listener.feed_until(for_ever);
        CHECK(listener.is_as_rendered());
    }
}

TEST_CASE("a new tempo is heard from its bar on, and what was handed over before it stays") {
    const band::Stage stage;
    Listener listener(road(3, 120), stage);
    listener.feed_until(Frames(48000 * 5));
    const auto before = listener.cues();
    const auto bar = listener.next_bar();
    const auto line = listener.frame_of_bar(bar);
    listener.decide({bar, NewTempo{Bpm(240)}});
    listener.feed_until(for_ever);
    CHECK(listener.frame_of_bar(bar) == line);
    CHECK(listener.frame_of_bar(bar + 1) == line + Frames(48000));
    const auto stays = std::count_if(before.begin(), before.end(), [&](const sound::Cue& cue) {
        return cue.at < line - Frames(960);
    });
    CHECK(stays > 10);
    CHECK(static_cast<std::size_t>(stays) < before.size());
    CHECK(std::equal(before.begin(), before.begin() + stays, listener.cues().begin(),
                     [](const auto& a, const auto& b) { return a.at == b.at; }));
}

TEST_CASE("decisions at random, many in a bar, are played as if they had been known before") {
    std::mt19937 chance(21);
    const auto one_of = [&](int least, int most) {
        return std::uniform_int_distribution<int>(least, most)(chance);
    };
    std::size_t decided = 0;
    for (int evening = 0; evening < 150; ++evening) {
        CAPTURE(evening);
        band::Stage stage;
        const auto behind = time::from_milliseconds(one_of(-20, 20));
        for (auto& seat : stage.seats) seat.behind = behind;
        Listener listener(road(one_of(2, 5), one_of(90, 250)), stage);
        for (Frames now(0); listener.is_on(); now = now + Frames(one_of(1, 60000))) {
            listener.feed_until(now);
            for (int times = one_of(0, 3); times > 0; --times) {
                const auto decision =
                    tests::random_decision(listener.map(), listener.now(), chance);
                if (!decision) break;
                listener.decide(*decision);
                if (one_of(0, 1) == 0) listener.feed(one_of(0, 20));
            }
        }
        CHECK(listener.is_as_rendered());
        decided += listener.map().decided().size();
    }
    CHECK(decided > 1000);
}

TEST_CASE("a band that is stopped from a bar on has nothing more, and before it all it had") {
    const band::Stage stage;
    for (const std::int64_t bar : {3, 4, 5, 6}) {
        CAPTURE(bar);
        Listener listener(road(std::nullopt, 120), stage);
        listener.feed_until(Frames(48000 * 4));  // bar 1 begins at 2.1 s
        listener.decide({bar, roadmap::Stopped{}});
        listener.feed_until(for_ever);
        CHECK(listener.conductor().done());
        CHECK(listener.is_as_rendered());
    }
}

TEST_CASE("what was all handed over is not done any longer when the map has more") {
    const band::Stage stage;
    Listener listener(road(3, 120), stage);
    const auto& longer = listener.map();
    const auto shorter = longer.with({7, roadmap::Stopped{}});
    Conductor conductor(longer, {}, stage, rate);
    conductor.start(first);
    std::vector<sound::Cue> cues;
    const auto push = [&](const sound::Cue& cue) {
        cues.push_back(cue);
        return true;
    };
    (void)conductor.follow(shorter, 7);
    conductor.feed(Frames(48000 * 10), push);
    CHECK(conductor.done());
    const auto from = conductor.follow(longer, 7);
    CHECK_FALSE(conductor.done());
    CHECK(from == conductor.zero() + Frames(12 * 48000 - 960));
    while (!cues.empty() && cues.back().at >= from) cues.pop_back();
    conductor.feed(Frames(48000 * 100), push);
    CHECK(conductor.done());
    const auto all =
        band::place(band::arrange(longer, {}), longer, rate, conductor.zero(), stage, first);
    CHECK(cues.size() == all.size());
    CHECK(cues.back().at == all.back().at);
}

TEST_CASE("what is about to be played is not handed over twice, however late a decision comes") {
    const band::Stage stage;
    Listener listener(road(3, 120), stage);
    listener.feed_until(Frames(48000 * 5));
    const auto before = listener.cues();
    const auto soon = Frames(48000 * 5 - 960 + 6000);  // last fed then; an eighth of a second
    const auto bar = listener.map().place_at(listener.now()).number;
    const auto from = listener.decide({bar, NewTempo{Bpm(240)}});
    CHECK(from == soon);
    CHECK(listener.cues().back().at < soon);
    listener.feed();
    const auto stays = static_cast<std::ptrdiff_t>(std::count_if(
        before.begin(), before.end(), [&](const auto& cue) { return cue.at < soon; }));
    CHECK(std::equal(before.begin(), before.begin() + stays, listener.cues().begin(),
                     [](const auto& a, const auto& b) { return a.at == b.at; }));
    CHECK(listener.cues().at(static_cast<std::size_t>(stays)).at >= soon);
}

TEST_CASE("a band that is silent for ever is looked ahead of no further than any other") {
    auto asked = road(std::nullopt, 120).asked();
    asked.manner.drums = chart::Drums::off;
    asked.manner.bass = chart::Bass::off;
    asked.count_in_bars = 0;
    Conductor conductor({road(1, 120).form(), asked}, {}, {}, rate);
    conductor.start(first);
    int cues = 0;
    for (std::int64_t now = 0; now < 48000 * 60; now += 4800) {
        conductor.feed(Frames(now), [&](const sound::Cue&) { return ++cues > 0; });
    }
    CHECK(cues == 0);
    CHECK_FALSE(conductor.done());
}
