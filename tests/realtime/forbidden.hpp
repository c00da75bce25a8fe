#pragma once

#include <string>

namespace compline::tests {

/// What an audio thread must not call, because it may wait: counted while a guard lives.
struct Forbidden {
    int allocations = 0;  ///< malloc and its kin, and so operator new
    int releases = 0;     ///< free
    int locks = 0;        ///< mutexes, read-write locks, spin locks
    int conditions = 0;   ///< waiting for and signalling conditions, semaphores
    int writes = 0;       ///< write and writev
    [[nodiscard]] int total() const { return allocations + releases + locks + conditions + writes; }
    [[nodiscard]] std::string text() const;
};

/// While it lives, this thread's calls are counted. One at a time a thread.
class RealtimeGuard {
  public:
    RealtimeGuard();
    ~RealtimeGuard();
    RealtimeGuard(const RealtimeGuard&) = delete;
    RealtimeGuard& operator=(const RealtimeGuard&) = delete;
};

/// What this thread did under guards since the last call of this.
Forbidden take_forbidden();

}  // namespace compline::tests
