#include "full_disk.hpp"

#include <sqlite3.h>
#include <unistd.h>

#include <cerrno>

namespace compline::tests {

namespace {

std::int64_t bytes_left = 0;

ssize_t write_while_there_is_room(int file, const void* bytes, size_t count, off_t at) {
    bytes_left -= static_cast<std::int64_t>(count);
    if (bytes_left >= 0) return ::pwrite(file, bytes, count, at);
    errno = ENOSPC;
    return -1;
}

void set(const char* name, sqlite3_syscall_ptr call) {
    auto* const system = sqlite3_vfs_find(nullptr);
    system->xSetSystemCall(system, name, call);
}

/// SQLite's own ways to call what may have been compiled in as either.
constexpr const char* ways_to_write[] = {"pwrite", "pwrite64"};

}  // namespace

FullDisk::FullDisk(std::int64_t left) {
    bytes_left = left;
    for (const auto* name : ways_to_write) {
        set(name, reinterpret_cast<sqlite3_syscall_ptr>(write_while_there_is_room));
    }
}

FullDisk::~FullDisk() {
    for (const auto* name : ways_to_write) set(name, nullptr);
}

}  // namespace compline::tests
