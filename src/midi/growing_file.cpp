#include "temporary_file.hpp"

#include <compline/midi/file_io.hpp>

#include <fcntl.h>
#include <unistd.h>

#include <cerrno>
#include <utility>

namespace compline::midi {

GrowingFile::GrowingFile(std::filesystem::path path, Access access)
    : path_(std::move(path)),
      descriptor_(::open(path_.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, mode_of(access))) {
    if (descriptor_ >= 0) return;
    throw FileError(path_, errno == EEXIST ? already_there : cannot_write(errno));
}

GrowingFile::~GrowingFile() { ::close(descriptor_); }

void GrowingFile::append(std::span<const std::uint8_t> bytes) {
    if (!write_all(descriptor_, bytes)) throw FileError(path_, cannot_write(errno));
}

}  // namespace compline::midi
