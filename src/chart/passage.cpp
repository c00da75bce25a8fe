#include <compline/chart/form.hpp>
#include <compline/text/bad_input.hpp>
#include <compline/text/numbers.hpp>
#include <compline/text/printable.hpp>
#include <compline/text/words.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cstddef>
#include <optional>

namespace compline::chart {

namespace {

constexpr std::string_view how_to_write =
    "write bars as 9-12 or 9, or a section as B, B:1-4 or, for the second A, A@2:1-4";

[[noreturn]] void refuse(const std::string& what) { throw text::BadInput(what); }

/// "1 bar", "8 bars".
std::string bars_in_words(int n) { return fmt::format("{} bar{}", n, n == 1 ? "" : "s"); }

/// "9-12" or "9" of `whole` ("the form", "section \"B\""), which has `bars` bars.
Passage read_range(std::string_view range, int bars, const std::string& whole) {
    const std::size_t hyphen = std::min(range.find('-'), range.size());
    const auto from = text::read_count(range.substr(0, hyphen));
    const auto to = hyphen == range.size() ? from : text::read_count(range.substr(hyphen + 1));
    if (!from || !to) {
        refuse(fmt::format("{} does not name bars: {}", text::quoted(range), how_to_write));
    }
    if (*from == 0 || *to == 0) refuse("there is no bar 0: bars are counted from 1");
    if (const int last = std::max(*from, *to); last > bars) {
        refuse(fmt::format("there is no bar {}: {} has {}", last, whole, bars_in_words(bars)));
    }
    if (*from > *to) {
        refuse(fmt::format("bars {}-{} run backwards: write {}-{}", *from, *to, *to, *from));
    }
    return {*from, *to};
}

std::vector<std::string> sections_played(const Form& form) {
    std::vector<std::string> names;
    for (const auto& bar : form.bars) {
        if (std::find(names.begin(), names.end(), bar.section) == names.end()) {
            names.push_back(bar.section);
        }
    }
    return names;
}

/// All bars of one playing of a section.
Passage whole_section(const Form& form, std::string_view name, int occurrence) {
    int times = 0;
    Passage found{0, 0};
    for (const auto& bar : form.bars) {
        if (bar.section != name) continue;
        times = bar.occurrence;
        if (bar.occurrence != occurrence) continue;
        if (found.from == 0) found.from = bar.number;
        found.to = bar.number;
    }
    if (times == 0) {
        refuse(fmt::format("there is no section {} in the form: it has {}", text::quoted(name),
                           text::listed(sections_played(form))));
    }
    if (found.from == 0) {
        refuse(fmt::format("there is no {}@{}: the form has {} {} time{}", text::printable(name),
                           occurrence, text::printable(name), times, times == 1 ? "" : "s"));
    }
    return found;
}

int read_occurrence(std::string_view text) {
    const auto count = text::read_count(text);
    if (!count || *count == 0) {
        refuse(fmt::format("{} behind @ does not say which one: {}", text::quoted(text),
                           how_to_write));
    }
    return *count;
}

/// What stands before the first such mark, and behind it where there is one.
struct Parts {
    std::string_view before;
    std::optional<std::string_view> behind;
};

Parts split_at(char mark, std::string_view text) {
    const auto at = text.find(mark);
    if (at == std::string_view::npos) return {text, std::nullopt};
    return {text.substr(0, at), text.substr(at + 1)};
}

/// The second A was once written A#2, which is a chord to everybody else.
void answer_old_writing(const Form& form, std::string_view section) {
    const auto [name, number] = split_at('#', section);
    if (!number || !text::read_count(*number)) return;
    (void)whole_section(form, name, 1);  // or there is no such section, however it is written
    refuse(fmt::format("{0}#{1} is written {0}@{1} now", text::printable(name), *number));
}

Passage read_section_passage(const Form& form, std::string_view text) {
    const auto [section, bars] = split_at(':', text);
    answer_old_writing(form, section);
    const auto [name, occurrence] = split_at('@', section);
    const Passage all = whole_section(form, name, occurrence ? read_occurrence(*occurrence) : 1);
    if (!bars) return all;
    const auto part = read_range(*bars, all.bars(), fmt::format("section {}", text::quoted(name)));
    return {all.from + part.from - 1, all.from + part.to - 1};
}

}  // namespace

Passage read_passage(const Form& form, std::string_view text) {
    if (text.empty()) refuse(fmt::format("no bars are named: {}", how_to_write));
    const bool by_number = (text.front() >= '0' && text.front() <= '9') || text.front() == '-';
    if (by_number) return read_range(text, static_cast<int>(form.bars.size()), "the form");
    return read_section_passage(form, text);
}

}  // namespace compline::chart
