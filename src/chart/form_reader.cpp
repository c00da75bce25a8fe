#include "form_reader.hpp"

#include <compline/chart/form.hpp>
#include <compline/text/numbers.hpp>
#include <compline/text/printable.hpp>
#include <compline/text/words.hpp>
#include <compline/yaml/map_reader.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <string>
#include <string_view>
#include <utility>

namespace compline::chart {

namespace {

using Kind = yaml::TreeNode::Kind;

constexpr int most_times = 100;

std::vector<std::string> names_of(const Sections& sections, bool has_coda) {
    std::vector<std::string> names;
    for (const auto& section : sections.list) {
        if (!has_coda || section.name != coda_name) names.push_back(section.name);
    }
    return names;
}

std::string form_advice(const yaml::TreeNode& node) {
    std::vector<std::string> letters;
    for (const char c : node.text) {
        if (c >= 'A' && c <= 'Z') letters.emplace_back(1, c);
    }
    const bool plausible = node.text.size() <= 16 && letters.size() > 1;
    if (!plausible) letters = {"A", "A", "B", "A"};
    std::string text;
    for (const auto& letter : letters) text += (text.empty() ? "" : ", ") + letter;
    return fmt::format(
        "{} where the form was expected: write it as a list of section names, such "
        "as [{}]",
        yaml::kind_name(node), text);
}

/// Takes a last word and the blanks before it off a text; empty when there is only one.
std::string_view take_last_word(std::string_view& text) {
    const auto blank = text.find_last_of(' ');
    if (blank == std::string_view::npos) return {};
    const auto word = text.substr(blank + 1);
    text = text.substr(0, blank);
    text = text.substr(0, text.find_last_not_of(' ') + 1);
    return word;
}

/// What stands for one item of the list.
struct FormItem {
    FormPart part;
    int times = 1;
};

/// One item is read after the other.
class FormReader {
  public:
    FormReader(const Sections& sections, bool has_coda, const yaml::FileReading& reading)
        : sections_(sections), has_coda_(has_coda), reading_(reading) {}

    std::vector<FormPart> read(const yaml::TreeNode& list) {
        std::vector<FormPart> form;
        for (const auto& item : list.items) {
            if (item.kind == Kind::refused) continue;
            yaml::refuse_comment_behind(item, reading_);
            if (item.kind != Kind::text) {
                reading_.problems.add(item.kind == Kind::nothing ? list.offset : item.offset,
                                      fmt::format("{} in the form where the name of a section was "
                                                  "expected",
                                                  yaml::kind_name(item)));
                continue;
            }
            const auto read = read_item(item);
            if (read) form.insert(form.end(), static_cast<std::size_t>(read->times), read->part);
        }
        return form;
    }

  private:
    [[nodiscard]] const Section* find(std::string_view name) const {
        const auto found = std::find_if(sections_.list.begin(), sections_.list.end(),
                                        [&](const Section& s) { return s.name == name; });
        return found == sections_.list.end() ? nullptr : &*found;
    }

    std::optional<FormItem> read_item(const yaml::TreeNode& item) {
        std::string_view name = item.text;
        FormItem read;
        if (find(name) == nullptr && !take_suffix(item, name, read)) return std::nullopt;
        const auto* const section = find(name);
        if (section == nullptr) {
            refuse_name(item, name);
            return std::nullopt;
        }
        if (has_coda_ && name == coda_name) {
            reading_.problems.add(item.offset,
                                  "the Coda is played by al coda in the road map, and by nothing "
                                  "else: take it out of the form");
            return std::nullopt;
        }
        if (read.part.ending && !has_ending(item, *section, *read.part.ending)) {
            return std::nullopt;
        }
        read.part.section = section->name;
        return read;
    }

    /// "A x2" or "A ending 2": takes off the name what is none of it. False: reported.
    bool take_suffix(const yaml::TreeNode& item, std::string_view& name, FormItem& read) {
        auto rest = name;
        const auto last = take_last_word(rest);
        const auto number = text::read_count(last);
        auto before = rest;
        if (number && text::same_but_for_capitals(take_last_word(before), "ending")) {
            read.part.ending = *number;
            name = before;
            return true;
        }
        const auto times = last.size() > 1 && (last[0] == 'x' || last[0] == 'X')
                               ? text::read_count(last.substr(1))
                               : std::nullopt;
        if (!times) return true;
        if (*times < 1 || *times > most_times) {
            reading_.problems.add(
                item.offset, fmt::format("{} times in a row: write x1 to x{}", *times, most_times));
            return false;
        }
        read.times = *times;
        name = rest;
        return true;
    }

    bool has_ending(const yaml::TreeNode& item, const Section& section, int number) {
        if (find_ending(section, number) != nullptr) return true;
        reading_.problems.add(
            item.offset,
            section.endings.empty()
                ? fmt::format("section {} has no endings: write them, or its name alone",
                              text::quoted(section.name))
                : fmt::format("section {} has no ending {}: write one from 1 to {}",
                              text::quoted(section.name), number,
                              section.endings.back().numbers.back()));
        return false;
    }

    void refuse_name(const yaml::TreeNode& item, std::string_view name) const {
        if (!sections_.all_known) return;
        reading_.problems.add(
            item.offset,
            fmt::format("there is no section {}: the sections are {}", text::quoted(name),
                        text::listed(names_of(sections_, has_coda_))));
    }

    const Sections& sections_;
    bool has_coda_;
    const yaml::FileReading& reading_;
};

void check_length(const std::vector<FormPart>& form, const Sections& sections, std::size_t place,
                  const yaml::FileReading& reading) {
    const auto bars = bars_of_form(form, sections.list);
    if (bars <= std::size_t{most_bars}) return;
    reading.problems.add(
        place, fmt::format("the form is {} bars long: at most {} are played", bars, most_bars));
}

}  // namespace

std::vector<FormPart> read_form(const yaml::TreeNode& list, const Sections& sections, bool has_coda,
                                const yaml::FileReading& reading) {
    if (list.kind == Kind::refused) return {};
    if (list.kind != Kind::list) {
        reading.problems.add(list.offset, form_advice(list));
        return {};
    }
    auto form = FormReader(sections, has_coda, reading).read(list);
    if (list.items.empty() && reading.complete) {
        reading.problems.add(list.offset,
                             "the form is empty: name its sections in playing order, or delete the "
                             "line to play each once");
    }
    check_length(form, sections, list.offset, reading);
    return form;
}

std::vector<FormPart> form_in_file_order(const Sections& sections, bool has_coda) {
    std::vector<FormPart> form;
    for (const auto& name : names_of(sections, has_coda)) {
        const auto& section = *std::find_if(sections.list.begin(), sections.list.end(),
                                            [&](const Section& s) { return s.name == name; });
        const int times = section.endings.empty() ? 1 : section.endings.back().numbers.back();
        form.insert(form.end(), static_cast<std::size_t>(times), {name, std::nullopt});
    }
    return form;
}

}  // namespace compline::chart
