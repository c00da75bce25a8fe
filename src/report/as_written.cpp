#include "as_written.hpp"

#include <compline/chart/manner.hpp>

#include <fmt/format.h>

#include <algorithm>

namespace compline::report {

namespace {

using chart::Form;
using chart::FormBar;

/// One playing of a section.
struct Playing {
    int from = 1;
    int to = 1;
};

/// Playings in a row of one section; the coda is a row of its own.
std::vector<std::vector<Playing>> rows_of(const Form& form) {
    std::vector<std::vector<Playing>> rows;
    for (const auto& bar : form.bars) {
        if (bar.bar_in_section > 1) {
            rows.back().back().to = bar.number;
            continue;
        }
        const bool again = bar.number > 1 && bar.number != form.coda_from &&
                           form.bar(bar.number - 1).section == bar.section;
        if (!again) rows.emplace_back();
        rows.back().push_back({bar.number, bar.number});
    }
    return rows;
}

/// "1.", "1.-3.", "1. 3.": of an ending that is taken at these times in a row.
std::string ending_words(const std::vector<int>& times) {
    const bool run = times.back() - times.front() + 1 == static_cast<int>(times.size());
    if (times.size() > 2 && run) return fmt::format("{}.-{}.", times.front(), times.back());
    std::string words;
    for (const int time : times) words += fmt::format("{}{}.", words.empty() ? "" : " ", time);
    return words;
}

/// Writes one row of playings.
class RowWriter {
  public:
    RowWriter(const Form& form, const std::vector<Playing>& row, std::vector<BarAsWritten>& written)
        : form_(form), row_(row), written_(written) {}

    void write() {
        const auto first = written_.size();
        for (std::size_t time = 0; time < row_.size(); ++time) write(time);
        written_[first].begins_section = true;
        written_[first].begins_coda = form_.coda_from == row_.front().from;
        written_[first].begins_repeat = row_.size() > 1;
        written_.back().ends_part = true;
        if (!has_endings() && row_.size() > 1) {
            written_.back().ends_repeat = true;
            written_.back().times = static_cast<int>(row_.size());
        }
    }

  private:
    [[nodiscard]] bool has_endings() const { return form_.bar(row_.front().to).ending.has_value(); }

    /// All of the first time, of a later one an ending that was not taken before.
    void write(std::size_t time) {
        for (int number = row_[time].from; number <= row_[time].to; ++number) {
            const auto& bar = form_.bar(number);
            const bool is_new = bar.ending && is_first(time, *bar.ending);
            if (time > 0 && !is_new) continue;
            BarAsWritten here;
            here.number = number;
            here.in_ending = bar.ending.has_value();
            const bool opens =
                here.in_ending && (number == row_[time].from || !form_.bar(number - 1).ending);
            // One that is named in the form keeps its number.
            if (opens) {
                here.ending = ending_words(row_.size() > 1 ? times_of(*bar.ending)
                                                           : std::vector<int>{*bar.ending});
            }
            const bool closes = here.in_ending && number == row_[time].to;
            const auto times = bar.ending ? times_of(*bar.ending) : std::vector<int>{};
            here.ends_repeat =
                closes && (times.size() > 1 || times.back() < static_cast<int>(row_.size()));
            written_.push_back(here);
        }
    }

    [[nodiscard]] bool is_first(std::size_t time, int ending) const {
        return times_of(ending).front() == static_cast<int>(time) + 1;
    }

    /// At which times in this row, from 1.
    [[nodiscard]] std::vector<int> times_of(int ending) const {
        std::vector<int> times;
        for (std::size_t i = 0; i < row_.size(); ++i) {
            if (form_.bar(row_[i].to).ending == ending) times.push_back(static_cast<int>(i) + 1);
        }
        return times;
    }

    const Form& form_;
    const std::vector<Playing>& row_;
    std::vector<BarAsWritten>& written_;
};

/// The bar that stands for a sign's: that one, or where it is written once for several times.
BarAsWritten* find_written(const Form& form, std::vector<BarAsWritten>& written, int number) {
    const auto& there = form.bar(number);
    const auto like = std::find_if(written.rbegin(), written.rend(), [&](const BarAsWritten& bar) {
        const auto& here = form.bar(bar.number);
        return bar.number <= number && here.section == there.section &&
               here.ending == there.ending && here.bar_in_section == there.bar_in_section;
    });
    return like == written.rend() ? nullptr : &*like;
}

void put_sign(const Form& form, std::vector<BarAsWritten>& written, std::optional<int> number,
              bool BarAsWritten::*sign) {
    auto* const bar = number ? find_written(form, written, *number) : nullptr;
    if (bar != nullptr) bar->*sign = true;
}

}  // namespace

std::string lead_in_chords(const Form& form) {
    std::string chords;
    for (const auto& span : form.lead_in) {
        chords += (chords.empty() ? "" : " ") + (span.chord ? span.chord->symbol() : "N.C.");
    }
    return chords;
}

std::vector<BarAsWritten> as_written(const Form& form) {
    std::vector<BarAsWritten> written;
    for (const auto& row : rows_of(form)) RowWriter(form, row, written).write();
    put_sign(form, written, form.segno, &BarAsWritten::segno);
    put_sign(form, written, form.to_coda, &BarAsWritten::to_coda);
    put_sign(form, written, form.fine, &BarAsWritten::fine);
    return written;
}

std::string own_words(const Form& form, int number) {
    const auto& bar = form.bar(number);
    std::string words;
    const auto add = [&](const std::string& more) {
        if (!more.empty()) words += (words.empty() ? "" : ", ") + more;
    };
    if (bar.key != form.chart.key) add("key of " + bar.key.name());
    const auto& section = form.section_of(bar);
    if (section.meter) {
        const auto written = bar.meter.written();
        add(fmt::format("{}/{}", written.above, written.below));
    }
    if (bar.tempo) add(fmt::format("{:g} bpm", bar.tempo->count()));
    if (bar.rubato) add("rubato");
    if (section.time_feel == chart::TimeFeel::half_time) add("half-time");
    if (section.time_feel == chart::TimeFeel::double_time) add("double-time");
    add(chart::in_words(section.manner));
    if (section.rhythm) add("comp " + section.rhythm->name());
    return words;
}

}  // namespace compline::report
