#pragma once

#include <memory>

namespace compline::live {

/// Stays on the JACK server, if one runs, while its devices are asked for and opened. libjack maps
/// and locks all of the server's memory (100 MB by jackd's default) for the first client of a
/// process, and lets it go with the last; the device libraries open a client for every question.
/// With one that stays, each of them takes a few milliseconds instead of some forty.
///
/// Without a server, or built without libjack, it does nothing. Throws nothing. Threads: one at a
/// time.
class JackPresence {
  public:
    JackPresence();

    /// Leaves; before the music starts, so that the server has no client that plays nothing.
    void end() { client_.reset(); }

  private:
    std::shared_ptr<void> client_;
};

}  // namespace compline::live
