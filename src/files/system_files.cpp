#include "system_files.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <unistd.h>

#include <cerrno>
#include <system_error>

namespace compline::files {

namespace fs = std::filesystem;

std::string reason_of(int error_number) {
    return error_number == 0 ? "unknown reason" : std::generic_category().message(error_number);
}

std::string cannot_write(int error_number) {
    return fmt::format("cannot be written: {}", reason_of(error_number));
}

bool write_all(int descriptor, std::span<const std::uint8_t> bytes) {
    while (!bytes.empty()) {
        const ssize_t written = ::write(descriptor, bytes.data(), bytes.size());
        if (written < 0 && errno == EINTR) continue;
        if (written < 0) return false;
        bytes = bytes.subspan(static_cast<std::size_t>(written));
    }
    return true;
}

void write_in_place(const fs::path& path, std::span<const std::uint8_t> bytes) {
    const int descriptor = ::open(path.c_str(), O_WRONLY | O_CLOEXEC);
    if (descriptor < 0) throw FileError(path, cannot_write(errno));
    const int write_error = write_all(descriptor, bytes) ? 0 : errno;
    const int close_error = ::close(descriptor) == 0 ? 0 : errno;
    if (write_error != 0) throw FileError(path, cannot_write(write_error));
    if (close_error != 0) throw FileError(path, cannot_write(close_error));
}

fs::path folder_of(const fs::path& path) {
    return path.has_parent_path() ? path.parent_path() : fs::path(".");
}

bool sync_folder(const fs::path& folder) {
    const int descriptor = ::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (descriptor < 0) return true;
    const int error = ::fsync(descriptor) == 0 ? 0 : errno;
    ::close(descriptor);
    errno = error;
    return error != EIO;
}

}  // namespace compline::files
