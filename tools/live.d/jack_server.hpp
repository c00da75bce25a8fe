#pragma once

#include <sys/types.h>

#include <string>

namespace compline::outside {

struct JackServerOptions {
    int period = 256;       ///< frames a cycle
    int rate = 48000;       ///< frames a second
    bool realtime = false;  ///< asks for real-time scheduling; not every system gives it
    bool patient = true;    ///< waits for clients that are late
};

/// A JACK server of the trial's own: its dummy driver needs no sound card, its name and its own
/// shared memory keep it apart from a server that a player has running, and from others of the same
/// trial. It is the default server of this process until another is made or it is gone, and gone,
/// with all it left, when this object is.
///
/// A patient one waits for its clients (jackd's synchronous mode), so that on a busy machine cycles
/// come late but no sound is lost and all clients count the same frames; an impatient one goes on
/// without those that are late, as a sound card would.
///
/// Threads: one only. Several servers may be there at once, but a process is a client of one at a
/// time: libjack (jackd2 1.9.21) keeps one server's memory a process, and with clients on two of
/// them all see the first's.
class JackServer {
  public:
    /// Returns once the server takes clients. Throws std::runtime_error, with what the server
    /// printed, when it did not within ten seconds.
    explicit JackServer(JackServerOptions options = {});
    ~JackServer();
    JackServer(const JackServer&) = delete;
    JackServer& operator=(const JackServer&) = delete;

    /// Ends it as a crash does: nothing is tidied up and no client is told.
    void kill_hard();

    /// What clients call it (JACK_DEFAULT_SERVER).
    [[nodiscard]] const std::string& name() const { return name_; }

    /// What the server printed, for when something fails.
    [[nodiscard]] std::string log() const;

    /// Is jackd on this machine's PATH?
    [[nodiscard]] static bool installed();

  private:
    [[nodiscard]] bool takes_clients() const;
    void leave();
    void end();
    void remove_leftovers() const;

    std::string name_;
    std::string log_file_;
    pid_t process_;  ///< -1 once ended
};

}  // namespace compline::outside
