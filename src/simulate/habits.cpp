#include <compline/simulate/habits.hpp>
#include <compline/simulate/played.hpp>

#include <array>

namespace compline::simulate {

std::string_view name_of(Comping comping) {
    constexpr std::array<std::string_view, comping_count> names = {
        "four to the bar", "charleston", "pushes",       "on 2 and 4", "off-beats", "long",
        "sparse",          "fills",      "chord melody", "bossa"};
    return names[static_cast<std::size_t>(comping)];
}

std::string_view name_of(Deed deed) {
    constexpr std::array<std::string_view, deed_count> names = {
        "late",   "early",     "wrong third", "wrong fret", "stuck finger",  "missing seventh",
        "missed", "lost",      "wait",        "push",       "later entry",   "laid out",
        "broken", "up-stroke", "lead-in",     "approach",   "passing chord", "dead strum"};
    return names[static_cast<std::size_t>(deed)];
}

std::string_view name_of(Outcome landing) {
    constexpr std::array<std::string_view, 9> names = {
        "on_time", "pushed", "placed", "early", "late", "held", "laid_out", "missed", "astray"};
    return names[static_cast<std::size_t>(landing)];
}

std::string_view name_of(ChannelLayout channels) {
    constexpr std::array<std::string_view, channels_count> names = {
        "high string first", "low string first", "from channel 11", "one channel"};
    return names[static_cast<std::size_t>(channels)];
}

}  // namespace compline::simulate
