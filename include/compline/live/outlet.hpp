#pragma once

#include <compline/live/audio_task.hpp>

#include <atomic>

namespace compline::live {

/// Between the audio thread and what it is to do: that can be plugged in while the thread calls,
/// and pulled while it calls. Who has pulled it may destroy it even where the thread cannot be
/// stopped, as that of a stream whose server has died.
class Outlet {
  public:
    /// `task` must live until pull().
    ///
    /// Threads: any but the audio thread
    void plug(AudioTask& task) noexcept { task_.store(&task); }

    /// Returns when the audio thread has let go of the task: at once, or after the block that is
    /// being made.
    ///
    /// Threads: any but the audio thread
    void pull() noexcept;

    /// Makes the next block. False, and nothing is written, while nothing is plugged in.
    ///
    /// Threads: audio only
    /// Real-time: yes
    bool run(const AudioTask::Block& block) noexcept;

  private:
    // One order of all four accesses: either the audio thread sees that the task is gone, or
    // pull() sees that it is still used.
    std::atomic<AudioTask*> task_{nullptr};
    std::atomic<bool> in_use_{false};
    static_assert(std::atomic<AudioTask*>::is_always_lock_free);
    static_assert(std::atomic<bool>::is_always_lock_free);
};

}  // namespace compline::live
