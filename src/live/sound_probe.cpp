#include <compline/live/sound_probe.hpp>

#include <algorithm>
#include <utility>

namespace compline::live {

SoundProbe::SoundProbe(std::vector<float> sound, std::size_t length)
    : sound_(std::move(sound)), heard_(length) {}

void SoundProbe::run(const Block& block) noexcept {
    const auto frames = static_cast<std::size_t>(block.frames);
    for (std::size_t i = 0; i < frames; ++i) {
        block.left[i] = played_ + i < sound_.size() ? sound_[played_ + i] : 0.0F;
    }
    std::copy_n(block.left, frames, block.right);
    // What was heard before the first frame is nobody's.
    const std::size_t before = std::min(
        frames, std::size_t(block.heard_ago) - std::min(played_, std::size_t(block.heard_ago)));
    played_ += frames;
    const std::size_t first = complete_.load(std::memory_order_relaxed);
    const std::size_t kept = std::min(frames - before, heard_.size() - first);
    if (block.heard != nullptr) {
        std::copy_n(block.heard + before, kept,
                    heard_.begin() + static_cast<std::ptrdiff_t>(first));
    }
    // The first block of all may begin in the midst of a cycle that was lost before it.
    if (block.interrupted && first > 0 && kept > 0) {
        interruptions_.store(interruptions_.load(std::memory_order_relaxed) + 1,
                             std::memory_order_relaxed);
    }
    complete_.store(first + kept, std::memory_order_release);
}

std::span<const float> SoundProbe::heard() const noexcept {
    return std::span(heard_).first(complete_.load(std::memory_order_acquire));
}

}  // namespace compline::live
