#pragma once

#include <string_view>

namespace compline::assess {

/// What a strum was meant for.
enum class ReadAs {
    landing,    ///< a chord change comes with it
    again,      ///< the chord that has landed, struck again
    old,        ///< the chord before, struck on where the next was due
    approach,   ///< the grip a fret or two from where it slides to
    up_stroke,  ///< just before the down-stroke that lands
    passing,    ///< a foreign grip on a weak place, resolving
    outside,    ///< a foreign grip that does not
    fill,       ///< a line, or two strings of one, between chords
    bass,       ///< a single low note
    chunk,      ///< a dead strum
};
[[nodiscard]] std::string_view name_of(ReadAs read_as);

}  // namespace compline::assess
