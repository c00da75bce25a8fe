#pragma once

#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <span>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

namespace compline::midi {

// Whole files in and out. A file is read at once, up to a limit; it is written under a temporary
// name in its own folder, forced to the disk and renamed, so that nobody ever sees half of it and
// a full disk leaves the old file as it was.

/// A file that cannot be read or written. The text names it and the reason.
class FileError : public std::runtime_error {
  public:
    FileError(const std::filesystem::path& path, const std::string& reason);
    [[nodiscard]] const std::filesystem::path& path() const { return path_; }

  private:
    std::filesystem::path path_;
};

/// Bytes; no chart, take or settings file comes near it.
inline constexpr std::size_t default_limit = std::size_t{64} << 20U;

/// Throws FileError when there is no such file, when it is a folder, when it cannot be read, or
/// when it holds more than `limit` bytes (found out before more than that is in memory).
[[nodiscard]] std::vector<std::uint8_t> load_bytes(const std::filesystem::path& path,
                                                   std::size_t limit = default_limit);
[[nodiscard]] std::string load_text(const std::filesystem::path& path,
                                    std::size_t limit = default_limit);

/// What to do with a file that is there already.
enum class Existing { keep, replace };
/// Who may read a new file: everybody whom the user's umask lets, or the user alone (mode 0600).
enum class Access { shared, own };

/// Throws FileError when the folder is not there, the file cannot be written to its end, or it is
/// there already and is to be kept. A link is followed. What is no ordinary file (a pipe, a device)
/// is written to directly. A replaced file keeps its mode.
void save_bytes(const std::filesystem::path& path, std::span<const std::uint8_t> bytes,
                Existing existing, Access access = Access::shared);
void save_text(const std::filesystem::path& path, std::string_view text, Existing existing,
               Access access = Access::shared);

/// A new file that grows while something goes on. Unlike those above it is there from the start, so
/// that what was appended stays when the program dies.
class GrowingFile {
  public:
    /// Throws FileError when the path is taken or cannot be made.
    explicit GrowingFile(std::filesystem::path path, Access access = Access::shared);
    ~GrowingFile();
    GrowingFile(const GrowingFile&) = delete;
    GrowingFile& operator=(const GrowingFile&) = delete;

    /// In the hands of the system when it returns. Throws FileError (disk full ...); what was
    /// appended before stays.
    void append(std::span<const std::uint8_t> bytes);
    [[nodiscard]] const std::filesystem::path& path() const { return path_; }

  private:
    std::filesystem::path path_;
    int descriptor_;
};

}  // namespace compline::midi
