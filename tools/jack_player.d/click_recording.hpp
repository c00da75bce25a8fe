#pragma once

#include <compline/sound/wav.hpp>

#include <atomic>
#include <cstddef>
#include <cstdint>
#include <optional>

namespace compline::jack {

/// What is heard from the first click on: the sample that is the first beyond a threshold, on
/// either side, is number 0, and every frame after it counts, silent or not. Its room is taken in
/// the constructor; what comes after that is full is heard but not kept.
class ClickRecording {
  public:
    /// `threshold`: a sample's size, 0 to 1, that only a click exceeds.
    ClickRecording(float threshold, std::size_t capacity);

    /// The next block of both sides. Gives the number of the block's first frame, counted from the
    /// click (negative in the block that it is in), or nothing while there was no click yet.
    ///
    /// Threads: audio only
    /// Real-time: yes
    std::optional<std::int64_t> add(const float* left, const float* right, std::uint32_t frames);

    /// Frames kept so far.
    [[nodiscard]] std::size_t size() const { return size_.load(std::memory_order_acquire); }
    [[nodiscard]] std::size_t capacity() const { return sound_.left.size(); }
    [[nodiscard]] bool clicked() const { return clicked_.load(std::memory_order_acquire); }

    /// What was kept so far; may be asked for while more comes.
    [[nodiscard]] sound::Stereo sound() const;

  private:
    [[nodiscard]] std::uint32_t find_click(const float* left, const float* right,
                                           std::uint32_t frames) const;
    void keep(const float* left, const float* right, std::size_t frames);

    float threshold_;
    sound::Stereo sound_;    ///< as long as the capacity; what lies before size_ stays as it is
    std::int64_t next_ = 0;  ///< number of the frame that comes next; audio thread only
    std::atomic<std::size_t> size_ = 0;
    std::atomic<bool> clicked_ = false;
};

}  // namespace compline::jack
