#pragma once

#include <compline/live/clock.hpp>
#include <compline/live/playback.hpp>
#include <compline/practice/conductor.hpp>

#include <condition_variable>
#include <cstdint>
#include <mutex>
#include <optional>
#include <thread>

namespace compline::live {

/// The thread that keeps a playback fed with the band's strokes. It looks in every 20 ms and runs
/// two bars ahead, so it may be late by a second at any tempo before one is missed; strokes that
/// come too late all the same are counted by the mixer.
class ConductorThread {
  public:
    /// All must outlive it. Nobody else may push cues or touch the conductor meanwhile. period: the
    /// frames that the playback is asked for at once.
    ConductorThread(practice::Conductor& conductor, Playback& playback, int period,
                    Clock& clock = steady_clock());
    ~ConductorThread();
    ConductorThread(const ConductorThread&) = delete;
    ConductorThread& operator=(const ConductorThread&) = delete;

    /// Starts over: what sounds fades, and the count-in begins as soon as all is fed. Gives the
    /// frame of bar 1 beat 1. Returns when the first strokes are handed over. By another map, where
    /// one is given.
    ///
    /// Threads: any but the audio thread
    time::Frames start(const std::optional<roadmap::RoadMap>& map = std::nullopt);

    /// Goes on by another map, the same before `from_bar`; see practice::Conductor::follow().
    ///
    /// Threads: any but the audio thread
    void follow(const roadmap::RoadMap& map, std::int64_t from_bar);

    /// Silence: what sounds fades, and nothing more is fed.
    ///
    /// Threads: any but the audio thread
    void stop();

    /// Strokes that were not played because they came too late.
    [[nodiscard]] std::uint64_t missed() const;

  private:
    void run();
    void feed();

    practice::Conductor& conductor_;
    Playback& playback_;
    Clock& clock_;
    time::Frames run_up_;
    std::mutex mutex_;
    std::condition_variable wake_;
    // From which frame on the mixer is still to forget what it has, before it is fed again.
    std::optional<time::Frames> void_from_;
    bool playing_ = false;
    bool ending_ = false;
    std::thread thread_;  // last: it runs from the start
};

}  // namespace compline::live
