#pragma once

#include "month.hpp"

#include <filesystem>
#include <functional>

namespace compline::month {

/// A short take of one of many.
struct Session {
    std::string player;
    double true_share = 0;  ///< without noise
    double share = 0;       ///< that its music was made for
    DatedTake take;         ///< its music is shared with others
};

/// So many short takes of the three pupils over three years: eight bars, twice, of two tunes each.
/// One pupil goes from 50 to 95 changes of a hundred in time, one stays at 75, one falls from 90 to
/// 60. Takes of a tune and a share are one music, so that ten thousand are soon made. In order of
/// time; deterministic.
void play_sessions(int count, const Weeks& asked, const std::filesystem::path& charts,
                   const std::function<void(const Session&)>& session);

}  // namespace compline::month
