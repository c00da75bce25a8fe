#pragma once

#include <sys/types.h>

#include <string>

namespace compline::tests {

/// A JACK server of the test's own: its dummy driver needs no sound card (48 kHz, periods of 256
/// frames), its name and its own shared memory keep it apart from a server that a player has
/// running. It is made the default server of this process and gone, with all it left, when this
/// object is.
class JackServer {
  public:
    /// Returns once the server takes clients, or after ten seconds without: see log().
    JackServer();
    ~JackServer();
    JackServer(const JackServer&) = delete;
    JackServer& operator=(const JackServer&) = delete;

    /// What the server printed, for the message of a test that fails.
    [[nodiscard]] std::string log() const;

    /// Is jackd on this machine? Absent: prints "SKIPPED: ..." and says no, so that CTest shows the
    /// test as skipped; with COMPLINE_REQUIRE_DATA=1 the test fails instead.
    [[nodiscard]] static bool installed();

  private:
    [[nodiscard]] bool takes_clients() const;

    std::string name_;
    std::string log_file_;
    pid_t process_;
};

}  // namespace compline::tests
