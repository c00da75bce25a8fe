#pragma once

#include <compline/practice/report.hpp>

namespace compline::practice {

/// Tones are judged in it: it was heard by MIDI.
[[nodiscard]] inline bool judges_tones(const Report& report) {
    return report.heard.heard_by == listen::HeardBy::midi;
}

/// The same take judged by time alone, as if only its sound had been heard: so it can stand beside
/// one of which that is so. One that was heard by sound comes back as it is.
[[nodiscard]] Report by_time_alone(Report report);

}  // namespace compline::practice
