#include "waiting_cues.hpp"

#include <compline/sound/flush_to_zero.hpp>
#include <compline/sound/mixer.hpp>

#include <readerwriterqueue/readerwriterqueue.h>

#include <algorithm>
#include <cmath>

namespace compline::sound {

namespace {

/// A cue of a run before the last start over is not played; one that was pushed before the last
/// replacement, only where that does not reach.
struct Queued {
    Cue cue;
    std::uint32_t run;
    std::uint32_t replacements;
};

}  // namespace

struct Mixer::Queue : moodycamel::ReaderWriterQueue<Queued> {
    using ReaderWriterQueue::ReaderWriterQueue;
};

Mixer::Mixer(const Bank& bank, std::size_t queue)
    : bank_(bank),
      release_frames_(time::nearest_frame(release, bank.rate()).count()),
      queue_(std::make_unique<Queue>(queue)),
      waiting_(std::make_unique<WaitingCues>(queue)) {}

Mixer::~Mixer() = default;

bool Mixer::push(const Cue& cue) noexcept {
    const auto run = run_.load(std::memory_order_relaxed);
    if (queue_->try_enqueue({cue, run, replacements_.load(std::memory_order_relaxed)})) return true;
    dropped_.fetch_add(1, std::memory_order_relaxed);
    return false;
}

void Mixer::start_over() noexcept { run_.fetch_add(1, std::memory_order_release); }

bool Mixer::replace_from(time::Frames frame) noexcept {
    const auto made = replacements_.load(std::memory_order_relaxed);
    if (replacements_done_.load(std::memory_order_acquire) != made) return false;
    replaced_from_ = frame;
    replacements_.store(made + 1, std::memory_order_release);
    return true;
}

void Mixer::render(time::Frames first, float* left, float* right, int frames) noexcept {
    const ScopedFlushToZero no_denormals;
    std::fill_n(left, frames, 0.0F);
    std::fill_n(right, frames, 0.0F);
    const std::int64_t begin = first.count();
    const std::int64_t end = begin + frames;
    forget_old(begin);
    std::int64_t from = begin;
    while (from < end) {
        start_due(from);
        const std::int64_t to = std::min(next_start(end), end);
        for (const auto& voice : voices_) {
            if (voice.end > from)
                mix(voice, from, to, left + (from - begin), right + (from - begin));
        }
        from = to;
    }
}

Mixer::Counts Mixer::counts() const noexcept {
    return {dropped_.load(std::memory_order_relaxed), late_.load(std::memory_order_relaxed),
            stolen_.load(std::memory_order_relaxed)};
}

/// At a start over: what waits is dropped, what sounds is damped from here.
void Mixer::forget_old(std::int64_t frame) noexcept {
    const std::uint32_t run = run_.load(std::memory_order_acquire);
    if (run == playing_run_) return;
    playing_run_ = run;
    waiting_->clear();
    for (auto& voice : voices_) {
        voice.stop = std::min(voice.stop, frame);
        voice.end = std::min(voice.end, voice.stop + release_frames_);
    }
}

/// All that was pushed waits with the reader. So a replacement needs nothing of the queue for
/// longer than a moment, however far ahead it reaches, and the next may follow; and what it has
/// put out takes no room from what comes in its place.
void Mixer::take_in() noexcept {
    take_replacement();
    const Queued* next = queue_->peek();
    for (; next != nullptr; next = queue_->peek()) {
        // A cue of a newer run waits for the next block, which begins by letting go of the old; one
        // of a newer replacement until that is taken.
        if (next->run > playing_run_ || next->replacements > replacements_taken_) break;
        const bool replaced =
            next->replacements < replacements_taken_ && next->cue.at >= replaced_from_;
        if (next->run == playing_run_ && !replaced && !waiting_->push(next->cue)) break;
        queue_->pop();
    }
    // Nothing older is in the queue: as it was looked into after the replacement had been seen.
    if (next == nullptr || next->replacements >= replacements_taken_) {
        replacements_done_.store(replacements_taken_, std::memory_order_release);
    }
}

void Mixer::take_replacement() noexcept {
    const auto made = replacements_.load(std::memory_order_acquire);
    if (made == replacements_taken_) return;
    replacements_taken_ = made;
    waiting_->drop_from(replaced_from_);
}

void Mixer::start_due(std::int64_t frame) noexcept {
    take_in();
    for (const Cue* next = waiting_->front(); next != nullptr; next = waiting_->front()) {
        if (next->at.count() > frame) break;
        if (next->at.count() == frame) {
            start(*next);
        } else {
            late_.fetch_add(1, std::memory_order_relaxed);
        }
        waiting_->pop();
        if (waiting_->front() == nullptr) take_in();  // there may have been no room for all
    }
}

std::int64_t Mixer::next_start(std::int64_t otherwise) const noexcept {
    const Cue* next = waiting_->front();
    return next != nullptr ? next->at.count() : otherwise;
}

void Mixer::start(const Cue& cue) noexcept {
    const Samples& samples = bank_.samples(cue.sound);
    if (samples.empty()) return;
    Voice& voice = free_voice(cue.at.count());
    voice.samples = samples.data();
    voice.start = cue.at.count();
    voice.end = voice.start + static_cast<std::int64_t>(samples.size());
    voice.stop = std::min(cue.stop.count(), voice.end);
    voice.end = std::min(voice.end, voice.stop + release_frames_);
    // Equal power by square roots, which every machine rounds alike; sines and cosines are not.
    const float pan = std::clamp(cue.pan, -1.0F, 1.0F);
    voice.left = cue.gain * std::sqrt((1.0F - pan) * 0.5F);
    voice.right = cue.gain * std::sqrt((1.0F + pan) * 0.5F);
}

Mixer::Voice& Mixer::free_voice(std::int64_t frame) noexcept {
    Voice* oldest = &voices_[0];
    for (auto& voice : voices_) {
        if (voice.end <= frame) return voice;
        if (voice.start < oldest->start) oldest = &voice;
    }
    stolen_.fetch_add(1, std::memory_order_relaxed);
    return *oldest;
}

void Mixer::mix(const Voice& voice, std::int64_t from, std::int64_t to, float* left,
                float* right) const noexcept {
    const std::int64_t end = std::min(to, voice.end);
    const std::int64_t plain_end = std::clamp(voice.stop, from, end);
    const float* samples = voice.samples + (from - voice.start);
    const auto plain = static_cast<std::size_t>(plain_end - from);
    for (std::size_t i = 0; i < plain; ++i) {
        left[i] += voice.left * samples[i];
        right[i] += voice.right * samples[i];
    }
    const float slope = 1.0F / static_cast<float>(release_frames_);
    for (std::int64_t frame = plain_end; frame < end; ++frame) {
        const auto i = static_cast<std::size_t>(frame - from);
        const float fade = 1.0F - static_cast<float>(frame - voice.stop) * slope;
        left[i] += voice.left * fade * samples[i];
        right[i] += voice.right * fade * samples[i];
    }
}

}  // namespace compline::sound
