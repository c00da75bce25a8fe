#include <compline/live/conductor_thread.hpp>

#include <algorithm>

namespace compline::live {

namespace {

constexpr time::Seconds look_in{0.02};

/// From the command to the first stroke, so that the fed cues are there before their frame comes.
constexpr time::Seconds run_up{0.1};
/// The block that is being made may lie all behind what made() says, and feeding takes a while.
constexpr int periods_of_run_up = 2;

}  // namespace

ConductorThread::ConductorThread(practice::Conductor& conductor, Playback& playback, int period,
                                 Clock& clock)
    : conductor_(conductor),
      playback_(playback),
      clock_(clock),
      run_up_(std::max(time::nearest_frame(run_up, playback.rate()),
                       time::Frames(std::int64_t{periods_of_run_up} * period))),
      thread_([this] { run(); }) {}

ConductorThread::~ConductorThread() {
    {
        const std::lock_guard lock(mutex_);
        ending_ = true;
    }
    wake_.notify_one();
    thread_.join();
}

time::Frames ConductorThread::start(const std::optional<roadmap::RoadMap>& map) {
    const std::lock_guard lock(mutex_);
    auto& mixer = playback_.mixer();
    mixer.start_over();
    void_from_.reset();
    const auto first = playback_.made() + run_up_;
    if (map) {
        conductor_.start(first, *map);
    } else {
        conductor_.start(first);
    }
    playing_ = true;
    feed();
    return conductor_.zero();
}

void ConductorThread::follow(const roadmap::RoadMap& map, std::int64_t from_bar) {
    const std::lock_guard lock(mutex_);
    const auto from = conductor_.follow(map, from_bar);
    if (!playing_) return;
    void_from_ = std::min(void_from_.value_or(from), from);
    feed();
}

void ConductorThread::stop() {
    const std::lock_guard lock(mutex_);
    playing_ = false;
    playback_.mixer().start_over();
}

/// One that found no room is offered again, and is late at the worst.
std::uint64_t ConductorThread::missed() const { return playback_.mixer().counts().late; }

void ConductorThread::feed() {
    // Two decisions within a block: the second waits for the next look-in. What would be fed now
    // might come before what is to be forgotten.
    if (void_from_ && !playback_.mixer().replace_from(*void_from_)) return;
    void_from_.reset();
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
