#include "click_recording.hpp"

#include <algorithm>
#include <cmath>

namespace compline::jack {

ClickRecording::ClickRecording(float threshold, std::size_t capacity) : threshold_(threshold) {
    sound_.left.resize(capacity);
    sound_.right.resize(capacity);
}

std::optional<std::int64_t> ClickRecording::add(const float* left, const float* right,
                                                std::uint32_t frames) {
    std::uint32_t from = 0;
    if (!clicked()) {
        from = find_click(left, right, frames);
        if (from == frames) return std::nullopt;
    }
    const std::int64_t first = next_ - from;
    keep(left + from, right + from, frames - from);
    next_ += frames - from;
    clicked_.store(true, std::memory_order_release);
    return first;
}

std::uint32_t ClickRecording::find_click(const float* left, const float* right,
                                         std::uint32_t frames) const {
    for (std::uint32_t i = 0; i < frames; ++i) {
        if (std::fabs(left[i]) > threshold_ || std::fabs(right[i]) > threshold_) return i;
    }
    return frames;
}

void ClickRecording::keep(const float* left, const float* right, std::size_t frames) {
    const std::size_t size = size_.load(std::memory_order_relaxed);
    const std::size_t kept = std::min(frames, capacity() - size);
    std::copy_n(left, kept, sound_.left.data() + size);
    std::copy_n(right, kept, sound_.right.data() + size);
    size_.store(size + kept, std::memory_order_release);
}

sound::Stereo ClickRecording::sound() const {
    const auto end = static_cast<std::ptrdiff_t>(size());
    return {{sound_.left.begin(), sound_.left.begin() + end},
            {sound_.right.begin(), sound_.right.begin() + end}};
}

}  // namespace compline::jack
