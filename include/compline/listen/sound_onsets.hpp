#pragma once

#include <compline/time/units.hpp>

#include <memory>
#include <span>
#include <vector>

namespace compline::listen {

/// A pick as it is heard in sound.
struct SoundOnset {
    time::Frames at;    ///< first frame of the attack, counted from the first sample given
    double level_db{};  ///< largest sample of the attack, in dB of full scale: 0 at most
    bool operator==(const SoundOnset&) const = default;
};

/// What is taken for a pick.
struct AttackSettings {
    /// After an onset nothing is another for so long: the strings of one strum (up to 60 ms from
    /// first to last) are one, and the first of them is given. The shortest repeat of two real
    /// takes is 119 ms.
    time::Seconds dead_time{0.065};
    /// An attack whose bright part stays below this is not looked for, in dB of full scale. Notes
    /// of an input that is hardly used (hard ones below -30) may be lost by it.
    double softest_db = -70;
};

/// When a guitar is struck, from the sound of its ordinary output: single notes and strums, soft
/// and hard, over hum, hiss, and strings that still ring.
///
/// The idea: a pick has brightness that strings lose at once. So the sound above 1.5 kHz, and that
/// above 7 kHz, is looked at millisecond by millisecond: where both together stand out by 10 dB
/// from the loudest of the last 40 ms, a pick may have begun. It is one when it was there at once
/// or the note's body follows (a finger that squeaks along a string swells, and has none), which is
/// known 22 ms later. Its first frame is found by going back to where the attack rises out of what
/// was there before it. Of a note that a far louder one covers nothing is known, nor of what sounds
/// already when listening begins.
///
/// The same samples give the same onsets, however they are parted into blocks. Memory is taken when
/// it is made, and does not grow; the list that is given back is new each time.
///
/// Threads: one. Real-time: no.
class SoundOnsets {
  public:
    /// So long after its first frame an onset is given at the latest.
    static constexpr time::Seconds sure_after{0.030};

    explicit SoundOnsets(time::SampleRate rate, const AttackSettings& settings = {});
    ~SoundOnsets();
    SoundOnsets(SoundOnsets&&) noexcept;
    SoundOnsets& operator=(SoundOnsets&&) noexcept;

    /// The samples that come next, in mono, -1 to 1 (what is no number counts as 0). Gives the
    /// onsets that became sure with them, in order.
    [[nodiscard]] std::vector<SoundOnset> add(std::span<const float> samples);

    /// How many were given so far.
    [[nodiscard]] time::Frames frames() const;

  private:
    class Ear;
    std::unique_ptr<Ear> ear_;
};

}  // namespace compline::listen
