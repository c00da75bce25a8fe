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

constexpr std::string_view how_to_name_bars =
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
        refuse(fmt::format("{} does not name bars: {}", text::quoted(range), how_to_name_bars));
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
                           how_to_name_bars));
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

/// "A ending 2": the name without it, and which one.
struct NamedEnding {
    std::string_view section;
    std::optional<int> ending;
};

NamedEnding read_ending(std::string_view name) {
    constexpr std::string_view word = " ending ";
    const auto at = name.rfind(word);
    if (at == std::string_view::npos) return {name, std::nullopt};
    const auto number = text::read_count(name.substr(at + word.size()));
    if (!number) return {name, std::nullopt};
    return {name.substr(0, at), number};
}

/// The bars of an ending within those of its section.
Passage whole_ending(const Form& form, std::string_view name, std::optional<int> occurrence,
                     int number) {
    Passage found{0, 0};
    int which = 0;
    for (const auto& bar : form.bars) {
        if (bar.section != name || !bar.ending) continue;
        const auto* const ending = find_ending(form.section_of(bar), number);
        const bool takes_it = ending != nullptr && ending->numbers.front() == *bar.ending;
        if (!takes_it || (occurrence && bar.occurrence != *occurrence)) continue;
        if (found.from == 0) found.from = bar.number;
        if (which == 0) which = bar.occurrence;
        if (bar.occurrence == which) found.to = bar.number;
    }
    if (found.from == 0) {
        (void)whole_section(form, name, occurrence.value_or(1));
        if (occurrence) {
            (void)whole_ending(form, name, std::nullopt, number);
            refuse(
                fmt::format("{0}@{1} does not take ending {2}: write {0} ending {2} for the one "
                            "that does",
                            text::printable(name), *occurrence, number));
        }
        refuse(fmt::format("no {} of the form takes an ending {}", text::printable(name), number));
    }
    return found;
}

/// One may be called so.
bool is_section(const Form& form, std::string_view name) {
    const auto& all = form.chart.sections;
    return std::any_of(all.begin(), all.end(), [&](const Section& s) { return s.name == name; });
}

/// Of sections that are named without `@`: the first, or the last.
enum class Unnamed { first, last };

int occurrences(const Form& form, std::string_view name) {
    int times = 0;
    for (const auto& bar : form.bars) {
        if (bar.section == name) times = bar.occurrence;
    }
    return std::max(times, 1);
}

Passage read_section_passage(const Form& form, std::string_view text, Unnamed unnamed) {
    const auto [section, bars] = split_at(':', text);
    answer_old_writing(form, section);
    const auto [plain, ending] =
        is_section(form, section) ? NamedEnding{section, std::nullopt} : read_ending(section);
    const auto [name, at] = split_at('@', plain);
    const auto named = at ? std::optional(read_occurrence(*at)) : std::nullopt;
    const int which = named.value_or(unnamed == Unnamed::last ? occurrences(form, name) : 1);
    const Passage all =
        ending ? whole_ending(form, name, named, *ending) : whole_section(form, name, which);
    if (!bars) return all;
    const auto part =
        read_range(*bars, all.bars(),
                   fmt::format("{} {}", ending ? "the ending of" : "section", text::quoted(name)));
    return {all.from + part.from - 1, all.from + part.to - 1};
}

Passage read(const Form& form, std::string_view text, Unnamed unnamed) {
    if (text.empty()) refuse(fmt::format("no bars are named: {}", how_to_name_bars));
    const bool by_number = (text.front() >= '0' && text.front() <= '9') || text.front() == '-';
    if (!by_number) return read_section_passage(form, text, unnamed);
    const auto passage = read_range(text, form.last_bar(), "the form");
    if (form.coda_from && passage.from < *form.coda_from && passage.to >= *form.coda_from) {
        refuse(
            fmt::format("bars {}-{} run into the coda, which does not follow bar {}: write "
                        "bars of the one or the other",
                        passage.from, passage.to, form.whole().to));
    }
    return passage;
}

}  // namespace

Passage read_passage(const Form& form, std::string_view text) {
    return read(form, text, Unnamed::first);
}

Passage read_last_passage(const Form& form, std::string_view text) {
    return read(form, text, Unnamed::last);
}

}  // namespace compline::chart
