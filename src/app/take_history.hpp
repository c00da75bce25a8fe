#pragma once

#include "judging.hpp"
#include "option.hpp"

#include <compline/history/judged_take.hpp>
#include <compline/practice/report.hpp>

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

namespace compline::app {

// How takes come into the history: when the music has ended, judged by what they say of themselves,
// whatever else was asked; so that the history made anew from the same takes is the same.

/// Rows of a take of ours; none where there is nothing to keep: it carries no chart or no date, or
/// nothing was struck in it. `player`: whose it is, whatever it says. Throws BadInput.
[[nodiscard]] std::optional<history::JudgedTake> rows_of_take(
    const std::filesystem::path& file, const std::optional<std::string>& player = {});

/// Rows of a take that was scored. One of ours is judged by what it says of itself, unless it is
/// there already as it is judged now; one from elsewhere is kept as it was judged, since nobody
/// else knows what it was played to, by the date of its file; not where it hardly fits. What
/// hinders it is said.
[[nodiscard]] std::optional<history::JudgedTake> rows_of_scored(
    const std::filesystem::path& file, const practice::Report& report,
    const JudgingOptions& options, const std::optional<std::string>& player) noexcept;

/// Puts them in. What hinders it is said, and how to make up for it: nobody loses a report by it.
void keep_scored_in_history(const std::vector<history::JudgedTake>& takes) noexcept;

/// The same of takes of ours, by their files; `chart`: the file of their chart, empty where it is
/// none.
void keep_takes_in_history(const std::vector<std::filesystem::path>& files,
                           const std::string& chart) noexcept;

/// Somebody played: a change was struck, or held.
[[nodiscard]] bool anything_struck(const practice::Report& report);

/// 16 hexadecimal digits of a file's bytes. Throws BadInput.
[[nodiscard]] std::string fingerprint_of(const std::filesystem::path& file);

[[nodiscard]] Option no_history_option(bool& without);

}  // namespace compline::app
