#pragma once

#include <compline/live/playback.hpp>

#include <atomic>

namespace compline::live {

/// Between the audio thread and a playback: it can be plugged in while the thread calls, and pulled
/// while it calls. Who has pulled it may destroy the playback even where the thread cannot be
/// stopped, as that of a stream whose server has died.
class Outlet {
  public:
    /// `playback` must live until pull().
    ///
    /// Threads: any but the audio thread
    void plug(Playback& playback) noexcept { playback_.store(&playback); }

    /// Returns when the audio thread has let go of the playback: at once, or after the block that
    /// is being made.
    ///
    /// Threads: any but the audio thread
    void pull() noexcept;

    /// Makes the next block (Playback::play). False, and nothing is written, while nothing is
    /// plugged in.
    ///
    /// Threads: audio only
    /// Real-time: yes
    bool play(float* left, float* right, int frames, bool interrupted) noexcept;

  private:
    // One order of all four accesses: either the audio thread sees that the playback is gone, or
    // pull() sees that it is still used.
    std::atomic<Playback*> playback_{nullptr};
    std::atomic<bool> in_use_{false};
    static_assert(std::atomic<Playback*>::is_always_lock_free);
    static_assert(std::atomic<bool>::is_always_lock_free);
};

}  // namespace compline::live
