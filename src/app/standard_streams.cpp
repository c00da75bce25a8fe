#include "standard_streams.hpp"

#include <fcntl.h>
#include <unistd.h>

#include <cerrno>
#include <csignal>
#include <initializer_list>

namespace compline::app {

void secure_standard_streams() {
    for (const int stream : {STDIN_FILENO, STDOUT_FILENO, STDERR_FILENO}) {
        const bool is_closed = ::fcntl(stream, F_GETFD) == -1 && errno == EBADF;
        // The lowest number that is free, which is this one. Read only: writing to it fails.
        if (is_closed) (void)::open("/dev/null", O_RDONLY);
    }
    std::signal(SIGPIPE, SIG_IGN);
    std::signal(SIGXFSZ, SIG_IGN);
}

}  // namespace compline::app
