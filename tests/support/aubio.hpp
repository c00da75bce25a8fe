#pragma once

#include <filesystem>
#include <string>
#include <vector>

namespace compline::tests {

/// Onsets in a sound file as aubioonset (Debian's aubio-tools) hears them, in seconds. Ask
/// outside_tool("aubioonset") first.
///
/// Short windows: with its default of 512 frames and hops of 256 the program names the strokes of
/// our drums 4.5 ms early (SD 0.9), with these 0.6 ms late (SD 0.3), at 48 kHz. Threshold, silence
/// and, unless it is said, the shortest interval are its defaults, written out.
[[nodiscard]] std::vector<double> aubio_onsets(const std::filesystem::path& file,
                                               const std::string& options = "-t 0.3 -M 0.012");

}  // namespace compline::tests
