#pragma once

#include <compline/live/midi_port.hpp>
#include <compline/time/units.hpp>

#include <optional>
#include <string>
#include <vector>

namespace compline::live {

/// A MIDI port, and whether its cable is in: asked four times a second, as long as there is one.
///
/// Threads: one.
class WatchedPort {
  public:
    explicit WatchedPort(MidiPort port) : port_(std::move(port)) {}

    /// The cable was seen to be out, or in again.
    struct News {
        time::Instant moment;
        bool out = false;
    };
    /// Looks, if it is time. last_called: when the stream gave its last sign of life. A cable is
    /// out only when the band plays on without it: a server that dies takes both along, and then it
    /// is the stream that has gone.
    std::optional<News> look(time::Instant moment, std::optional<time::Instant> last_called);

    /// What came since the last call, put behind what is in `into`.
    void read(std::vector<listen::Arrival>& into) {
        if (port_.source) port_.source->read(into);
    }

    [[nodiscard]] bool is_out() const { return out_; }
    /// API and name, as the player is told.
    [[nodiscard]] const std::string& name() const { return port_.name; }
    [[nodiscard]] const DeviceClock* clock() const { return port_.clock; }
    /// None: there is no port.
    [[nodiscard]] listen::MidiSource* source() const { return port_.source.get(); }

  private:
    MidiPort port_;
    time::Instant asked_;
    std::optional<time::Instant> suspected_;  ///< since then it gives nothing
    bool out_ = false;
};

}  // namespace compline::live
