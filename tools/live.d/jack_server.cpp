#include "jack_server.hpp"

#include "private_shared_memory.hpp"

#include <fcntl.h>
#include <sys/prctl.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <csignal>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <stdexcept>
#include <system_error>
#include <vector>

namespace compline::outside {

namespace {

/// In the child: nothing but system calls, then jackd. It dies with the test, even a crashed one.
[[noreturn]] void become_jackd(char* const* arguments, const char* log_file) {
    ::prctl(PR_SET_PDEATHSIG, SIGTERM);
    const int log = ::open(log_file, O_WRONLY | O_CREAT | O_TRUNC, 0600);
    ::dup2(log, STDOUT_FILENO);
    ::dup2(log, STDERR_FILENO);
    ::execvp("jackd", arguments);
    ::_exit(127);
}

pid_t start_jackd(std::vector<std::string> words, const std::string& log_file) {
    std::vector<char*> arguments;
    arguments.reserve(words.size() + 1);
    for (auto& word : words) arguments.push_back(word.data());
    arguments.push_back(nullptr);
    const pid_t process = ::fork();
    if (process == 0) become_jackd(arguments.data(), log_file.c_str());
    return process;
}

std::vector<std::string> command(const std::string& name, const JackServerOptions& options) {
    std::vector<std::string> words{"jackd", options.realtime ? "--realtime" : "--no-realtime"};
    if (options.patient) words.emplace_back("--sync");
    words.insert(words.end(), {"--name", name, "-d", "dummy", "-r", std::to_string(options.rate),
                               "-p", std::to_string(options.period)});
    return words;
}

/// Once for all servers of this process: a second /dev/shm would hide those of the first, and
/// libjack opens the database there but once.
void keep_to_ourselves() {
    static const bool ours = private_shared_memory();
    (void)ours;
}

/// Those of this process that are there now, the youngest last.
std::vector<std::string>& servers() {
    static std::vector<std::string> names;
    return names;
}

void make_youngest_the_default() {
    if (servers().empty()) {
        ::unsetenv("JACK_DEFAULT_SERVER");
    } else {
        ::setenv("JACK_DEFAULT_SERVER", servers().back().c_str(), 1);
    }
}

std::string new_name() {
    static int made = 0;
    return "compline-trial-" + std::to_string(::getpid()) + "-" + std::to_string(++made);
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

std::vector<std::filesystem::path> shared_files_of(const std::string& server) {
    std::vector<std::filesystem::path> files;
    for (const auto& entry : std::filesystem::directory_iterator("/dev/shm")) {
        const auto name = entry.path().filename().string();
        if (name.find("_" + server + "_") != std::string::npos) files.push_back(entry.path());
    }
    return files;
}

}  // namespace

JackServer::JackServer(JackServerOptions options)
    : name_(new_name()),
      log_file_((std::filesystem::temp_directory_path() / (name_ + ".log")).string()),
      process_(-1) {
    keep_to_ourselves();
    process_ = start_jackd(command(name_, options), log_file_);
    if (process_ < 0) throw std::runtime_error("jackd could not be started");
    servers().push_back(name_);
    make_youngest_the_default();
    if (comes_true([this] { return takes_clients(); })) return;
    const auto words = "jackd takes no clients:\n" + log();
    leave();
    throw std::runtime_error(words);
}

JackServer::~JackServer() { leave(); }

void JackServer::leave() {
    auto& names = servers();
    names.erase(std::remove(names.begin(), names.end(), name_), names.end());
    make_youngest_the_default();
    end();
    remove_leftovers();
}

/// A process that ended by itself stays until it is waited for, so its number is no other's.
void JackServer::end() {
    if (process_ < 0) return;
    ::kill(process_, SIGTERM);
    if (!comes_true([this] { return ::waitpid(process_, nullptr, WNOHANG) != 0; })) kill_hard();
    process_ = -1;
}

void JackServer::kill_hard() {
    if (process_ < 0) return;
    ::kill(process_, SIGKILL);
    ::waitpid(process_, nullptr, 0);
    process_ = -1;
}

/// A killed server leaves its socket and semaphores, which carry its name. Its memory is taken back
/// by the next server that starts.
void JackServer::remove_leftovers() const {
    std::error_code ignored;
    std::filesystem::remove(log_file_, ignored);
    for (const auto& file : shared_files_of(name_)) std::filesystem::remove(file, ignored);
}

/// Seen from its socket, which must be listened to already: between the making of the one and the
/// other clients are refused. A client that knocks too early opens the database that the server is
/// still making (jackd2 1.9.21), so that nobody may knock to see.
bool JackServer::takes_clients() const {
    const std::string listened_to = " 00010000 ";  // flags, as proc(5) has them for /proc/net/unix
    std::ifstream sockets("/proc/net/unix");
    for (std::string line; std::getline(sockets, line);) {
        const bool is_ours = line.find("_" + name_ + "_") != std::string::npos;
        if (is_ours && line.find(listened_to) != std::string::npos) return true;
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
    return false;
}

}  // namespace compline::outside
