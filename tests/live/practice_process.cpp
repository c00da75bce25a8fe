#include "live/practice_process.hpp"

#include <fcntl.h>
#include <sys/prctl.h>
#include <sys/wait.h>
#include <unistd.h>

#include <csignal>
#include <cstdlib>
#include <utility>

namespace compline::tests {

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

}  // namespace

PracticeProcess::PracticeProcess(const std::vector<std::string>& arguments,
                                 std::optional<int> terminal) {
    // Takes of the tests do not belong among the player's.
    ::setenv("XDG_DATA_HOME", folder_.file("data").c_str(), 1);
    std::vector<std::string> words{COMPLINE_PROGRAM, "practice"};
    words.insert(words.end(), arguments.begin(), arguments.end());
    std::vector<char*> pointers;
    for (auto& word : words) pointers.push_back(word.data());
    pointers.push_back(nullptr);
    const int out = open_for_writing(folder_.file("out"));
    const int err = open_for_writing(folder_.file("err"));
    const int nothing = ::open("/dev/null", O_RDONLY | O_CLOEXEC);
    process_ = ::fork();
    if (process_ == 0)
        become(pointers.data(), terminal.value_or(nothing), out, terminal.value_or(err));
    ::close(out);
    ::close(err);
    ::close(nothing);
    REQUIRE(process_ > 0);
}

PracticeProcess::~PracticeProcess() {
    if (process_ < 0) return;
    ::kill(process_, SIGKILL);
    ::waitpid(process_, nullptr, 0);
}

void PracticeProcess::signal(int number) const {
    if (process_ > 0) ::kill(process_, number);
}

Ran PracticeProcess::wait(double seconds) {
    int status = 0;
    bool ended = false;
    for (int turn = 0; turn < static_cast<int>(seconds * 200) && !ended; ++turn) {
        ended = ::waitpid(process_, &status, WNOHANG) == process_;
        if (!ended) ::usleep(5000);
    }
    Ran ran;
    if (!ended) {
        ::kill(process_, SIGKILL);
        ::waitpid(process_, nullptr, 0);
    }
    process_ = -1;
    ran.status = !ended ? -1 : WIFSIGNALED(status) ? 128 + WTERMSIG(status) : WEXITSTATUS(status);
    ran.out = midi::load_text(folder_.file("out"));
    ran.err = err();
    return ran;
}

std::string PracticeProcess::err() const { return midi::load_text(folder_.file("err")); }

}  // namespace compline::tests
