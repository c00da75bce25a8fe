#include <compline/time/beat_name.hpp>

#include <fmt/format.h>

namespace compline::time {

std::string beat_name(Ticks in_bar, Meter meter) {
    const auto counted = meter.counted();
    return fmt::format("{}{}", in_bar / counted + 1, in_bar % counted == Ticks(0) ? "" : "&");
}

std::optional<Ticks> find_beat(std::string_view name, Meter meter) {
    const bool off = !name.empty() && name.back() == '&';
    const auto digits = off ? name.substr(0, name.size() - 1) : name;
    const auto counted = meter.counted();
    // Between two eighths of 6/8 nothing has a name.
    if (digits.empty() || digits.size() > 2 || (off && meter.is_compound())) return std::nullopt;
    int beat = 0;
    for (const char c : digits) {
        if (c < '0' || c > '9') return std::nullopt;
        beat = beat * 10 + (c - '0');
    }
    const auto last = meter.bar() / counted;
    if (digits.front() == '0' || beat > last) return std::nullopt;
    return counted * (beat - 1) + (off ? eighth_note : Ticks(0));
}

}  // namespace compline::time
