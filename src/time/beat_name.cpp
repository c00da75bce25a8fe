#include <compline/time/beat_name.hpp>

#include <fmt/format.h>

namespace compline::time {

std::string beat_name(Ticks in_bar) {
    return fmt::format("{}{}", in_bar / quarter_note + 1,
                       in_bar % quarter_note == Ticks(0) ? "" : "&");
}

std::optional<Ticks> find_beat(std::string_view name, Meter meter) {
    const bool off = name.size() == 2 && name[1] == '&';
    const bool plain = name.size() == 1;
    const int beat = name.empty() ? 0 : name[0] - '0';
    if ((!off && !plain) || beat < 1 || beat > meter.beats()) return std::nullopt;
    return meter.beat() * (beat - 1) + (off ? eighth_note : Ticks(0));
}

}  // namespace compline::time
