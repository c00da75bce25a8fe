#pragma once

#include <compline/midi/file_io.hpp>

#include <cstdint>
#include <filesystem>
#include <span>
#include <string>
#include <string_view>

namespace compline::midi {

inline constexpr const char* already_there = "is there already and is not overwritten";

/// The system's words for an error number.
[[nodiscard]] std::string reason_of(int error_number);

/// The same for a file that could not be written.
[[nodiscard]] std::string cannot_write(int error_number);

/// False when not all could be written; errno says why.
[[nodiscard]] bool write_all(int descriptor, std::span<const std::uint8_t> bytes);

/// The mode of a new file, before the umask.
[[nodiscard]] unsigned mode_of(Access access);

/// Writes to what cannot be renamed: a pipe, a device.
void write_in_place(const std::filesystem::path& path, std::span<const std::uint8_t> bytes);

/// A file in the folder of `target` that takes its place when it is whole. Until then, and when
/// anything fails, it is removed. All calls throw FileError, naming the target.
class TemporaryFile {
  public:
    TemporaryFile(std::filesystem::path target, Access access);
    ~TemporaryFile();
    TemporaryFile(const TemporaryFile&) = delete;
    TemporaryFile& operator=(const TemporaryFile&) = delete;

    void write(std::span<const std::uint8_t> bytes);
    void set_mode(std::filesystem::perms mode);
    void become(Existing existing);

  private:
    [[noreturn]] void fail() const;
    void become_new();

    std::filesystem::path target_;
    std::filesystem::path name_;
    int descriptor_ = -1;
};

}  // namespace compline::midi
