#pragma once

#include <compline/sound/bank.hpp>
#include <compline/sound/cue.hpp>
#include <compline/sound/wav.hpp>
#include <compline/time/units.hpp>

#include <functional>
#include <vector>

namespace compline::sound {

// Cues to sound without a device, through the mixer that plays them live.

/// The frame after the last one that sounds: the last cue has rung out. `otherwise` without cues.
[[nodiscard]] time::Frames end_of(const std::vector<Cue>& cues, const Bank& bank,
                                  time::Frames otherwise);

/// What plays the cues of an excerpt, and where the sound goes.
struct Excerpt {
    time::Frames first;  ///< cues before it are left out
    time::Frames end;    ///< the frame after the last
    int block = 512;     ///< frames at a time; the samples do not depend on it
};

/// Renders an excerpt block by block. `take` is given each block's left, right and frames.
/// cues: sorted by frame. Throws std::logic_error when the bank has not got the sound of a cue,
/// when more cues start within a block than the mixer's queue holds, and what `take` throws.
void render(const std::vector<Cue>& cues, const Bank& bank, const Excerpt& excerpt,
            const std::function<void(const float*, const float*, int)>& take);

/// The same into memory.
[[nodiscard]] Stereo render(const std::vector<Cue>& cues, const Bank& bank, const Excerpt& excerpt);

/// Told the share of the sound that is written, 0 to 1: about a hundred times, at last 1. May be
/// empty; what it throws ends the rendering, and no file is left.
using Progress = std::function<void(double share)>;

/// The same into a WAV file, streamed. Returns the peak. Throws the same and files::FileError; a
/// file that would be too large is refused before anything is written.
float render_wav(const std::vector<Cue>& cues, const Bank& bank, const Excerpt& excerpt,
                 const std::filesystem::path& path, const WavFormat& format = {},
                 const Progress& progress = {});

}  // namespace compline::sound
