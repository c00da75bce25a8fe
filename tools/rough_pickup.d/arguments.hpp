#pragma once

#include <compline/simulate/rough_pickup.hpp>

#include <cstdint>
#include <optional>
#include <string>

namespace compline::rough {

/// What rough_pickup was asked for.
struct Arguments {
    std::string in;
    std::string out;
    std::string truth;  ///< empty: no file
    bool force = false;
    std::uint64_t seed = 1;
    simulate::Roughness roughness;
};

/// Nothing: all is said, and `status` is what to end with (0 after --help, 2 for bad usage).
[[nodiscard]] std::optional<Arguments> read_arguments(int argc, char** argv, int& status);

}  // namespace compline::rough
