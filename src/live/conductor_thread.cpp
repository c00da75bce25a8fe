#include <compline/live/conductor_thread.hpp>

namespace compline::live {

namespace {

constexpr time::Seconds look_in{0.02};

/// From the command to the first stroke: several periods of the largest in use, so that the fed
/// cues are there before their frame comes.
constexpr time::Seconds run_up{0.1};

}  // namespace

ConductorThread::ConductorThread(practice::Conductor& conductor, Playback& playback, Clock& clock)
    : conductor_(conductor), playback_(playback), clock_(clock), thread_([this] { run(); }) {}

ConductorThread::~ConductorThread() {
    {
        const std::lock_guard lock(mutex_);
        ending_ = true;
    }
    wake_.notify_one();
    thread_.join();
}

time::Frames ConductorThread::start() {
    const std::lock_guard lock(mutex_);
    auto& mixer = playback_.mixer();
    mixer.start_over();
    conductor_.start(playback_.made() + time::nearest_frame(run_up, playback_.rate()));
    playing_ = true;
    feed();
    return conductor_.zero();
}

void ConductorThread::stop() {
    const std::lock_guard lock(mutex_);
    playing_ = false;
    playback_.mixer().start_over();
}

std::uint64_t ConductorThread::missed() const {
    const auto counts = playback_.mixer().counts();
    return counts.late + counts.dropped;
}

void ConductorThread::feed() {
    conductor_.feed(playback_.made(),
                    [this](const sound::Cue& cue) { return playback_.mixer().push(cue); });
}

void ConductorThread::run() {
    std::unique_lock lock(mutex_);
    while (!ending_) {
        if (playing_) feed();
        clock_.wait(wake_, lock, look_in);
    }
}

}  // namespace compline::live
