#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

namespace compline::jack {

/// What a player sends into a sound input: what a guitar sounds like, or what comes back by a
/// cable.
struct Sounding {
    /// A cable from an output back into an input, and the converters on its way.
    struct Wire {
        int frames = 0;  ///< that it takes
        float gain = 1;
    };
    std::vector<float> script;  ///< from the first click on
    std::vector<Wire> wires;    ///< from in_1; more than one: there are echoes
    float hum = 0;              ///< of 50 Hz and its third harmonic, the peak of each
};

/// It, a block at a time.
///
/// Threads: audio only, once it is made. Real-time: yes.
class SoundingOut {
  public:
    SoundingOut(Sounding sounding, int rate);

    /// `first`: number of the block's first frame from the first click on; none before it.
    void make(const float* in, std::optional<std::int64_t> first, std::uint32_t frames, float* out);

  private:
    Sounding sounding_;
    int rate_;
    std::vector<float> past_;  ///< a ring of what came in
    std::size_t next_ = 0;     ///< in it
    std::int64_t made_ = 0;
};

}  // namespace compline::jack
