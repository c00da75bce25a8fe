#pragma once

#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <span>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

namespace compline::files {

// Whole files in and out. A file is read at once, up to a limit; it is written under a temporary
// name in its own folder, forced to the disk and only then given its name, so that nobody ever sees
// half of it and a full disk leaves the old file as it was.
//
// 2026-11-29: a layer of its own above `text`, which knows no disk, and below all that reads or
// writes a file: so there is one way to write a file whole, for MIDI, WAV, pages and what comes.

/// A file that cannot be written. The text names it and the reason.
class FileError : public std::runtime_error {
  public:
    FileError(const std::filesystem::path& path, const std::string& reason);
    [[nodiscard]] const std::filesystem::path& path() const { return path_; }

  private:
    std::filesystem::path path_;
};

/// The name is taken, by what is to be kept.
class AlreadyThere : public FileError {
  public:
    explicit AlreadyThere(const std::filesystem::path& path);
};

/// A file's name as messages say it: nothing in it steers a terminal or ends the line.
[[nodiscard]] std::string name_of(const std::filesystem::path& path);

/// Bytes; no chart, take or settings file comes near it.
inline constexpr std::size_t default_limit = std::size_t{64} << 20U;

/// Throws text::BadInput when there is no such file, when it is a folder, when it cannot be read,
/// or when it holds more than `limit` bytes (found out before more than that is in memory).
[[nodiscard]] std::vector<std::uint8_t> load_bytes(const std::filesystem::path& path,
                                                   std::size_t limit = default_limit);
[[nodiscard]] std::string load_text(const std::filesystem::path& path,
                                    std::size_t limit = default_limit);

/// What to do with a file that is there already, also with one that appears while ours is written.
enum class Existing {
    keep,     ///< it stays, be it a link that leads to nothing: AlreadyThere is thrown
    same,     ///< the same where it has other bytes; where it has the same, all is well
    replace,  ///< it is replaced by a file of its mode; a link stays, what it leads to is replaced
};
/// Who may read a new file: everybody whom the user's umask lets, or the user alone (mode 0600).
enum class Access { shared, own };

/// Throws FileError when the folder is not there, the file cannot be written to its end, or it is
/// there already and is to be kept. What is no ordinary file (a pipe, a device) is written to
/// directly.
void save_bytes(const std::filesystem::path& path, std::span<const std::uint8_t> bytes,
                Existing existing, Access access = Access::shared);
void save_text(const std::filesystem::path& path, std::string_view text, Existing existing,
               Access access = Access::shared);

/// A file that is written bit by bit. It has a temporary name in the folder of its own, and is for
/// its owner alone, until finish() makes it what was asked for; without that nothing is left of it.
/// All calls throw FileError, naming the file asked for.
///
/// What a program that was killed left behind is removed by the next one that writes to that
/// folder, a day later.
class UnfinishedFile {
  public:
    /// Refuses what cannot become a file before anything is written.
    UnfinishedFile(const std::filesystem::path& path, Existing existing,
                   Access access = Access::shared);
    ~UnfinishedFile();
    UnfinishedFile(const UnfinishedFile&) = delete;
    UnfinishedFile& operator=(const UnfinishedFile&) = delete;

    void write(std::span<const std::uint8_t> bytes);
    /// For a library that writes by itself.
    [[nodiscard]] int descriptor() const { return descriptor_; }

    /// On the disk and under its name when it returns. The last call.
    void finish();

  private:
    [[noreturn]] void fail() const;
    void open();
    void settle_mode() const;
    void take_name();
    void take_free_name();
    void discard() noexcept;

    std::filesystem::path target_;
    Existing existing_;
    Access access_;
    std::filesystem::path name_;     ///< the temporary one
    const char* watched_ = nullptr;  ///< the name for remove_unfinished_files()
    int descriptor_ = -1;
};

/// Removes the unfinished files of this program, which then may write no more: for a handler of
/// signals that end it. Async-signal-safe.
void remove_unfinished_files() noexcept;

/// A new file that grows while something goes on. Unlike those above it is there from the start, so
/// that what was appended stays when the program dies.
///
/// Threads: one appends, another may sync.
class GrowingFile {
  public:
    /// Throws FileError when the path is taken or cannot be made. Its name is on the disk when it
    /// returns.
    explicit GrowingFile(std::filesystem::path path, Access access = Access::shared);
    ~GrowingFile();
    GrowingFile(const GrowingFile&) = delete;
    GrowingFile& operator=(const GrowingFile&) = delete;

    /// In the hands of the system when it returns. Throws FileError (disk full ...); what was
    /// appended before stays.
    void append(std::span<const std::uint8_t> bytes);
    /// What was appended is on the disk when it returns, which may take a while. Throws FileError.
    void sync() const;
    /// Removes it, unless another file has come to its place.
    void remove() noexcept;
    /// Whether the path still leads to this file: it may have been removed, or another put there.
    [[nodiscard]] bool is_in_place() const;
    [[nodiscard]] const std::filesystem::path& path() const { return path_; }

  private:
    std::filesystem::path path_;
    int descriptor_;
};

}  // namespace compline::files
