#pragma once

#include <compline/time/units.hpp>

#include <condition_variable>
#include <mutex>

namespace compline::live {

/// The clock that a rig goes by, and sleeps by. It is passed in: with the steady clock an evening
/// lasts as long as it lasts, with a scripted one it is over in a moment.
class Clock {
  public:
    Clock() = default;
    virtual ~Clock() = default;
    Clock(const Clock&) = delete;
    Clock& operator=(const Clock&) = delete;

    /// Never goes back.
    ///
    /// Threads: any
    /// Real-time: yes
    [[nodiscard]] virtual time::Instant now() const noexcept = 0;

    /// Lets go of the lock until somebody notifies, or so long; may return sooner. Without it a
    /// test could not know when the conductor has fed (2026-11-29).
    ///
    /// Threads: any but the audio thread
    virtual void wait(std::condition_variable& notified, std::unique_lock<std::mutex>& lock,
                      time::Seconds at_most) = 0;
};

/// The machine's own, which never leaps.
[[nodiscard]] Clock& steady_clock();

}  // namespace compline::live
