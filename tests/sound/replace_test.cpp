// What is decided while the band plays: cues that wait give way to others.

#include "support/catch.hpp"

#include <compline/sound/mixer.hpp>

#include <algorithm>
#include <atomic>
#include <random>
#include <thread>
#include <vector>

using namespace compline;
using sound::Cue;
using sound::Mixer;
using sound::SoundId;
using time::Frames;

namespace {

const SoundId click(0);
const SoundId drone(1);

/// A click of one sample, and a second of a steady 1.
const sound::Bank& simple_bank() {
    static const sound::Bank bank(time::SampleRate(48000), {{1.0F}, sound::Samples(48000, 1.0F)});
    return bank;
}

/// On the left alone, where its gain is what is heard.
Cue cue_at(std::int64_t frame, float gain = 1.0F, SoundId sound = click) {
    return {Frames(frame), Cue::never, sound, gain, -1.0F};
}

void push(Mixer& mixer, const std::vector<Cue>& cues) {
    for (const auto& cue : cues) REQUIRE(mixer.push(cue));
}

/// The left side of the next frames.
std::vector<float> heard(Mixer& mixer, std::int64_t first, int frames) {
    std::vector<float> left(static_cast<std::size_t>(frames), 9.0F);
    auto right = left;
    mixer.render(Frames(first), left.data(), right.data(), frames);
    return left;
}

using Clicks = std::vector<std::pair<std::int64_t, float>>;

/// When something is heard, and how loud.
Clicks clicks(Mixer& mixer, std::int64_t first, int frames) {
    Clicks clicks;
    const auto left = heard(mixer, first, frames);
    for (std::size_t i = 0; i < left.size(); ++i) {
        if (left[i] != 0) clicks.emplace_back(first + static_cast<std::int64_t>(i), left[i]);
    }
    return clicks;
}

/// Two mixers play the same piece: one is told now and then that it goes on otherwise, the other
/// knows it from the beginning.
class Piece {
  public:
    explicit Piece(unsigned seed) : chance_(seed) {}

    void play() {
        for (std::int64_t frame = 0; frame < 20000;) {
            const int block = one_of(1, 400);
            decide(frame);
            feed(frame + block + one_of(0, 700));
            const auto left = heard(mixer_, frame, block);
            heard_.insert(heard_.end(), left.begin(), left.end());
            frame += block;
        }
    }
    [[nodiscard]] bool is_as_known_from_the_beginning() {
        Mixer knowing(simple_bank(), 20000);
        push(knowing, final_);
        const bool same = heard(knowing, 0, static_cast<int>(heard_.size())) == heard_;
        return same && mixer_.counts() == knowing.counts() && knowing.counts().late == 0;
    }
    int replacements = 0;
    int refused = 0;

  private:
    int one_of(int least, int most) {
        return std::uniform_int_distribution<int>(least, most)(chance_);
    }

    /// Goes on otherwise from some frame that is not played yet; sometimes several times at once.
    void decide(std::int64_t now) {
        while (one_of(0, 3) == 0) {
            const auto from = Frames(now + one_of(0, 900));
            if (!mixer_.replace_from(from)) {
                ++refused;
                return;
            }
            ++replacements;
            while (!final_.empty() && final_.back().at >= from) final_.pop_back();
            next_ = std::min(next_, from.count());
        }
    }
    /// What of the piece begins until then; it is made up as it goes.
    void feed(std::int64_t until) {
        while (next_ <= until) {
            Cue cue = cue_at(next_, 0.1F * static_cast<float>(one_of(1, 9)),
                             one_of(0, 2) == 0 ? drone : click);
            if (one_of(0, 1) == 0) cue.stop = cue.at + Frames(one_of(0, 300));
            push(mixer_, {cue});
            final_.push_back(cue);
            next_ += one_of(0, 60);
            if (one_of(0, 9) == 0) next_ += 2000;
        }
    }

    std::mt19937 chance_;
    Mixer mixer_{simple_bank(), 2000};
    std::int64_t next_ = 0;
    std::vector<Cue> final_;
    std::vector<float> heard_;
};

}  // namespace

TEST_CASE("what waits from a frame on gives way to what comes instead, and nothing before it") {
    Mixer mixer(simple_bank());
    push(mixer, {cue_at(10), cue_at(49), cue_at(50), cue_at(70)});
    REQUIRE(mixer.replace_from(Frames(50)));
    push(mixer, {cue_at(50, 2), cue_at(60, 2), cue_at(130, 2)});
    CHECK(clicks(mixer, 0, 64) == Clicks{{10, 1}, {49, 1}, {50, 2}, {60, 2}});
    CHECK(clicks(mixer, 64, 100) == Clicks{{130, 2}});
    CHECK(mixer.counts() == Mixer::Counts{});
}

TEST_CASE("a sound that has begun goes on to its end when what follows is replaced") {
    Mixer mixer(simple_bank());
    push(mixer, {cue_at(0, 1, drone), cue_at(100)});
    (void)heard(mixer, 0, 64);
    REQUIRE(mixer.replace_from(Frames(64)));
    const auto left = heard(mixer, 64, 48000);
    CHECK(std::count(left.begin(), left.end(), 1.0F) == 48000 - 64);
    CHECK(left[48000 - 64] == 0.0F);
}

TEST_CASE("a second replacement waits until the first is taken, and changes nothing until then") {
    Mixer mixer(simple_bank());
    push(mixer, {cue_at(100), cue_at(200), cue_at(300)});
    REQUIRE(mixer.replace_from(Frames(200)));
    CHECK_FALSE(mixer.replace_from(Frames(50)));
    push(mixer, {cue_at(250, 2)});
    (void)heard(mixer, 0, 1);
    REQUIRE(mixer.replace_from(Frames(220)));  // further ahead than the first
    push(mixer, {cue_at(220, 3)});
    CHECK(clicks(mixer, 1, 999) == Clicks{{100, 1}, {220, 3}});
    CHECK(mixer.counts() == Mixer::Counts{});
}

TEST_CASE("one replacement after another leaves room for what comes in its place") {
    Mixer mixer(simple_bank(), 100);
    for (int again = 0; again < 50; ++again) {
        for (int i = 0; i < 60; ++i) {
            REQUIRE(mixer.push(cue_at(1000 + i, static_cast<float>(again))));
        }
        (void)heard(mixer, again, 1);
        REQUIRE(mixer.replace_from(Frames(1000)));
    }
    push(mixer, {cue_at(1010, 99)});
    CHECK(clicks(mixer, 900, 500) == Clicks{{1010, 99}});
    CHECK(mixer.counts() == Mixer::Counts{});
}

TEST_CASE("a replacement reaches cues that the mixer has no room to look at yet") {
    Mixer mixer(simple_bank(), 15);
    std::int64_t count = 0;
    while (count < 15 && mixer.push(cue_at(100 + count))) ++count;
    (void)heard(mixer, 0, 1);  // they wait with the reader; others fill the queue again
    while (mixer.push(cue_at(100 + count))) ++count;
    REQUIRE(mixer.replace_from(Frames(100 + count - 2)));
    const auto played = clicks(mixer, 1, 98);
    CHECK(played.empty());
    CHECK_FALSE(mixer.replace_from(Frames(100 + count - 1)));  // older ones are in the queue still
    CHECK(clicks(mixer, 99, 200).size() == static_cast<std::size_t>(count - 2));
    CHECK(mixer.replace_from(Frames(300)));
    CHECK(mixer.counts().late == 0);
}

TEST_CASE("starting over forgets what was replaced and what came instead") {
    Mixer mixer(simple_bank());
    push(mixer, {cue_at(10), cue_at(500)});
    REQUIRE(mixer.replace_from(Frames(20)));
    push(mixer, {cue_at(30, 2)});
    mixer.start_over();
    push(mixer, {cue_at(5, 3), cue_at(600, 3)});  // before the frame of the replacement, and after
    CHECK(clicks(mixer, 0, 1000) == Clicks{{5, 3}, {600, 3}});
    CHECK(mixer.counts() == Mixer::Counts{});
}

TEST_CASE("what a new run begins with may be replaced before the mixer has looked") {
    Mixer mixer(simple_bank());
    push(mixer, {cue_at(10), cue_at(500)});
    mixer.start_over();
    push(mixer, {cue_at(40, 2), cue_at(60, 2)});
    REQUIRE(mixer.replace_from(Frames(50)));
    push(mixer, {cue_at(55, 3)});
    CHECK(clicks(mixer, 0, 1000) == Clicks{{40, 2}, {55, 3}});
    CHECK(mixer.counts() == Mixer::Counts{});
}

TEST_CASE("what is replaced too late has been played, and only what comes instead is late") {
    Mixer mixer(simple_bank());
    push(mixer, {cue_at(10), cue_at(90)});
    CHECK(clicks(mixer, 0, 64) == Clicks{{10, 1}});
    REQUIRE(mixer.replace_from(Frames(5)));
    push(mixer, {cue_at(30, 2), cue_at(80, 2)});
    CHECK(clicks(mixer, 64, 64) == Clicks{{80, 2}});
    CHECK(mixer.counts() == Mixer::Counts{0, 1, 0});
}

TEST_CASE("with replacements at any time it sounds as if all had been known from the beginning") {
    int replacements = 0;
    int refused = 0;
    for (unsigned seed = 1; seed <= 200; ++seed) {
        CAPTURE(seed);
        Piece piece(seed);
        piece.play();
        CHECK(piece.is_as_known_from_the_beginning());
        replacements += piece.replacements;
        refused += piece.refused;
    }
    CHECK(replacements > 4000);
    CHECK(refused > 1000);
}

TEST_CASE("cues are replaced while another thread plays them, and the last word is what is heard",
          "[threads]") {
    Mixer mixer(simple_bank(), 600);
    constexpr std::int64_t end = 300000;
    // What is played until then is decided. It orders nothing between the threads.
    std::atomic<std::int64_t> decided{0};
    std::vector<float> expected(static_cast<std::size_t>(end), 0.0F);
    int replacements = 0;
    std::thread writer([&] {
        std::int64_t next = 0;
        float gain = 1;
        for (std::int64_t until = 0; until < end;) {
            const auto from = until + 7 * (until % 40);
            if (from < next && mixer.replace_from(Frames(from))) {
                ++replacements;
                std::fill(expected.begin() + from, expected.end(), 0.0F);
                next = from;
                gain += 1;
            }
            for (; next < std::min(until + 3000, end); next += 7) {
                if (!mixer.push(cue_at(next, gain))) break;
                expected[static_cast<std::size_t>(next)] = gain;
            }
            if (next >= std::min(until + 333, end)) until += 333;
            decided.store(std::min(until, end), std::memory_order_relaxed);
            std::this_thread::yield();
        }
    });
    std::vector<float> all;
    while (static_cast<std::int64_t>(all.size()) < end) {
        const auto made = static_cast<std::int64_t>(all.size());
        if (made + 50 > decided.load(std::memory_order_relaxed)) {
            std::this_thread::yield();
            continue;
        }
        const auto left = heard(mixer, made, 50);
        all.insert(all.end(), left.begin(), left.end());
    }
    writer.join();
    CHECK(all == expected);
    CHECK(replacements > 100);
    CHECK(mixer.counts().late == 0);
}
