#include "background_program.hpp"

#include <fcntl.h>
#include <sys/prctl.h>
#include <sys/wait.h>
#include <unistd.h>

#include <csignal>
#include <stdexcept>

namespace compline::outside {

namespace {

/// In the child: nothing but system calls, then the program.
[[noreturn]] void become(char* const* words, int in, int out, int err) {
    ::prctl(PR_SET_PDEATHSIG, SIGKILL);
    ::dup2(in, STDIN_FILENO);
    ::dup2(out, STDOUT_FILENO);
    ::dup2(err, STDERR_FILENO);
    ::execv(words[0], words);
    ::_exit(127);
}

int open_for_writing(const std::filesystem::path& path) {
    return ::open(path.c_str(), O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC, 0600);
}

pid_t start(std::vector<std::string>& words, const BackgroundProgram::Streams& streams) {
    std::vector<char*> pointers;
    pointers.reserve(words.size() + 1);
    for (auto& word : words) pointers.push_back(word.data());
    pointers.push_back(nullptr);
    const int out = open_for_writing(streams.out);
    const int err = open_for_writing(streams.err);
    const int nothing = ::open("/dev/null", O_RDONLY | O_CLOEXEC);
    const pid_t process = ::fork();
    if (process == 0) {
        become(pointers.data(), streams.terminal.value_or(nothing), out,
               streams.terminal.value_or(err));
    }
    for (const int file : {out, err, nothing}) ::close(file);
    return process;
}

}  // namespace

BackgroundProgram::BackgroundProgram(std::vector<std::string> words, const Streams& streams)
    : process_(start(words, streams)) {
    if (process_ < 0) throw std::runtime_error("no process to be had for " + words[0]);
}

BackgroundProgram::~BackgroundProgram() {
    if (process_ < 0) return;
    ::kill(process_, SIGKILL);
    ::waitpid(process_, nullptr, 0);
}

void BackgroundProgram::signal(int number) const {
    if (process_ > 0) ::kill(process_, number);
}

int BackgroundProgram::wait(double seconds) {
    int status = 0;
    bool ended = false;
    for (int turn = 0; turn < static_cast<int>(seconds * 200) && !ended; ++turn) {
        ended = ::waitpid(process_, &status, WNOHANG) == process_;
        if (!ended) ::usleep(5000);
    }
    if (!ended) {
        ::kill(process_, SIGKILL);
        ::waitpid(process_, nullptr, 0);
    }
    process_ = -1;
    if (!ended) return -1;
    return WIFSIGNALED(status) ? 128 + WTERMSIG(status) : WEXITSTATUS(status);
}

}  // namespace compline::outside
