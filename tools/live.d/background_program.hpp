#pragma once

#include <sys/types.h>

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

namespace compline::outside {

/// A program in the background: to be signalled, watched and waited for. It ends (SIGKILL) with
/// this object at the latest, and with the process that started it, even a crashed one.
class BackgroundProgram {
  public:
    /// Where the program writes to, and a terminal's descriptor that is to be its standard input
    /// and standard error instead of nothing and of `err`.
    struct Streams {
        std::filesystem::path out;
        std::filesystem::path err;
        std::optional<int> terminal;
    };

    /// words[0]: the program's path. Throws std::runtime_error when there is no new process to be
    /// had; a program that is not there ends with status 127.
    BackgroundProgram(std::vector<std::string> words, const Streams& streams);
    ~BackgroundProgram();
    BackgroundProgram(const BackgroundProgram&) = delete;
    BackgroundProgram& operator=(const BackgroundProgram&) = delete;

    /// None is sent once it was waited for.
    void signal(int number) const;

    /// Its process; -1 once it was waited for.
    [[nodiscard]] pid_t process() const { return process_; }

    /// Until it ends; its status (128 + n when signal n ended it). Killed, and -1, when it takes
    /// longer than that.
    int wait(double seconds);

  private:
    pid_t process_;
};

}  // namespace compline::outside
