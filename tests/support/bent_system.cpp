#include "support/bent_system.hpp"

#include <fcntl.h>
#include <sys/syscall.h>
#include <unistd.h>

#include <atomic>
#include <cerrno>
#include <cstdio>
#include <mutex>
#include <utility>

namespace {

std::atomic<bool> links{true};
std::atomic<bool> careful_renames{true};
std::mutex on_sync_mutex;
std::function<int(int)> on_sync;

int synced(int descriptor, long number) {
    std::function<int(int)> call;
    {
        const std::lock_guard lock(on_sync_mutex);
        call = on_sync;
    }
    const int error = call ? call(descriptor) : 0;
    if (error == 0) return static_cast<int>(::syscall(number, descriptor));
    errno = error;
    return -1;
}

}  // namespace

// The linker takes these before the C library's.
// NOLINTBEGIN(readability-inconsistent-declaration-parameter-name): its names are reserved
extern "C" {

int link(const char* from, const char* to) noexcept {
    if (links) return ::linkat(AT_FDCWD, from, AT_FDCWD, to, 0);
    errno = EPERM;
    return -1;
}

int renameat2(int from_folder, const char* from, int to_folder, const char* to,
              unsigned flags) noexcept {
    if (careful_renames) {
        return static_cast<int>(::syscall(SYS_renameat2, from_folder, from, to_folder, to, flags));
    }
    errno = EINVAL;
    return -1;
}

int fsync(int descriptor) { return synced(descriptor, SYS_fsync); }
int fdatasync(int descriptor) { return synced(descriptor, SYS_fdatasync); }

}  // extern "C"
// NOLINTEND(readability-inconsistent-declaration-parameter-name)

namespace compline::tests {

NoLinks::NoLinks(Renames renames) {
    links = false;
    careful_renames = renames == Renames::without_overwriting;
}

NoLinks::~NoLinks() {
    links = true;
    careful_renames = true;
}

OnSync::OnSync(std::function<int(int)> call) {
    const std::lock_guard lock(on_sync_mutex);
    on_sync = std::move(call);
}

OnSync::~OnSync() {
    const std::lock_guard lock(on_sync_mutex);
    on_sync = nullptr;
}

}  // namespace compline::tests
