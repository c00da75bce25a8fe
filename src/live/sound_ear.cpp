#include <compline/live/sound_ear.hpp>

#include <readerwriterqueue/readerwriterqueue.h>

#include <algorithm>

namespace compline::live {

namespace {

/// Of the largest pieces: 2.7 s at 48 kHz, half a second of periods of 48 frames. The main loop
/// reads a hundred times a second.
constexpr std::size_t most_pieces = 512;

}  // namespace

struct SoundEar::Pieces : moodycamel::ReaderWriterQueue<SoundPiece> {
    using ReaderWriterQueue::ReaderWriterQueue;
};

SoundEar::SoundEar(time::SampleRate rate)
    : rate_(rate), pieces_(std::make_unique<Pieces>(most_pieces)) {}

SoundEar::~SoundEar() = default;

void SoundEar::hear(time::Frames first, const float* samples, int frames) noexcept {
    const int most = static_cast<int>(next_.samples.size());
    for (int done = 0; done < frames; done += next_.count) {
        next_.first = first + time::Frames(done);
        next_.count = std::min(most, frames - done);
        std::copy_n(samples + done, next_.count, next_.samples.begin());
        if (!pieces_->try_enqueue(next_)) dropped_.fetch_add(1, std::memory_order_relaxed);
    }
}

bool SoundEar::read(SoundPiece& piece) noexcept { return pieces_->try_dequeue(piece); }

}  // namespace compline::live
