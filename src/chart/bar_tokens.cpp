#include "bar_tokens.hpp"

#include <algorithm>

namespace compline::chart {

namespace {

bool opens_inside(std::string_view text, std::size_t at) {
    return at > 0 && text[at] == '(' && text[at - 1] != ' ' && text[at - 1] != '|' &&
           text[at - 1] != '(';
}

/// Behind the symbol that begins at `start`.
std::size_t end_of_symbol(std::string_view text, std::size_t start, std::size_t to) {
    std::size_t at = start;
    while (at < to && text[at] != ' ') {
        const auto close = text.find(')', at);
        const bool own = at > start && text[at] == '(' && close < to;
        at = own ? close + 1 : at + 1;
    }
    return at;
}

bool closes_more_than_it_opens(std::string_view text) {
    return std::count(text.begin(), text.end(), ')') > std::count(text.begin(), text.end(), '(');
}

/// Takes the ) of a group off a part of a sign.
bool take_closing(std::string_view& part) {
    const bool closing = part.size() > 1 && part.back() == ')';
    if (!closing || !closes_more_than_it_opens(part)) return false;
    part.remove_suffix(1);
    return true;
}

}  // namespace

std::size_t BarToken::place_of(std::string_view part) const {
    return line->offset_at(byte + static_cast<std::size_t>(part.data() - text.data()));
}

BarToken BarToken::off_beat() const {
    const auto& chord = marks.off_beat;
    const auto behind = static_cast<std::size_t>(chord.data() - text.data());
    return {chord, {}, place_of(chord), line, byte + behind, optional};
}

KickMarks BarToken::kicks() const {
    auto kicks = read_kicks(marks.kicks).value_or(KickMarks{});
    if (!marks.off_beat.empty()) kicks.off_beat = marks.off_kick == "!";
    return kicks;
}

BarTokens tokens_of_bar(const yaml::TextLine& line, std::size_t from, std::size_t to) {
    BarTokens bar;
    const std::string_view text = line.text;
    for (std::size_t at = from; at < to;) {
        std::size_t start = std::min(text.find_first_not_of(' ', at), to);
        if (start < to && text[start] == '(' && !bar.unclosed) {
            bar.unclosed = start;
            start = std::min(text.find_first_not_of(' ', start + 1), to);
        }
        const std::size_t end = end_of_symbol(text, start, to);
        const bool closes_alone = end == start + 1 && text[start] == ')' && bar.unclosed &&
                                  !bar.tokens.empty() && bar.tokens.back().optional;
        if (closes_alone) {
            bar.unclosed.reset();
        } else if (start < end) {
            auto sign = text.substr(start, end - start);
            const bool optional = bar.unclosed.has_value();
            bool closes = optional && take_closing(sign);  // behind its marks
            auto marks = read_marks(sign);
            closes = closes || (optional && take_closing(marks.sign));  // or before them
            bar.tokens.push_back(
                {marks.sign, marks, line.offset_at(start), &line, start, optional});
            if (closes) bar.unclosed.reset();
        }
        at = end;
    }
    return bar;
}

bool in_a_symbol(std::string_view text, std::size_t at) {
    const auto bar = text.find_last_of('|', at);
    const auto from = bar == std::string_view::npos ? 0 : bar;
    const auto open = text.find_last_of("()", at);
    const auto close = text.find_first_of("|)", at);
    return open != std::string_view::npos && open > from && opens_inside(text, open) &&
           close != std::string_view::npos && text[close] == ')';
}

}  // namespace compline::chart
