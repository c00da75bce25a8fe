#include "benches.hpp"

#include <compline/band/band.hpp>
#include <compline/band/place.hpp>
#include <compline/sound/mixer.hpp>
#include <compline/sound/render.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <chrono>
#include <string>

namespace compline::bench {

namespace {

constexpr time::SampleRate rate{48000};
constexpr int block_frames = 64;

using BlockTimes = std::vector<double>;

/// Plays the cues once as the audio callback does and times each block.
BlockTimes play(const std::vector<sound::Cue>& cues, const sound::Bank& bank, std::size_t count) {
    using Clock = std::chrono::steady_clock;
    sound::Mixer mixer(bank);
    std::array<float, block_frames> left{};
    std::array<float, block_frames> right{};
    BlockTimes times(count);
    auto cue = cues.begin();
    for (std::size_t i = 0; i < count; ++i) {
        const time::Frames first(static_cast<std::int64_t>(i) * block_frames);
        for (; cue != cues.end() && cue->at < first + time::Frames(block_frames); ++cue) {
            (void)mixer.push(*cue);
        }
        const auto began = Clock::now();
        mixer.render(first, left.data(), right.data(), block_frames);
        times[i] = std::chrono::duration<double>(Clock::now() - began).count();
        keep(left), keep(right);
    }
    return times;
}

std::string worst_of_period(time::Seconds took) {
    const time::Seconds period = time::time_of(time::Frames(block_frames), rate);
    return fmt::format("worst {:.2f} % of {:.3f} ms", took / period * 100, period.milliseconds());
}

/// The same cues over and over. Each block does the same work every time: its fastest time is its
/// own, and the slowest of these is our worst block. The slowest of all times has the machine's
/// interruptions in it.
std::vector<Row> measure_blocks(Pace pace, const std::string& what,
                                const std::vector<sound::Cue>& cues, const sound::Bank& bank) {
    const auto end = sound::end_of(cues, bank, time::Frames(0)).count();
    const auto count = static_cast<std::size_t>(end / block_frames + 1);
    BlockTimes fastest = play(cues, bank, count);
    BlockTimes all;
    const int runs = pace == Pace::quick ? 3 : 12;
    for (int run = 0; run < runs; ++run) {
        const auto times = play(cues, bank, count);
        all.insert(all.end(), times.begin(), times.end());
        for (std::size_t i = 0; i < count; ++i) fastest[i] = std::min(fastest[i], times[i]);
    }
    const Measurement every(std::move(all));
    const Measurement own(std::move(fastest));
    return {{fmt::format("block of {}, {}", block_frames, what), every,
             worst_of_period(every.slowest())},
            {fmt::format("  each block's fastest of {} runs", runs + 1), own,
             worst_of_period(own.slowest())}};
}

/// A chord of six strings on every beat and every off-beat, each as long as a beat.
void add_guitar(std::vector<sound::Cue>& cues, const roadmap::RoadMap& map) {
    const time::Ticks eighth(time::quarter_note.count() / 2);
    for (time::Ticks at; at < map.end(); at += eighth) {
        for (int string = 0; string < 6; ++string) {
            sound::Cue cue;
            cue.at = time::nearest_frame(map.time_of(at), rate);
            cue.stop = time::nearest_frame(map.time_of(at + eighth * 2), rate);
            cue.sound = sound::guitar(harmony::MidiNote(43 + 5 * string));
            cues.push_back(cue);
        }
    }
    std::stable_sort(cues.begin(), cues.end(),
                     [](const sound::Cue& a, const sound::Cue& b) { return a.at < b.at; });
}

/// A chorus of the band and of a guitarist who plays more than anybody does.
std::vector<sound::Cue> busy_chorus() {
    const auto form = aaba();
    auto asked = roadmap::Asked::of(form.whole(), 1);
    asked.count_in_bars = 0;
    const roadmap::RoadMap map(form, asked);
    band::Players players;
    players.fills = players.crash = true;
    auto cues = band::place(band::arrange(map, players), map, rate, time::Frames(0));
    add_guitar(cues, map);
    return cues;
}

/// Every voice sounds and a stroke starts on every fourth frame: nothing costs the mixer more.
std::vector<sound::Cue> full_mixer() {
    std::vector<sound::Cue> cues;
    constexpr std::int64_t apart = 4;
    for (std::int64_t at = 0; at < rate.hz(); at += apart) {
        sound::Cue cue;
        cue.at = time::Frames(at);
        cue.sound = sound::ride;
        cue.gain = 0.02F;
        cues.push_back(cue);
    }
    return cues;
}

}  // namespace

std::vector<Row> blocks(Pace pace) {
    const sound::Bank bank(rate, sound::Bank::Guitar::with);
    auto rows = measure_blocks(pace, "band and busy guitar", busy_chorus(), bank);
    const auto full = fmt::format("all {} voices, 16 starts", sound::Mixer::voice_count);
    for (auto& row : measure_blocks(pace, full, full_mixer(), bank)) {
        rows.push_back(std::move(row));
    }
    return rows;
}

}  // namespace compline::bench
