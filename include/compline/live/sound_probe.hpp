#pragma once

#include <compline/live/audio_task.hpp>

#include <atomic>
#include <cstddef>
#include <span>
#include <vector>

namespace compline::live {

/// Plays a sound once, on both sides, and keeps what is heard meanwhile and a while longer, frame
/// for frame: what was heard in frame n came in by the callback that played frame n.
///
/// Shared with the audio thread, which writes: the frames heard so far, and how often sound was
/// lost. Whoever reads sees what was complete before.
class SoundProbe : public AudioTask {
  public:
    /// `length`: frames to be heard; all the room is taken here.
    SoundProbe(std::vector<float> sound, std::size_t length);

    void run(const Block& block) noexcept override;

    // Threads: any
    /// As far as it was heard by now.
    [[nodiscard]] std::span<const float> heard() const noexcept;
    [[nodiscard]] bool is_done() const noexcept { return heard().size() == heard_.size(); }
    /// How often sound was lost since it began.
    [[nodiscard]] int interruptions() const noexcept {
        return interruptions_.load(std::memory_order_relaxed);
    }

  private:
    std::vector<float> sound_;
    std::size_t played_ = 0;    ///< frames; the audio thread's own
    std::vector<float> heard_;  ///< what lies before complete_ stays as it is
    std::atomic<std::size_t> complete_{0};
    std::atomic<int> interruptions_{0};
};

}  // namespace compline::live
