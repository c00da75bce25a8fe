#include "as_written.hpp"
#include "words.hpp"

#include <compline/report/chart_rows.hpp>
#include <compline/report/columns.hpp>
#include <compline/report/lead_sheet.hpp>
#include <compline/text/printable.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cstddef>
#include <optional>
#include <utility>

namespace compline::report {

namespace {

using chart::Form;

constexpr int least_number = 2;  ///< digits

/// Words over a row, side by side, and in more lines where the window has no room for that.
class LinesAbove {
  public:
    explicit LinesAbove(int columns) : columns_(columns) {}

    void put(int column, const std::string& words) {
        for (const auto& part : in_lines(words, columns_)) put_line(column, part);
    }

    void put_at_end(const RowBar& bar, const std::string& words) {
        put(std::max(bar.column, bar.column + bar.width - columns_of(words)), words);
    }

    [[nodiscard]] std::vector<std::string> lines() const {
        auto all = full_;
        if (!line_.empty()) all.push_back(line_);
        return all;
    }

  private:
    [[nodiscard]] int end() const { return line_.empty() ? 0 : columns_of(line_) + 2; }

    void put_line(int column, const std::string& words) {
        if (words.empty()) return;
        const int latest = columns_ - columns_of(words);
        if (end() > std::max(0, latest)) {
            full_.push_back(std::move(line_));
            line_.clear();
        }
        const int at = std::max(end(), std::min(column, latest));
        line_.append(static_cast<std::size_t>(at - columns_of(line_)), ' ');
        line_ += words;
    }

    int columns_;
    std::string line_;
    std::vector<std::string> full_;
};

class LeadSheet {
  public:
    LeadSheet(const Form& form, int columns, const Form* shapes)
        : form_(form),
          digits_(std::max(least_number, static_cast<int>(std::to_string(form.last_bar()).size()))),
          rows_(chart_rows(form, form.all(), columns - digits_ - 1, shapes)),
          written_(as_written(form)) {
        if (shapes != nullptr) {
            shapes_ = chart_rows(*shapes, form.all(), columns - digits_ - 1, &form);
        }
    }

    std::vector<std::string> lines() {
        if (!form_.lead_in.empty()) add_lead_in();
        for (const auto& row : rows_.rows) {
            const auto* const first = find(row.bars.front().number);
            if (first == nullptr) continue;
            if (first->begins_coda) lines_.emplace_back();
            add_above(row, *first);
            add_row(row, *first);
            if (shapes_) add_line(shapes_->rows[shapes_->row_of(first->number)].text_alone());
        }
        return std::move(lines_);
    }

  private:
    [[nodiscard]] const BarAsWritten* find(int number) const {
        const auto found =
            std::find_if(written_.begin(), written_.end(),
                         [&](const BarAsWritten& bar) { return bar.number == number; });
        return found == written_.end() ? nullptr : &*found;
    }

    void add_line(const std::string& text) {
        lines_.push_back(std::string(static_cast<std::size_t>(digits_) + 1, ' ') + text);
    }

    void add_lead_in() {
        const auto beats = time::Beats(-form_.lead_in.front().start).count() /
                           time::Beats(form_.chart.meter.counted()).count();
        add_line(fmt::format("lead-in, {} beat{}: {}", plain(beats), beats == 1 ? "" : "s",
                             lead_in_chords(form_)));
    }

    /// The signs at their bars, words over them, and what is the section's own.
    void add_above(const ChartRow& row, const BarAsWritten& first) {
        LinesAbove above(rows_.columns);
        above.put(row.bars.front().column, first.own);
        for (const auto& bar : row.bars) {
            const auto* const written = find(bar.number);
            if (written == nullptr) continue;
            above.put(bar.column, text::printable_lines(written->cue));
            if (written->segno) above.put(bar.column, "segno");
            if (written->to_coda) above.put_at_end(bar, "to coda");
            if (written->fine) above.put_at_end(bar, "fine");
        }
        for (const auto& line : above.lines()) add_line(line);
    }

    void add_row(const ChartRow& row, const BarAsWritten& first) {
        auto text = text::printable_lines(row.text());
        const auto& last = *find(row.bars.back().number);
        if (first.begins_repeat) replace_blank(text, text.find('|') + 1);
        if (last.ends_repeat) replace_blank(text, text.size() - 2);
        if (last.times > 2) text += fmt::format(" x{}", last.times);
        lines_.push_back(fmt::format("{:>{}} {}", first.number, digits_, text));
    }

    static void replace_blank(std::string& text, std::size_t at) {
        if (at < text.size() && text[at] == ' ') text[at] = ':';
    }

    const Form& form_;
    int digits_;
    ChartRows rows_;
    std::optional<ChartRows> shapes_;
    std::vector<BarAsWritten> written_;
    std::vector<std::string> lines_;
};

}  // namespace

std::vector<std::string> lead_sheet(const Form& form, int columns, const Form* shapes) {
    return LeadSheet(form, columns, shapes).lines();
}

}  // namespace compline::report
