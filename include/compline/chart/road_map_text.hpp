#pragma once

#include <compline/chart/form.hpp>
#include <compline/chart/way.hpp>
#include <compline/text/bad_input.hpp>

#include <cstddef>
#include <optional>
#include <stdexcept>
#include <string>
#include <string_view>

namespace compline::chart {

// A road map says what is played of a tune from beginning to end, in the words of a bandstand:
//
//     intro 4; head: two-feel, drums=brushes; solo x2: walking; head: two-feel; tag 3; held ending
//
// Parts are separated by `;`. Each is one of
//   NAME [xN] [: WORDS]  the form, N times through (1 to 100). A name is words of letters, digits
//                        and hyphens, 32 characters at most.
//   intro [N] [: WORDS]  the last N bars of the form, before the first chorus; 4 where N is absent.
//   tag [N] [: WORDS]    the last four bars of the chorus before it, N times in all (2 to 100)
//                        with the chorus's own ending; 3 where N is absent. It is played as that
//                        chorus was, but for its own words. (Common practice, no source.)
//   NAME al coda         the form from bar 1 as far as `to coda`, then the section Coda, which is a
//                        time through of its own (2026-11-30). `al fine`: as far as the fine.
//   D.S. / D.C.          the form from the segno, or from bar 1, to its end; `al coda`, `al fine`.
//   NAME until cue [xN]  over and over until the cue is given; where nobody gives it N times, or 4.
//   rit [N]              the last N bars (2 where N is absent) of what is before it slow down.
//   held ending          after the last bar one more, on the tonic, that rings.
// Words have blanks or commas between them: `walking`, `two-feel` or `roots` for the bass, `plain`
// for one without skip notes and dead ones; `drums=`, `bass=` and `feel=` with a name (manner.hpp);
// `silent`: drums and bass lay out; `a tempo`: in the first tempo again, after a rit; `bars=` with
// a passage (read_passage), for a chorus alone. Capitals do not count but in the names of sections.

/// The way that a road map asks for: an item of the list for each time through, named by its part
/// ("head", "solo", "intro", "tag"). It ends. Throws text::BadInput. The form has a bar at least.
[[nodiscard]] Way read_road_map(const Form& form, std::string_view text);

/// The chart's own road map; none when it has none. A chart that was read has a good one.
[[nodiscard]] std::optional<Way> own_road_map(const Form& form);

/// In one line: "intro 4, head (two-feel, brushes), solo twice, head, tag, held ending".
[[nodiscard]] std::string road_map_in_words(const Way& way, const Form& form);

}  // namespace compline::chart
