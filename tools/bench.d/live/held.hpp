#pragma once

#include <sys/types.h>

namespace compline::bench {

/// What a process holds, in MB: its own, and what it shares with the JACK server, which is the
/// server's (every client maps all of its port buffers).
struct Held {
    double own = 0;
    double shared = 0;
};

/// Throws std::runtime_error when there is no such process.
[[nodiscard]] Held held_by(pid_t process);

}  // namespace compline::bench
