#include <compline/practice/want.hpp>

#include <array>

namespace compline::practice {

namespace {

struct NamedWant {
    const char* words;
    Want want;
};

constexpr std::array<NamedWant, 12> table = {{
    {"loop here", {Command::loop_here}},
    {"leave the loop", {Command::leave_loop}},
    {"pause", {Command::pause, &State::paused, Command::go_on}},
    {"go on", {Command::go_on}},
    {"cue", {Command::go_on}},
    {"slower", {Command::slower}},
    {"faster", {Command::faster}},
    {"drums", {Command::drums_on, &State::drums, Command::drums_off}},
    {"bass", {Command::bass_on, &State::bass, Command::bass_off}},
    {"from the top", {Command::from_the_top}},
    {"start over", {Command::start_over}},
    {"stop", {Command::stop}},
}};

}  // namespace

std::optional<Want> want_named(std::string_view words) {
    for (const auto& named : table) {
        if (named.words == words) return named.want;
    }
    return std::nullopt;
}

std::vector<std::string> want_names() {
    std::vector<std::string> names;
    for (const auto& named : table) names.emplace_back(named.words);
    return names;
}

}  // namespace compline::practice
