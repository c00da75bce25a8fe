#include "sheet_composer.hpp"

#include "sheet_bars.hpp"
#include "sheet_rows.hpp"
#include "sheet_signs.hpp"
#include "voicing_words.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace compline::report {

namespace {

using chart::Passage;

constexpr double words_height = 7;

}  // namespace

RowComposer::RowComposer(const chart::Form& form, const guitar::VoicingPlan& plan, Sheet& sheet)
    : form_(form), plan_(plan), sheet_(sheet), parts_(parts_of(form, plan)) {
    write({});
}

bool RowComposer::has_repeats() const {
    return std::any_of(parts_.begin(), parts_.end(),
                       [](const SectionPart& part) { return part.as.has_value(); });
}

void RowComposer::write(const std::set<std::string>& written_out) {
    written_ = as_written(form_, plan_.passage, [&](Passage earlier, Passage again) {
        return written_out.count(form_.bar(earlier.from).section) == 0 &&
               is_drawn_once(form_, plan_, earlier, again);
    });
    sheet_.bars = sheet_bars(form_, plan_, written_);
}

bool RowComposer::compose(Concessions made) {
    rows_.clear();
    was_split_ = false;
    for (std::size_t first = 0; first < sheet_.bars.size();) {
        std::size_t end = first + 1;
        while (end < sheet_.bars.size() && !written_[end].begins_section) ++end;
        const int behind = end < sheet_.bars.size() ? written_[end].number : plan_.passage.to + 1;
        if (!made.fold || !add_references({written_[first].number, behind - 1})) {
            add_section(first, end, made.tails);
        }
        first = end;
    }
    return made.split || !was_split_;
}

bool RowComposer::add_references(Passage bars) {
    std::vector<SheetRow> references;
    for (const auto& part : parts_) {
        if (part.bars.from < bars.from || part.bars.from > bars.to) continue;
        if (!part.as) return false;
        references.push_back(reference(part));
    }
    rows_.insert(rows_.end(), references.begin(), references.end());
    return true;
}

SheetRow RowComposer::reference(const SectionPart& part) const {
    SheetRow row;
    row.letter = part.section;
    row.words = fmt::format("bars {}–{} as {}", part.bars.from, part.bars.to,
                            drawn_at(parts_[*part.as].bars));
    if (!part.same_way_in) row.words += "; " + start_words(part);
    row.height = words_height + (is_letter(row.letter) ? 0 : name_size);
    return row;
}

std::string RowComposer::drawn_at(Passage bars) const {
    std::vector<Passage> runs;
    for (int bar = bars.from; bar <= bars.to; ++bar) {
        const int there = where_written(form_, written_, bar);
        if (runs.empty() || runs.back().to + 1 != there) runs.push_back({there, there});
        runs.back().to = there;
    }
    std::string words;
    for (const auto& run : runs) {
        words += words.empty() ? "bars " : ", ";
        words += run.bars() > 1 || runs.size() == 1 ? fmt::format("{}–{}", run.from, run.to)
                                                    : std::to_string(run.from);
    }
    return words;
}

std::string RowComposer::start_words(const SectionPart& part) const {
    std::string text = "into " + place_words(plan_.voicings[part.first].change);
    const char* before = ": ";
    for (const auto& words : finger_words(plan_.moves[part.first])) {
        text += before + words;
        before = ", ";
    }
    return text;
}

void RowComposer::add_section(std::size_t first, std::size_t end, bool tails) {
    const auto first_row = rows_.size();
    for (std::size_t from = first; from < end;) {
        const auto count = bars_of_row(first, from, end, tails);
        add_rows(from, count);
        from += count;
    }
    auto& row = rows_[first_row];
    row.letter = form_.bar(written_[first].number).section;
    row.begins_coda = written_[first].begins_coda;
    for (std::size_t i = first_row; i < rows_.size(); ++i) {
        finish(rows_[i]);
        rows_[i].goes_on = written_[first].begins_repeat && i + 1 < rows_.size();
    }
}

std::size_t RowComposer::bars_of_row(std::size_t section, std::size_t from, std::size_t end,
                                     bool tails) const {
    const auto has_ending = [&](std::size_t to) {
        return std::any_of(at(section), at(to), [](const auto& b) { return b.in_ending; });
    };
    std::size_t to = from + 1;
    while (to < end && (written_[to].ending.empty() || !has_ending(to))) ++to;
    const auto all = to - from;
    if (tails && all > most_bars && all <= most_bars + 2 && make_row(sheet_, from, all)) {
        return all;
    }
    return std::min<std::size_t>(all, most_bars);
}

std::vector<BarAsWritten>::const_iterator RowComposer::at(std::size_t bar) const {
    return written_.begin() + static_cast<std::ptrdiff_t>(bar);
}

void RowComposer::add_rows(std::size_t first, std::size_t count) {
    auto row = make_row(sheet_, first, count);
    if (!row && count > 1) {
        was_split_ = true;
        const auto half = (count + 1) / 2;
        add_rows(first, half);
        add_rows(first + half, count - half);
        return;
    }
    rows_.push_back(row ? *row : crowded_row(sheet_, first));
}

void RowComposer::finish(SheetRow& row) const {
    put_over(row, sheet_);
    row.has_diagrams = std::any_of(row.bars.begin(), row.bars.end(), [](const auto& placed) {
        const auto& changes = placed.bar->changes;
        return placed.simile || std::any_of(changes.begin(), changes.end(),
                                            [](const auto& c) { return c.voicing != nullptr; });
    });
    row.height = row.above + (row.has_diagrams ? sheet_.measures.row_height()
                                               : sheet_.measures.low_row_height());
}

}  // namespace compline::report
