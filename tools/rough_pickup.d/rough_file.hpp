#pragma once

#include <compline/midi/smf.hpp>
#include <compline/simulate/rough_pickup.hpp>

#include <filesystem>

namespace compline::rough {

/// A Standard MIDI File with what was made of its notes.
struct RoughFile {
    midi::File file;           ///< texts, tempo and all else but notes as they were
    simulate::RoughTake take;  ///< times from the start marker, else from the file's start
};

/// Throws text::BadInput for a file that cannot be read or holds no clean take (simulate::roughen).
/// Ticks are made finer where the format has room for it, so that times stay what they are to 50
/// us.
[[nodiscard]] RoughFile roughen_file(const std::filesystem::path& path,
                                     const simulate::Roughness& roughness, std::uint64_t seed);

}  // namespace compline::rough
