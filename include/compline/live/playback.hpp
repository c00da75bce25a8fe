#pragma once

#include <compline/live/audio_task.hpp>
#include <compline/live/clock.hpp>
#include <compline/live/sound_ear.hpp>
#include <compline/sound/mixer.hpp>
#include <compline/time/clock_map.hpp>

#include <atomic>
#include <cstdint>
#include <memory>
#include <type_traits>

namespace compline::live {

/// Tells which number a device gives the first frame of the audio cycle that is being computed.
class DeviceClock {
  public:
    DeviceClock() = default;
    virtual ~DeviceClock() = default;
    DeviceClock(const DeviceClock&) = delete;
    DeviceClock& operator=(const DeviceClock&) = delete;

    /// Threads: audio only
    /// Real-time: yes
    [[nodiscard]] virtual std::uint32_t frame() const noexcept = 0;
};

/// The band in the audio callback: the mixer makes the block, a stamp says which frames they were
/// and when, and what is heard goes to an ear. Knows no device; a test calls it as a device would.
///
/// Stamps go by a queue to one reader; one that finds it full is lost, which the clock map bears.
class Playback : public AudioTask {
  public:
    /// All must outlive it. device: none where frames are not numbered; ear: none where nothing is
    /// heard.
    explicit Playback(const sound::Bank& bank, const DeviceClock* device = nullptr,
                      const Clock& clock = steady_clock(), SoundEar* ear = nullptr);
    ~Playback() override;

    void run(const Block& block) noexcept override;

    [[nodiscard]] time::SampleRate rate() const { return rate_; }

    /// The cues' way in: see Mixer about its threads.
    [[nodiscard]] sound::Mixer& mixer() { return mixer_; }

    /// The oldest stamp that was not read yet; false when there is none.
    ///
    /// Threads: reader only
    /// Real-time: yes
    bool read(time::Stamp& stamp) noexcept;

    // Threads: any
    // Real-time: yes

    /// Frames made so far.
    [[nodiscard]] time::Frames made() const noexcept {
        return time::Frames(made_.load(std::memory_order_acquire));
    }
    /// The longest time that a call of play() took, interruptions by the system included.
    [[nodiscard]] time::Seconds worst() const noexcept;

  private:
    time::SampleRate rate_;
    sound::Mixer mixer_;
    const DeviceClock* device_;
    SoundEar* ear_;
    const Clock& clock_;
    struct Stamps;
    std::unique_ptr<Stamps> stamps_;
    std::atomic<std::int64_t> made_{0};
    std::atomic<std::int64_t> worst_ns_{0};
    static_assert(std::atomic<std::int64_t>::is_always_lock_free);
};

}  // namespace compline::live
