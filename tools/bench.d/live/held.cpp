#include "held.hpp"

#include <fmt/format.h>

#include <fstream>
#include <stdexcept>
#include <string>

namespace compline::bench {

Held held_by(pid_t process) {
    std::ifstream status(fmt::format("/proc/{}/status", process));
    Held held;
    bool found = false;
    double kilobytes = 0;
    for (std::string word; status >> word;) {
        if (word == "RssAnon:" || word == "RssFile:") {
            if (status >> kilobytes) held.own += kilobytes / 1024;
            found = true;
        } else if (word == "RssShmem:" && status >> kilobytes) {
            held.shared = kilobytes / 1024;
        }
    }
    if (!found) throw std::runtime_error("the program ended before its time");
    return held;
}

}  // namespace compline::bench
