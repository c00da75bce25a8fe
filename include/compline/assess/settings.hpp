#pragma once

#include <compline/chart/form.hpp>
#include <compline/chart/rhythm.hpp>
#include <compline/harmony/palette.hpp>
#include <compline/time/swing.hpp>

#include <optional>
#include <string>
#include <string_view>

namespace compline::assess {

using chart::read_rhythm;
using chart::Rhythm;

/// What "in time" is measured from.
enum class Against {
    own,   ///< from the beat to where this player stands by habit
    beat,  ///< the beat itself
};
[[nodiscard]] std::string_view name_of(Against against);
[[nodiscard]] std::optional<Against> read_against(std::string_view name);

/// A tolerance that is asked for.
inline constexpr double narrowest_tolerance_ms = 1;
inline constexpr double widest_tolerance_ms = 200;

struct Settings {
    std::optional<time::Seconds> tolerance;  ///< none: auto_tolerance
    std::optional<Rhythm> rhythm;            ///< none: what chart and sections say, else free
    harmony::Strictness strictness = harmony::Strictness::working;
    bool pushes = true;  ///< anticipations are right
    Against against = Against::own;
    /// These bars of the form alone are judged; all that was played is read. None: all.
    std::optional<chart::Passage> part = {};
};

/// The rhythm by which a chart is judged: "free", "1 2&"; "as written" where sections have their
/// own.
[[nodiscard]] std::string rhythm_words(const Settings& settings, const chart::Chart& chart);

/// 10 % of the beat, at least 25 ms and at most 60, never over a third of the short note (so that
/// a beat and the off-beat before it never overlap): 42 ms at 132 bpm.
[[nodiscard]] time::Seconds auto_tolerance(time::Bpm tempo, const time::Swing& swing);

}  // namespace compline::assess
