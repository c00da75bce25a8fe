#include "quiet_stderr.hpp"

#include <fcntl.h>
#include <unistd.h>

#include <cstdio>

namespace compline::live {

QuietStderr::QuietStderr() : kept_(::fcntl(STDERR_FILENO, F_DUPFD_CLOEXEC, STDERR_FILENO + 1)) {
    std::fflush(stderr);
    const int nowhere = ::open("/dev/null", O_WRONLY | O_CLOEXEC);
    if (nowhere < 0 || nowhere == STDERR_FILENO) return;
    ::dup2(nowhere, STDERR_FILENO);
    ::close(nowhere);
}

QuietStderr::~QuietStderr() {
    std::fflush(stderr);
    if (kept_ < 0) {
        ::close(STDERR_FILENO);
        return;
    }
    ::dup2(kept_, STDERR_FILENO);
    ::close(kept_);
}

}  // namespace compline::live
