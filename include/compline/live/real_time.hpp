#pragma once

#include <optional>

namespace compline::live {

/// The real-time priority that the system lets a thread of this program have, for the thread that
/// asks for sound: no other program then makes it wait. None: the system grants none.
///
/// Linux: scheduling SCHED_RR, within RLIMIT_RTPRIO where that is set; tried out on a thread of its
/// own. 70 where more is allowed: above most of what a desktop runs, below what the kernel needs
/// (common practice, no source). Through JACK the server decides what its clients ask for.
///
/// Threads: any but the audio thread.
[[nodiscard]] std::optional<int> real_time_priority();

}  // namespace compline::live
