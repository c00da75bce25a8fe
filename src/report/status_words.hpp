#pragma once

#include <compline/report/now_playing.hpp>

#include <string>

namespace compline::report {

// The last two lines of the display: what is so now, and what can be asked for. Where there is no
// room whole words go, the less useful first.

/// "1st of 4   bar 5 of 12   132 bpm   loop 5-8   drums out".
[[nodiscard]] std::string status_line(const Playing& playing, const roadmap::PlayedPlace& place);

/// What is most unlike a plain time through, in few words: "paused", "silence", "drums out",
/// "until cue", "loop 9-12"; empty: nothing is.
[[nodiscard]] std::string notice(const Playing& playing, const roadmap::PlayedPlace& place);

/// "space: pause  ↑ ↓: tempo  l: loop here  d b: drums, bass  Home: top  q: stop".
[[nodiscard]] std::string keys_line(const Playing& playing);

}  // namespace compline::report
