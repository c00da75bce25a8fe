#include "kicks.hpp"

#include <compline/text/numbers.hpp>

#include <algorithm>

namespace compline::chart {

namespace {

constexpr std::string_view fermata_sign = "\U0001D110";

std::string_view without(std::string_view& text, std::size_t from) {
    const auto rest = text.substr(from);
    text = text.substr(0, from);
    return rest;
}

}  // namespace

MarkedSign read_marks(std::string_view token) {
    MarkedSign read;
    const auto hold = std::min(token.find('~'), token.find(fermata_sign));
    read.hold = without(token, std::min(hold, token.size()));
    read.sign = token.substr(0, token.find_first_of("!&"));
    read.kicks = token.substr(read.sign.size());
    const auto off_beat = read.kicks.find('&');
    if (off_beat == std::string_view::npos) return read;
    // A chord behind the &, and maybe its own kick behind that.
    const auto behind = read.kicks.substr(off_beat + 1);
    if (behind.empty() || behind.front() == '!' || behind.front() == '&') return read;
    read.off_beat = behind.substr(0, behind.find_first_of("!&"));
    read.off_kick = behind.substr(read.off_beat.size());
    read.kicks = read.kicks.substr(0, off_beat);
    return read;
}

std::optional<KickMarks> read_kicks(std::string_view marks) {
    if (marks.empty()) return KickMarks{false, false};
    if (marks == "!") return KickMarks{true, false};
    if (marks == "&!") return KickMarks{false, true};
    if (marks == "!&!") return KickMarks{true, true};
    return std::nullopt;
}

std::optional<int> read_hold(std::string_view mark) {
    constexpr int usual = 2;
    constexpr int longest = 32;
    const auto digits = mark.find_first_of("0123456789");
    const auto sign = mark.substr(0, digits);
    if (sign != "~" && sign != fermata_sign) return std::nullopt;
    if (digits == std::string_view::npos) return usual;
    const auto beats = text::read_count(mark.substr(digits));
    return beats && *beats >= 1 && *beats <= longest ? beats : std::nullopt;
}

}  // namespace compline::chart
