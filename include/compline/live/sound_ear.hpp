#pragma once

#include <compline/time/units.hpp>

#include <array>
#include <atomic>
#include <cstdint>
#include <memory>

namespace compline::live {

/// What a sound input hears, on its way from the audio thread to one reader. Frames are those of
/// the stream that plays meanwhile: what is heard in frame n came in by the callback that made
/// frame n. A piece that finds no room is dropped, and counted.
class SoundEar {
  public:
    explicit SoundEar(time::SampleRate rate);
    ~SoundEar();
    SoundEar(const SoundEar&) = delete;
    SoundEar& operator=(const SoundEar&) = delete;

    [[nodiscard]] time::SampleRate rate() const { return rate_; }

    /// Takes in a block.
    ///
    /// Threads: audio only
    /// Real-time: yes
    void hear(time::Frames first, const float* samples, int frames) noexcept;

    struct SoundPiece {
        time::Frames first;
        int count = 0;
        std::array<float, 256> samples;
    };
    /// The oldest piece that was not read yet; false when there is none.
    ///
    /// Threads: reader only
    bool read(SoundPiece& piece) noexcept;

    /// Threads: any
    [[nodiscard]] std::uint64_t dropped() const noexcept {
        return dropped_.load(std::memory_order_relaxed);
    }

  private:
    struct Pieces;
    time::SampleRate rate_;
    std::unique_ptr<Pieces> pieces_;
    SoundPiece next_;  // the audio thread's own
    std::atomic<std::uint64_t> dropped_{0};
};

}  // namespace compline::live
