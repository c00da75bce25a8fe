#pragma once

#include <compline/files/file_io.hpp>

#include <cstdint>
#include <filesystem>
#include <span>
#include <string>

// What the layer's files share of the system's own calls.

namespace compline::files {

/// The system's words for an error number.
[[nodiscard]] std::string reason_of(int error_number);

/// The same for a file that could not be written.
[[nodiscard]] std::string cannot_write(int error_number);

/// False when not all could be written; errno says why.
[[nodiscard]] bool write_all(int descriptor, std::span<const std::uint8_t> bytes);

/// Writes to what cannot be renamed: a pipe, a device.
void write_in_place(const std::filesystem::path& path, std::span<const std::uint8_t> bytes);

/// The folder that holds the path.
[[nodiscard]] std::filesystem::path folder_of(const std::filesystem::path& path);

/// Forces to the disk which names a folder holds. False when the disk fails, errno says how; a
/// folder that cannot be opened and a file system that has no such thing have to do without.
[[nodiscard]] bool sync_folder(const std::filesystem::path& folder);

}  // namespace compline::files
