#include "same_port.hpp"

#include <compline/text/numbers.hpp>

#include <algorithm>

namespace compline::live {

namespace {

bool is_among(const std::vector<std::string>& names, const std::string& name) {
    return std::find(names.begin(), names.end(), name) != names.end();
}

/// ALSA's client and port: a unit that is plugged in again may get others.
std::string without_alsa_numbers(const std::string& name) {
    const auto blank = name.rfind(' ');
    if (blank == std::string::npos) return name;
    const auto numbers = name.substr(blank + 1);
    const auto colon = numbers.find(':');
    const bool are_two = colon != std::string::npos && text::read_count(numbers.substr(0, colon)) &&
                         text::read_count(numbers.substr(colon + 1));
    return are_two ? name.substr(0, blank) : name;
}

}  // namespace

std::optional<std::string> same_port(const std::string& opened,
                                     const std::vector<std::string>& there,
                                     const std::vector<std::string>& others) {
    if (is_among(there, opened)) return opened;
    for (const auto& name : there) {
        const bool was_there = is_among(others, name);
        if (!was_there && without_alsa_numbers(name) == without_alsa_numbers(opened)) return name;
    }
    return std::nullopt;
}

}  // namespace compline::live
