#include <compline/chart/chart.hpp>
#include <compline/roadmap/ladder.hpp>
#include <compline/text/bad_input.hpp>
#include <compline/text/numbers.hpp>
#include <compline/text/printable.hpp>

#include <fmt/format.h>

#include <array>

namespace compline::roadmap {

namespace {

using text::BadInput;

constexpr const char* advice = "write the tempo to begin with and the one to reach, such as 96-132";

constexpr std::array<std::string_view, 4> judged_names{"clean", "not clean", "too little",
                                                       "not whole"};
constexpr std::array<std::string_view, 5> next_names{"again", "faster", "slower", "section",
                                                     "enough"};

std::string_view without_blanks(std::string_view text) {
    while (!text.empty() && text.front() == ' ') text.remove_prefix(1);
    while (!text.empty() && text.back() == ' ') text.remove_suffix(1);
    return text;
}

/// Digits alone: a ladder moves in whole beats a minute.
int read_tempo(std::string_view typed) {
    const auto text = without_blanks(typed);
    if (text.empty()) throw BadInput("", "one of its two tempi is missing", advice);
    const auto tempo = text::read_count(text);
    if (tempo) return *tempo;
    if (text::read_decimal(text) && text.find('.') != std::string_view::npos) {
        throw BadInput("", fmt::format("{} is not a whole number of beats a minute", text), advice);
    }
    throw BadInput("", fmt::format("{} is no tempo", text::quoted(text)), advice);
}

void refuse_unplayable(int from, int to) {
    const auto slowest = static_cast<int>(chart::slowest_bpm);
    const auto fastest = static_cast<int>(chart::fastest_bpm);
    if (from < slowest) {
        throw BadInput("", fmt::format("a ladder that begins at {}", from),
                       fmt::format("{} is the slowest tempo that can be played", slowest));
    }
    if (to > fastest) {
        throw BadInput("", fmt::format("a ladder that ends at {}", to),
                       fmt::format("{} is the fastest tempo that can be played", fastest));
    }
}

}  // namespace

AskedLadder read_ladder(std::string_view text) {
    const auto dash = text.find('-');
    if (dash == std::string_view::npos) {
        const int one = read_tempo(text);
        throw BadInput("", fmt::format("{} alone is no ladder", one), advice);
    }
    const int from = read_tempo(text.substr(0, dash));
    const int to = read_tempo(text.substr(dash + 1));
    if (from > to) {
        throw BadInput("", "a ladder goes up", fmt::format("write {}-{}", to, from));
    }
    if (from == to) {
        throw BadInput("", fmt::format("a ladder of one tempo leads nowhere"),
                       fmt::format("leave it out for --tempo {}, or write two tempi", from));
    }
    refuse_unplayable(from, to);
    return {time::Bpm(from), time::Bpm(to)};
}

std::string_view name_of(LadderStep::Judged judged) {
    return judged_names.at(static_cast<std::size_t>(judged));
}

std::string_view name_of(LadderStep::Next next) {
    return next_names.at(static_cast<std::size_t>(next));
}

}  // namespace compline::roadmap
