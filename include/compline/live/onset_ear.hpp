#pragma once

#include <compline/listen/sound_onsets.hpp>
#include <compline/live/sound_ear.hpp>

#include <span>
#include <vector>

namespace compline::live {

/// The picks in what an ear hears, at frames of the stream. What was dropped on the way was
/// silence; behind a gap of a second it begins anew.
///
/// Threads: one.
class OnsetEar {
  public:
    /// The ear must outlive it.
    explicit OnsetEar(SoundEar& ear);

    /// Those that became sure since the last call, in order.
    [[nodiscard]] std::vector<listen::SoundOnset> read();

    /// The loudest sample since the last call, 0 to 1 and beyond where it is overloaded.
    [[nodiscard]] float peak();

    [[nodiscard]] const SoundEar& ear() const { return ear_; }

  private:
    void fill_gap(time::Frames first);
    void hear(std::span<const float> samples);

    SoundEar& ear_;
    listen::SoundOnsets onsets_;
    time::Frames zero_{0};  ///< of the stream: where the onsets count from
    std::vector<listen::SoundOnset> found_;
    float peak_ = 0;
};

}  // namespace compline::live
