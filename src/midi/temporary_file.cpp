#include "temporary_file.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/stat.h>
#include <unistd.h>

#include <atomic>
#include <cerrno>
#include <system_error>
#include <utility>

namespace compline::midi {

namespace {

/// Another name at each call. Short, because a long target's name has no room for a suffix.
std::string next_name() {
    static std::atomic<unsigned> count{0};
    return fmt::format(".compline-{}-{}.part", ::getpid(), count++);
}

}  // namespace

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

unsigned mode_of(Access access) { return access == Access::own ? 0600 : 0666; }

void write_in_place(const std::filesystem::path& path, std::span<const std::uint8_t> bytes) {
    const int descriptor = ::open(path.c_str(), O_WRONLY | O_CLOEXEC);
    if (descriptor < 0) throw FileError(path, cannot_write(errno));
    const int write_error = write_all(descriptor, bytes) ? 0 : errno;
    const int close_error = ::close(descriptor) == 0 ? 0 : errno;
    if (write_error != 0) throw FileError(path, cannot_write(write_error));
    if (close_error != 0) throw FileError(path, cannot_write(close_error));
}

TemporaryFile::TemporaryFile(std::filesystem::path target, Access access)
    : target_(std::move(target)) {
    do {
        name_ = target_.parent_path() / next_name();
        descriptor_ =
            ::open(name_.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, mode_of(access));
    } while (descriptor_ < 0 && errno == EEXIST);
    if (descriptor_ < 0) fail();
}

TemporaryFile::~TemporaryFile() {
    if (descriptor_ >= 0) ::close(descriptor_);
    if (!name_.empty()) ::unlink(name_.c_str());
}

void TemporaryFile::fail() const { throw FileError(target_, cannot_write(errno)); }

void TemporaryFile::write(std::span<const std::uint8_t> bytes) {
    if (!write_all(descriptor_, bytes)) fail();
}

void TemporaryFile::set_mode(std::filesystem::perms mode) {
    if (::fchmod(descriptor_, static_cast<mode_t>(mode)) != 0) fail();
}

void TemporaryFile::become(Existing existing) {
    // Some file systems notice a full disk only here, or only when the file is closed.
    if (::fsync(descriptor_) != 0) fail();
    if (::close(std::exchange(descriptor_, -1)) != 0) fail();
    if (existing == Existing::keep) {
        become_new();
    } else if (::rename(name_.c_str(), target_.c_str()) != 0) {
        fail();
    } else {
        name_.clear();
    }
}

/// A link fails where rename would overwrite a file that came in the meantime. File systems
/// without links (FAT) get the rename.
void TemporaryFile::become_new() {
    if (::link(name_.c_str(), target_.c_str()) == 0) return;
    if (errno == EEXIST) throw FileError(target_, already_there);
    if (::rename(name_.c_str(), target_.c_str()) != 0) fail();
    name_.clear();
}

}  // namespace compline::midi
