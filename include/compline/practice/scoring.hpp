#pragma once

#include <compline/chart/form.hpp>
#include <compline/guitar/fretboard.hpp>
#include <compline/practice/delays_now.hpp>
#include <compline/practice/report.hpp>
#include <compline/practice/take.hpp>

#include <optional>
#include <string>

namespace compline::practice {

/// What somebody asks for who has a take judged; what is not asked for comes from the take, then
/// from the chart.
struct ScoreRequest {
    std::optional<time::Bpm> tempo;  ///< from beginning to end
    /// A part of what was played, where a take of ours says that it was more; else what was played
    /// over and over.
    std::optional<chart::Passage> passage;
    bool whole_form =
        false;  ///< of a take from elsewhere they are a part too: it is the whole form
    std::optional<time::Seconds> tolerance;
    bool tolerance_auto = false;  ///< asked for, against the take's own
    std::optional<assess::Rhythm> rhythm;
    std::optional<harmony::Strictness> strictness;
    std::optional<assess::Against> against;
    std::optional<bool> pushes;
    std::string pickup;  ///< words (listen::read_pickup), as far as asked for
    std::optional<guitar::Fretboard> fretboard;  ///< none: the take's, else a standard one
    time::Seconds offset{0};                     ///< added to the take's time zero
    std::optional<DelaysNow> delays = {};        ///< in place of the take's own
};

/// Hears a take and judges it. The same code for a file, the demo and live practice, whose take is
/// read back first: so scoring its file says the same of it, byte for byte (2026-11-25). Throws
/// text::BadInput when the take cannot have been played to that form.
[[nodiscard]] Report hear_and_judge(const chart::Form& form, const Take& take,
                                    const ScoreRequest& request);

/// The same of a take of ours that goes on, as if it ended now, from a moment on; what was played
/// before that may be missing in it. `map`: what was played, one that ends.
[[nodiscard]] Report judge_so_far(const roadmap::RoadMap& map, const Take& take,
                                  const ScoreRequest& request, time::Seconds begin);

}  // namespace compline::practice
