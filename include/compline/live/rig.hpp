#pragma once

#include <compline/live/clock.hpp>
#include <compline/live/conductor_thread.hpp>
#include <compline/live/gear.hpp>
#include <compline/live/watched_port.hpp>
#include <compline/practice/conductor.hpp>
#include <compline/practice/machine.hpp>
#include <compline/practice/session.hpp>

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace compline::live {

/// Everything that is plugged together for a practice session: the band on its way to the ear, the
/// guitar on its way in, and the session that gives both one time. Gear and clock are passed in: a
/// test's own make a whole evening of it without a device, watched by the thread sanitizer.
///
/// The stream's thread calls Playback and leaves stamps. The conductor's feeds it strokes two bars
/// ahead; it shares a mutex with start() and stop(), under which alone cues are pushed. The
/// source's collects MIDI in a queue. The main thread hands stamps and messages to the session.
///
/// Threads: main only; the threads inside are its own.
class Rig {
  public:
    /// Lets silence run. The clock must outlive it. Throws DeviceError, and std::logic_error when
    /// the gear has not got the sounds that the players need.
    Rig(Gear gear, const roadmap::RoadMap& map, const band::Players& players,
        const band::Stage& stage, Clock& clock = steady_clock());
    ~Rig() = default;
    Rig(const Rig&) = delete;
    Rig& operator=(const Rig&) = delete;

    /// The band begins, or starts over; by another map where one is given, else by the one it
    /// played last, with all that was decided.
    void start(const std::optional<roadmap::RoadMap>& map = std::nullopt);
    /// The band goes on by another map, the same before `from_bar`: a bar that begins a quarter of
    /// a second or more from now.
    void follow(const roadmap::RoadMap& map, std::int64_t from_bar);
    /// The band falls silent; what is played is still heard.
    void stop() { conductor_thread_.stop(); }

    /// Takes in what the threads left since the last call, and looks after the cables; gives what
    /// is new of the take. The guitar's messages wait for nothing of the pedal's.
    practice::Played listen();

    /// Of the guitar and of a pedal with a port of its own: see WatchedPort.
    [[nodiscard]] const WatchedPort& guitar() const { return guitar_; }
    [[nodiscard]] const WatchedPort& pedal() const { return pedal_; }
    /// What comes by a sound input beside MIDI, for one reader; none: there is none such.
    [[nodiscard]] SoundEar* ear() const { return ear_.get(); }

    /// That the band follows.
    [[nodiscard]] const roadmap::RoadMap& map() const { return map_; }
    [[nodiscard]] const practice::Session& session() const { return session_; }
    [[nodiscard]] time::Seconds now() const { return session_.now(clock_.now()); }

    /// Why it cannot go on, in words for the player; empty while all is well. A stream that gives
    /// no sign of life for half a second is dead, whatever its library says of it; unless nobody
    /// asked for a quarter of a second: then it was the program that stood still (Ctrl-Z), and the
    /// stream is given the time anew. A cable is no reason: see guitar().
    [[nodiscard]] std::string trouble();

    /// How the machine bore up so far.
    [[nodiscard]] practice::Machine machine() const;

  private:
    time::Instant wake_up();
    [[nodiscard]] bool is_silent_too_long(time::Instant moment) const;
    [[nodiscard]] std::string why_silent();

    Clock& clock_;
    std::unique_ptr<SoundEar> ear_;
    WatchedPort guitar_;  // which may hear by that ear
    WatchedPort pedal_;
    std::shared_ptr<const sound::Bank> bank_;
    Playback playback_;
    practice::Conductor conductor_;
    ConductorThread conductor_thread_;
    roadmap::RoadMap map_;
    std::optional<time::Seconds> round_trip_;  // measured
    practice::Session session_;
    std::vector<listen::Arrival> arrivals_;
    std::vector<listen::Arrival> from_pedal_;
    time::Instant awake_since_;            // the program has turned without a long pause since then
    time::Instant last_turn_;              // when the last one began
    std::unique_ptr<AudioStream> stream_;  // last, and so the first to go: it uses all the rest
};

}  // namespace compline::live
