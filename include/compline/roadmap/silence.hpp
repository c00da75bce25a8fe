#pragma once

#include <compline/chart/way.hpp>

#include <string_view>

namespace compline::roadmap {

/// The band leaves: so many bars (or whole times through) are played, so many are silent, over and
/// over from the first bar on.
struct Silence {
    int playing = 4;
    int silent = 4;
    bool drums_alone = false;    ///< all others play on
    bool times_through = false;  ///< counted in times through, not in bars
    bool operator==(const Silence&) const = default;
};

/// "4:4", "4:4 drums" (the bass plays on), "1:1 times", in any combination; 1 to 64 each.
/// Throws text::BadInput.
[[nodiscard]] Silence read_silence(std::string_view text);

/// Throws text::BadInput for a silence that is longer than all that is played, or that never comes.
void refuse_lost_silence(const Silence& silence, const chart::Way& way);

}  // namespace compline::roadmap
