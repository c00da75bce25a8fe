#include "system_files.hpp"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <utility>

namespace compline::files {

GrowingFile::GrowingFile(std::filesystem::path path, Access access)
    : path_(std::move(path)),
      descriptor_(::open(path_.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC,
                         access == Access::own ? 0600 : 0666)) {
    if (descriptor_ < 0 && errno == EEXIST) throw AlreadyThere(path_);
    if (descriptor_ < 0) throw FileError(path_, cannot_write(errno));
    if (sync_folder(folder_of(path_))) return;
    const int error = errno;
    ::close(descriptor_);
    ::unlink(path_.c_str());
    throw FileError(path_, cannot_write(error));
}

GrowingFile::~GrowingFile() { ::close(descriptor_); }

void GrowingFile::append(std::span<const std::uint8_t> bytes) {
    if (!write_all(descriptor_, bytes)) throw FileError(path_, cannot_write(errno));
}

void GrowingFile::sync() const {
    if (::fdatasync(descriptor_) != 0) throw FileError(path_, cannot_write(errno));
}

void GrowingFile::remove() noexcept {
    if (is_in_place()) ::unlink(path_.c_str());
}

bool GrowingFile::is_in_place() const {
    struct stat ours {};
    struct stat found {};
    return ::fstat(descriptor_, &ours) == 0 && ::stat(path_.c_str(), &found) == 0 &&
           ours.st_dev == found.st_dev && ours.st_ino == found.st_ino;
}

}  // namespace compline::files
