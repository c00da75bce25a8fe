#pragma once

#include <compline/listen/midi_source.hpp>
#include <compline/live/devices.hpp>
#include <compline/live/midi_port.hpp>
#include <compline/live/onset_ear.hpp>

#include <vector>

namespace compline::live {

/// A guitar that is heard by its sound alone: each onset comes as a note whose pitch means nothing
/// (key 60, channel 1), as loud as it was, and ends soon after. Its times are frames of the stream.
///
/// Threads: one.
class SoundSource : public listen::MidiSource {
  public:
    /// The ear must outlive it.
    explicit SoundSource(SoundEar& ear) : ear_(ear) {}

    void read(std::vector<listen::Arrival>& into) override;
    /// Pieces of sound, that is.
    [[nodiscard]] std::uint64_t dropped() const override { return ear_.ear().dropped(); }
    [[nodiscard]] std::uint64_t unreadable() const override { return 0; }
    /// None that the stream has not.
    [[nodiscard]] std::string trouble() override { return ""; }

  private:
    OnsetEar ear_;
};

/// Sound as a guitar's port.
[[nodiscard]] MidiPort sound_port(const SoundInput& input, SoundEar& ear);

}  // namespace compline::live
