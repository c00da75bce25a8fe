#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

namespace compline::app {

/// Where a live take goes when the player does not say: a file of today's date and time in
/// $XDG_DATA_HOME/compline/takes, else in ~/.local/share/compline/takes (XDG Base Directory
/// Specification 0.8). The folder is made, for the player alone. Throws BadInput when there is no
/// home to put it in, std::runtime_error when it cannot be made.
[[nodiscard]] std::filesystem::path new_take_path();

/// That folder; none without a home. It may not be there.
[[nodiscard]] std::optional<std::filesystem::path> takes_folder();
/// The player's own takes (*.mid), by their names, which are dates; none without a folder.
[[nodiscard]] std::vector<std::filesystem::path> own_take_files();
/// A path from the root, without a detour.
[[nodiscard]] std::filesystem::path from_the_root(const std::filesystem::path& path);
/// A file of this program's own data, in a folder that is made for it. Throws as above.
[[nodiscard]] std::filesystem::path data_file(const std::string& name);

/// The date and time now as ISO 8601 has them, with the offset from UTC: 2027-01-05T19:30:00+01:00.
[[nodiscard]] std::string local_time_now();
/// When a file was last written, in the same words; empty where nobody knows.
[[nodiscard]] std::string local_time_of(const std::filesystem::path& file);

/// The date that new_take_path() gave a file, in those words: until 2026-11-30 a take that was over
/// said no date itself. Empty for another name.
[[nodiscard]] std::string local_time_in(const std::filesystem::path& name);

/// The name of the run after `run` - 1 others: itself, "evening-2.mid", "evening-3.mid" ...
[[nodiscard]] std::filesystem::path numbered(const std::filesystem::path& path, int run);

}  // namespace compline::app
