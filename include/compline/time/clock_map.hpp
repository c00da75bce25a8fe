#pragma once

#include <compline/time/units.hpp>

#include <cstdint>
#include <deque>
#include <type_traits>
#include <vector>

namespace compline::time {

/// What an audio callback says of itself: which frames it makes, and when it was called.
struct Stamp {
    Frames first;                    ///< first frame of its block; the stream's own count, from 0
    int frames = 0;                  ///< how many: the period
    Instant called;                  ///< the steady clock, read first thing
    std::uint32_t device_frame = 0;  ///< the server's own number of `first`, with `has_device_frame`
    bool has_device_frame = false;
    bool interrupted = false;  ///< the API says that sound was lost before this block (an xrun)
};
static_assert(std::is_trivially_copyable_v<Stamp>);

// (class ClockMap: being written)

}  // namespace compline::time
