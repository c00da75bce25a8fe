#include "live/jack_server.hpp"

#include "live/private_shared_memory.hpp"
#include "support/catch.hpp"

#include <fcntl.h>
#include <sys/prctl.h>
#include <sys/wait.h>
#include <unistd.h>

#include <csignal>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <system_error>

namespace compline::tests {

namespace {

/// In the child: nothing but system calls, then jackd. It dies with the test, even a crashed one.
[[noreturn]] void become_jackd(const char* name, const char* log_file) {
    ::prctl(PR_SET_PDEATHSIG, SIGTERM);
    const int log = ::open(log_file, O_WRONLY | O_CREAT | O_TRUNC, 0600);
    ::dup2(log, STDOUT_FILENO);
    ::dup2(log, STDERR_FILENO);
    ::execlp("jackd", "jackd", "--no-realtime", "--name", name, "-d", "dummy", "-r", "48000", "-p",
             "256", static_cast<char*>(nullptr));
    ::_exit(127);
}

/// A busy machine may need long; a quick one is not held up.
template <class Condition>
bool comes_true(const Condition& condition) {
    for (int tries = 0; tries < 1000; ++tries) {
        if (condition()) return true;
        ::usleep(10'000);
    }
    return false;
}

}  // namespace

JackServer::JackServer()
    : name_("compline-test-" + std::to_string(::getpid())),
      log_file_((std::filesystem::temp_directory_path() / (name_ + ".log")).string()),
      process_(-1) {
    (void)private_shared_memory();
    process_ = ::fork();
    if (process_ == 0) become_jackd(name_.c_str(), log_file_.c_str());
    REQUIRE(process_ > 0);
    ::setenv("JACK_DEFAULT_SERVER", name_.c_str(), 1);
    (void)comes_true([this] { return takes_clients(); });
}

JackServer::~JackServer() {
    ::unsetenv("JACK_DEFAULT_SERVER");
    ::kill(process_, SIGTERM);
    if (!comes_true([this] { return ::waitpid(process_, nullptr, WNOHANG) != 0; })) {
        ::kill(process_, SIGKILL);
        ::waitpid(process_, nullptr, 0);
    }
    std::error_code ignored;
    std::filesystem::remove(log_file_, ignored);
}

/// Seen from its socket. A client that knocks too early opens the database that the server is still
/// making (jackd2 1.9.21).
bool JackServer::takes_clients() const {
    const std::string socket = "jack_" + name_ + "_";
    for (const auto& entry : std::filesystem::directory_iterator("/dev/shm")) {
        if (entry.path().filename().string().rfind(socket, 0) == 0) return true;
    }
    return false;
}

std::string JackServer::log() const {
    std::ifstream file(log_file_);
    return {std::istreambuf_iterator<char>(file), {}};
}

bool JackServer::installed() {
    const char* path = std::getenv("PATH");
    std::string folders = path == nullptr ? "/usr/bin" : path;
    for (std::size_t at = 0; at != std::string::npos;) {
        const std::size_t end = folders.find(':', at);
        const std::string folder = folders.substr(at, end == std::string::npos ? end : end - at);
        if (::access((folder + "/jackd").c_str(), X_OK) == 0) return true;
        at = end == std::string::npos ? end : end + 1;
    }
    const char* required = std::getenv("COMPLINE_REQUIRE_DATA");
    if (required != nullptr && std::string(required) == "1")
        FAIL("jackd is not installed (jackd2)");
    WARN("SKIPPED: jackd is not installed (package jackd2)");
    return false;
}

}  // namespace compline::tests
