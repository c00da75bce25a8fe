#pragma once

#include <compline/harmony/pitch.hpp>
#include <compline/sound/one_shots.hpp>
#include <compline/time/units.hpp>

#include <compare>
#include <cstdint>
#include <utility>
#include <vector>

namespace compline::sound {

/// Names a one-shot of a bank.
class SoundId {
  public:
    constexpr SoundId() = default;
    constexpr explicit SoundId(std::uint16_t index) : index_(index) {}
    [[nodiscard]] constexpr std::uint16_t index() const { return index_; }
    auto operator<=>(const SoundId&) const = default;

  private:
    std::uint16_t index_ = 0;
};

inline constexpr SoundId ride{0};
inline constexpr SoundId hihat_foot{1};
inline constexpr SoundId kick{2};
inline constexpr SoundId stick{3};
inline constexpr SoundId crash{4};
inline constexpr SoundId cross_stick{5};
inline constexpr SoundId snare{6};
inline constexpr SoundId tom{7};
inline constexpr SoundId brush_tap{8};
inline constexpr SoundId brush_sweep{9};
/// Sounds before this one are the drums'.
inline constexpr SoundId first_tuned{10};

inline constexpr harmony::MidiNote lowest_bass_sound{28};
inline constexpr harmony::MidiNote highest_bass_sound{55};
inline constexpr harmony::MidiNote lowest_guitar_sound{40};
inline constexpr harmony::MidiNote highest_guitar_sound{88};

/// A bass note, 28 to 55 (asserted).
[[nodiscard]] SoundId bass(harmony::MidiNote note);
/// A guitar note, 40 to 88 (asserted).
[[nodiscard]] SoundId guitar(harmony::MidiNote note);

/// All one-shots a player needs, made once, at start, and never changed: mixers read it while they
/// play.
class Bank {
  public:
    enum class Guitar { without, with };

    explicit Bank(time::SampleRate rate, Guitar guitar = Guitar::without);

    /// Sounds of the caller's own; the first is SoundId(0).
    Bank(time::SampleRate rate, std::vector<Samples> sounds)
        : rate_(rate), sounds_(std::move(sounds)) {}

    [[nodiscard]] time::SampleRate rate() const { return rate_; }

    /// Empty for a sound that the bank does not have. Whoever makes a player asks has() before: an
    /// audio callback can do nothing but play silence.
    [[nodiscard]] const Samples& samples(SoundId sound) const noexcept;
    [[nodiscard]] bool has(SoundId sound) const noexcept { return !samples(sound).empty(); }
    /// Throws std::logic_error when the guitar's sounds are needed and were not made.
    void refuse_without(Guitar needed) const;

  private:
    time::SampleRate rate_;
    std::vector<Samples> sounds_;
};

}  // namespace compline::sound
