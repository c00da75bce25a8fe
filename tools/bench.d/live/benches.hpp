#pragma once

namespace compline::bench {

// What is measured of live practice, a file each. Each prints its part as it goes and judges
// nothing. `quick`: a look at whether all is there. Throw std::runtime_error and jack::JackError.

/// How exact lateness is, for every MIDI source here and several periods, on an idle machine and
/// with one core busy; and the longest callback of each run as a share of its period.
void measure_lateness(bool quick);

/// From the command to the first click of the count-in.
void measure_start(bool quick);

/// From a breakdown to the end of the program, its take saved and its report written.
void measure_breakdowns(bool quick);

/// The memory of the program, for ten minutes of playing.
void measure_memory(bool quick);

/// A minute of the most that a guitar can send: what is lost (nothing), memory, and how long a
/// judgement takes.
void measure_flood(bool quick);

/// The program killed after each key of an evening: whether every take is scored and rendered.
void measure_kills(bool quick);

}  // namespace compline::bench
