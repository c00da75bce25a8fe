#include <compline/live/playback.hpp>

#include <readerwriterqueue/readerwriterqueue.h>

#include <algorithm>

namespace compline::live {

namespace {

/// Two seconds and more of the smallest periods in use (32 frames at 48 kHz).
constexpr std::size_t most_stamps = 4096;

}  // namespace

struct Playback::Stamps : moodycamel::ReaderWriterQueue<time::Stamp> {
    using ReaderWriterQueue::ReaderWriterQueue;
};

Playback::Playback(const sound::Bank& bank, const DeviceClock* device, const Clock& clock,
                   SoundEar* ear)
    : rate_(bank.rate()),
      mixer_(bank),
      device_(device),
      ear_(ear),
      clock_(clock),
      stamps_(std::make_unique<Stamps>(most_stamps)) {}

Playback::~Playback() = default;

void Playback::run(const Block& block) noexcept {
    time::Stamp stamp;
    stamp.called = clock_.now();
    stamp.first = made();
    stamp.frames = block.frames;
    stamp.interrupted = block.interrupted;
    stamp.has_device_frame = device_ != nullptr;
    if (device_ != nullptr) stamp.device_frame = device_->frame();
    stamps_->try_enqueue(stamp);
    mixer_.render(stamp.first, block.left, block.right, block.frames);
    if (ear_ != nullptr && block.heard != nullptr) {
        ear_->hear(stamp.first - time::Frames(block.heard_ago), block.heard, block.frames);
    }
    made_.store(stamp.first.count() + block.frames, std::memory_order_release);
    const std::int64_t took = clock_.now().nanoseconds() - stamp.called.nanoseconds();
    if (took > worst_ns_.load(std::memory_order_relaxed)) {
        worst_ns_.store(took, std::memory_order_relaxed);
    }
}

bool Playback::read(time::Stamp& stamp) noexcept { return stamps_->try_dequeue(stamp); }

time::Seconds Playback::worst() const noexcept {
    return time::Seconds(static_cast<double>(worst_ns_.load(std::memory_order_relaxed)) / 1e9);
}

}  // namespace compline::live
