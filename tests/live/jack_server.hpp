#pragma once

#include <sys/types.h>

#include <string>

namespace compline::tests {

struct JackServerOptions {
    int period = 256;       ///< frames a cycle
    int rate = 48000;       ///< frames a second
    bool realtime = false;  ///< asks for real-time scheduling; not every system gives it
};

/// A JACK server of the test's own: its dummy driver needs no sound card, its name and its own
/// shared memory keep it apart from a server that a player has running, and from others of the same
/// test. It is the default server of this process until another is made or it is gone, and gone,
/// with all it left, when this object is.
///
/// Threads: one only. Several servers may be there at once, but a process is a client of one at a
/// time: libjack (jackd2 1.9.21) keeps one server's memory a process, and with clients on two of
/// them all see the first's.
class JackServer {
  public:
    /// Returns once the server takes clients, or after ten seconds without: see log().
    explicit JackServer(JackServerOptions options = {});
    ~JackServer();
    JackServer(const JackServer&) = delete;
    JackServer& operator=(const JackServer&) = delete;

    /// Ends it as a crash does: nothing is tidied up and no client is told.
    void kill_hard();

    /// What clients call it (JACK_DEFAULT_SERVER).
    [[nodiscard]] const std::string& name() const { return name_; }

    /// What the server printed, for the message of a test that fails.
    [[nodiscard]] std::string log() const;

    /// Is jackd on this machine? Absent: prints "SKIPPED: ..." and says no, so that CTest shows the
    /// test as skipped; with COMPLINE_REQUIRE_DATA=1 the test fails instead.
    [[nodiscard]] static bool installed();

  private:
    [[nodiscard]] bool takes_clients() const;
    void end();
    void remove_leftovers() const;

    std::string name_;
    std::string log_file_;
    pid_t process_;  ///< -1 once ended
};

}  // namespace compline::tests
