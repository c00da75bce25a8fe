#pragma once

#include "../../tools/live.d/jack_server.hpp"

namespace compline::tests {

/// A JACK server of the test's own, for as long as this is there.
class JackServer : public outside::JackServer {
  public:
    using outside::JackServer::JackServer;

    /// Is jackd on this machine? Absent: prints "SKIPPED: ..." and says no, so that CTest shows the
    /// test as skipped; with COMPLINE_REQUIRE_DATA=1 the test fails instead.
    [[nodiscard]] static bool installed();
};

}  // namespace compline::tests
