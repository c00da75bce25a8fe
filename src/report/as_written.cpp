#include "as_written.hpp"

#include "section_words.hpp"
#include "words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <functional>
#include <optional>

namespace compline::report {

namespace {

using chart::Form;

/// "1.", "1.-3.", "1. 3.": of an ending that is taken at these times in a row.
std::string ending_words(const std::vector<int>& times) {
    const bool run = times.back() - times.front() + 1 == static_cast<int>(times.size());
    if (times.size() > 2 && run) return fmt::format("{}.-{}.", times.front(), times.back());
    std::string words;
    for (const int time : times) words += fmt::format("{}{}.", words.empty() ? "" : " ", time);
    return words;
}

/// The index of what stands for a bar: that one, or where it is written once for several times.
std::optional<std::size_t> find_written(const Form& form, const std::vector<BarAsWritten>& written,
                                        int number) {
    const auto& there = form.bar(number);
    const auto like = std::find_if(written.rbegin(), written.rend(), [&](const auto& bar) {
        const auto& here = form.bar(bar.number);
        return bar.number <= number && here.section == there.section &&
               here.ending == there.ending && here.bar_in_section == there.bar_in_section;
    });
    if (like == written.rend()) return std::nullopt;
    return static_cast<std::size_t>(written.rend() - like) - 1;
}

/// Writes one row of playings.
class RowWriter {
  public:
    RowWriter(const Form& form, const WrittenRow& row, std::vector<BarAsWritten>& written)
        : form_(form), row_(row.playings), of_(row), written_(written) {}

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
            here.cue = cue_of(time, number);
            here.in_ending = bar.ending.has_value();
            const bool opens =
                here.in_ending && (number == row_[time].from || !form_.bar(number - 1).ending);
            if (opens) here.ending = ending_words(numbers_of(*bar.ending));
            const bool closes = here.in_ending && number == row_[time].to;
            const auto times = bar.ending ? times_of(*bar.ending) : std::vector<int>{};
            here.ends_repeat =
                closes && (times.size() > 1 || times.back() < static_cast<int>(row_.size()));
            written_.push_back(here);
        }
    }

    /// Words over a bar; of one that comes again each time's: "2nd time: drums alone".
    [[nodiscard]] std::string cue_of(std::size_t time, int number) const {
        std::vector<std::string> cues;
        std::string words;
        for (std::size_t i = 0; i < row_.size(); ++i) {
            const int there = row_[i].from + number - row_[time].from;
            if (i != time && (there > row_[i].to || !is_like(there, number))) continue;
            cues.push_back(form_.bar(there).cue);
            if (cues.back().empty()) continue;
            words += fmt::format("{}{} time: {}", words.empty() ? "" : "; ",
                                 ordinal(of_.first_time + static_cast<int>(i)), cues.back());
        }
        const bool always =
            std::adjacent_find(cues.begin(), cues.end(), std::not_equal_to<>()) == cues.end();
        return always ? cues.front() : words;
    }

    [[nodiscard]] bool is_like(int bar, int other) const {
        return form_.bar(bar).ending == form_.bar(other).ending;
    }

    /// Those over an ending: one that is named in the form keeps its own.
    [[nodiscard]] std::vector<int> numbers_of(int ending) const {
        if (!of_.comes_again) return {ending};
        auto numbers = times_of(ending);
        for (int& number : numbers) number += of_.first_time - 1;
        return numbers;
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
    const std::vector<chart::Passage>& row_;
    const WrittenRow& of_;
    std::vector<BarAsWritten>& written_;
};

/// From where a player comes to a section. Nothing is before a passage; to the coda one comes from
/// where `to coda` stands.
std::vector<int> bars_before(const Form& form, chart::Passage passage, int number) {
    std::vector<int> before;
    if (number > passage.from) before.push_back(number - 1);
    const bool leaps = form.coda_from == number && form.to_coda;
    if (leaps && *form.to_coda >= passage.from) before.push_back(*form.to_coda);
    return before;
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
    return as_written(form, form.all(), [](chart::Passage, chart::Passage) { return true; });
}

std::vector<BarAsWritten> as_written(const Form& form, chart::Passage passage,
                                     const PlayedAlike& alike) {
    std::vector<BarAsWritten> written;
    for (const auto& row : written_rows(form, passage, alike)) {
        RowWriter(form, row, written).write();
    }
    for (auto& bar : written) {
        if (!bar.begins_section) continue;
        bar.own = section_words(form, bar.number, bars_before(form, passage, bar.number));
    }
    // A sign elsewhere says nothing of a passage.
    const auto put = [&](std::optional<int> number, bool BarAsWritten::*sign) {
        if (!number || *number < passage.from || *number > passage.to) return;
        const auto bar = find_written(form, written, *number);
        if (bar) written[*bar].*sign = true;
    };
    put(form.segno, &BarAsWritten::segno);
    put(form.to_coda, &BarAsWritten::to_coda);
    put(form.fine, &BarAsWritten::fine);
    return written;
}

int where_written(const Form& form, const std::vector<BarAsWritten>& written, int number) {
    const auto bar = find_written(form, written, number);
    return bar ? written[*bar].number : number;
}

}  // namespace compline::report
