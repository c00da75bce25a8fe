#include "live/stderr_catcher.hpp"

#include "support/catch.hpp"

#include <unistd.h>

#include <array>

namespace compline::tests {

StderrCatcher::StderrCatcher() : file_(std::tmpfile()), kept_(::dup(STDERR_FILENO)) {
    REQUIRE(file_ != nullptr);
    REQUIRE(kept_ >= 0);
    std::fflush(stderr);
    ::dup2(::fileno(file_), STDERR_FILENO);
}

StderrCatcher::~StderrCatcher() {
    std::fflush(stderr);
    ::dup2(kept_, STDERR_FILENO);
    ::close(kept_);
    std::fclose(file_);
}

std::string StderrCatcher::text() const {
    std::fflush(stderr);
    std::array<char, 4096> part{};
    std::string all;
    ssize_t size = 0;
    for (off_t at = 0; (size = ::pread(::fileno(file_), part.data(), part.size(), at)) > 0;
         at += size) {
        all.append(part.data(), static_cast<std::size_t>(size));
    }
    return all;
}

}  // namespace compline::tests
