#include "calibration_gear.hpp"

#include "keys.hpp"
#include "stop_signals.hpp"

#include <fmt/format.h>
#include <unistd.h>

#include <chrono>
#include <cstdio>
#include <optional>
#include <thread>

namespace compline::app {

namespace {

constexpr std::chrono::milliseconds between_keys{20};

bool somebody_is_there() { return ::isatty(STDIN_FILENO) == 1; }

/// What the first key means that means something.
template <typename Meaning>
bool first_key(const std::string& words, Meaning meaning) {
    fmt::print(stderr, "{}\n", words);
    Keys keys;
    while (!stop_was_asked()) {
        if (const auto key = keys.read()) {
            if (const auto answer = meaning(*key)) return *answer;
        } else {
            std::this_thread::sleep_for(between_keys);
        }
    }
    return false;
}

}  // namespace

bool is_enter(const KeyPress& key) { return key == KeyPress('\n') || key == KeyPress('\r'); }

WaitingLine::WaitingLine() : is_terminal_(::isatty(STDERR_FILENO) == 1) {}

WaitingLine::~WaitingLine() {
    if (is_terminal_ && !shown_.empty()) fmt::print(stderr, "\n");
}

void WaitingLine::show(const std::string& words) {
    if (!is_terminal_ || words == shown_) return;
    const auto blanks = shown_.size() > words.size() ? shown_.size() - words.size() : 0;
    fmt::print(stderr, "\r  {}{}", words, std::string(blanks, ' '));
    std::fflush(stderr);
    shown_ = words;
}

bool enter_pressed(const std::string& words) {
    if (!somebody_is_there()) return true;
    return first_key(words, [](const KeyPress& key) -> std::optional<bool> {
        if (is_enter(key)) return true;
        if (key == KeyPress('q')) return false;
        return std::nullopt;
    });
}

bool yes_pressed(const std::string& words) {
    if (!somebody_is_there()) return false;
    return first_key(words, [](const KeyPress& key) -> std::optional<bool> {
        return key == KeyPress('y') || key == KeyPress('Y');
    });
}

}  // namespace compline::app
