#include "leftovers.hpp"
#include "system_files.hpp"
#include "unfinished_names.hpp"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <cstdio>
#include <fstream>
#include <mutex>
#include <optional>
#include <system_error>
#include <utility>

namespace compline::files {

namespace {

namespace fs = std::filesystem;

/// What the name itself stands for, be it a link. Nothing: errno says why.
std::optional<struct stat> look_at(const fs::path& path) {
    struct stat found {};
    if (::lstat(path.c_str(), &found) != 0) return std::nullopt;
    return found;
}

/// Where the bytes go in the end when a link is followed, also one that leads to nothing yet.
fs::path through_links(fs::path path) {
    constexpr int most_links = 40;  // as many as Linux follows
    std::error_code error;
    for (int links = 0; fs::is_symlink(path, error); ++links) {
        if (links == most_links) throw FileError(path, cannot_write(ELOOP));
        const fs::path next = fs::read_symlink(path, error);
        if (error) throw FileError(path, cannot_write(error.value()));
        path = path.parent_path() / next;
    }
    return path;
}

/// It can only be read by setting it. Ours is the stricter one for a moment, lest a file that
/// another thread makes meanwhile be open to all.
mode_t umask_of_user() {
    static std::mutex one_at_a_time;
    const std::lock_guard lock(one_at_a_time);
    const mode_t mask = ::umask(077);
    ::umask(mask);
    return mask;
}

bool same_bytes(const fs::path& a, const fs::path& b) {
    std::ifstream one(a, std::ios::binary);
    std::ifstream two(b, std::ios::binary);
    std::array<char, 1U << 16U> of_one{};
    std::array<char, 1U << 16U> of_two{};
    while (one && two) {
        one.read(of_one.data(), of_one.size());
        two.read(of_two.data(), of_two.size());
        const auto size = one.gcount();
        if (size != two.gcount()) return false;
        if (!std::equal(of_one.begin(), of_one.begin() + size, of_two.begin())) return false;
    }
    return one.eof() && two.eof();
}

}  // namespace

UnfinishedFile::UnfinishedFile(const fs::path& path, Existing existing, Access access)
    : target_(existing == Existing::replace ? through_links(path) : path),
      existing_(existing),
      access_(access) {
    const auto found = look_at(target_);
    if (!found && errno != ENOENT) fail();
    if (found && S_ISDIR(found->st_mode)) throw FileError(path, "is a folder, not a file");
    if (found && !S_ISREG(found->st_mode) && !S_ISLNK(found->st_mode)) {
        throw FileError(path, "is not a regular file");
    }
    if (found && existing == Existing::keep) throw AlreadyThere(path);
    open();
}

/// For its owner alone whatever it will be: who may not read the finished file shall not have read
/// it from the start either.
void UnfinishedFile::open() {
    constexpr mode_t own = 0600;
    do {
        forget_unfinished(watched_);
        name_ = folder_of(target_) / next_unfinished_name();
        watched_ = watch_unfinished(name_);
        descriptor_ = ::open(name_.c_str(), O_RDWR | O_CREAT | O_EXCL | O_CLOEXEC, own);
    } while (descriptor_ < 0 && errno == EEXIST);
    if (descriptor_ < 0) {
        const int error = errno;
        forget_unfinished(watched_);
        throw FileError(target_, cannot_write(error));
    }
    struct stat made {};
    if (::fstat(descriptor_, &made) == 0) clear_leftovers(folder_of(target_), made);
}

UnfinishedFile::~UnfinishedFile() {
    if (descriptor_ >= 0) ::close(descriptor_);
    discard();
}

void UnfinishedFile::fail() const { throw FileError(target_, cannot_write(errno)); }

void UnfinishedFile::write(std::span<const std::uint8_t> bytes) {
    if (!write_all(descriptor_, bytes)) fail();
}

void UnfinishedFile::finish() {
    settle_mode();
    // Some file systems notice a full disk only here, or only when the file is closed.
    if (::fsync(descriptor_) != 0) fail();
    if (::close(std::exchange(descriptor_, -1)) != 0) fail();
    take_name();
    discard();
    if (!sync_folder(folder_of(target_))) fail();
}

void UnfinishedFile::settle_mode() const {
    mode_t mode = access_ == Access::own ? 0600 : 0666 & ~umask_of_user();
    const auto old = look_at(target_);
    if (existing_ == Existing::replace && old) mode = old->st_mode & 07777U;
    struct stat now {};
    if (::fstat(descriptor_, &now) == 0 && (now.st_mode & 07777U) == mode) return;
    // A file system without modes has none to set.
    if (::fchmod(descriptor_, mode) != 0 && errno != EPERM && errno != EOPNOTSUPP) fail();
}

void UnfinishedFile::take_name() {
    if (existing_ == Existing::replace) {
        if (::rename(name_.c_str(), target_.c_str()) != 0) fail();
        return;
    }
    try {
        take_free_name();
    } catch (const AlreadyThere&) {
        const auto found = look_at(target_);
        const bool is_file = found && S_ISREG(found->st_mode);
        if (existing_ != Existing::same || !is_file || !same_bytes(name_, target_)) throw;
    }
}

/// A link fails where rename would overwrite a file that came in the meantime. File systems without
/// links (FAT) mostly know a rename that fails there too; for the others looking has to do.
void UnfinishedFile::take_free_name() {
    if (::link(name_.c_str(), target_.c_str()) == 0) return;
    if (errno != EEXIST) {
        const int renamed =
            ::renameat2(AT_FDCWD, name_.c_str(), AT_FDCWD, target_.c_str(), RENAME_NOREPLACE);
        if (renamed == 0) return;
    }
    if (errno == EEXIST || look_at(target_)) throw AlreadyThere(target_);
    if (::rename(name_.c_str(), target_.c_str()) != 0) fail();
}

/// The temporary name; what has got another one by now keeps that.
void UnfinishedFile::discard() noexcept {
    if (name_.empty()) return;
    ::unlink(name_.c_str());
    name_.clear();
    forget_unfinished(std::exchange(watched_, nullptr));
}

}  // namespace compline::files
