#pragma once

namespace compline::sound {

/// While it lives, this thread's floating point takes denormal numbers for zero. A decaying sound
/// otherwise ends in numbers so small that each costs a hundred cycles. Does nothing on processors
/// whose switch is not known here; sounds are then right, and slower at their very end.
///
/// Threads: any
/// Real-time: yes
class ScopedFlushToZero {
  public:
    ScopedFlushToZero() noexcept;
    ~ScopedFlushToZero();
    ScopedFlushToZero(const ScopedFlushToZero&) = delete;
    ScopedFlushToZero& operator=(const ScopedFlushToZero&) = delete;

  private:
    unsigned long long before_ = 0;
};

}  // namespace compline::sound
