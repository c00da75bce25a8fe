#pragma once

#include <sys/stat.h>

#include <filesystem>
#include <string>

namespace compline::files {

/// The name of an unfinished file, another at each call. Short, because a long target's name has no
/// room for more, and of a pattern by which it is known when it was left behind.
[[nodiscard]] std::string next_unfinished_name();

/// Removes from the folder what programs that were killed left there: our own regular files of that
/// pattern, untouched for a day when `made` was made. What cannot be removed stays.
void clear_leftovers(const std::filesystem::path& folder, const struct stat& made);

}  // namespace compline::files
