#include "picked_note.hpp"
#include "robust.hpp"

#include <compline/practice/click_delay.hpp>

#include <algorithm>
#include <cmath>
#include <map>

namespace compline::practice {

using time::from_milliseconds;
using time::Seconds;

namespace {

constexpr std::ptrdiff_t first_ones = 2;  // of each string: the player is still finding his time
constexpr double uneven_ms = 40;
constexpr double sure = 2.5;  // standard errors
constexpr double least_spread_ms = 0.5;

/// The nearest click, if it is within half the way to the one beside it.
std::optional<std::size_t> click_of(std::span<const Seconds> clicks, Seconds at) {
    const auto behind = std::lower_bound(clicks.begin(), clicks.end(), at) - clicks.begin();
    const auto last = static_cast<std::ptrdiff_t>(clicks.size()) - 1;
    const auto i = static_cast<std::size_t>(std::clamp<std::ptrdiff_t>(behind, 1, last));
    const Seconds half = (clicks[i] - clicks[i - 1]) * 0.5;
    const auto nearest = at - clicks[i - 1] < half ? i - 1 : i;
    if (abs(at - clicks[nearest]) > half) return std::nullopt;
    return nearest;
}

/// A note against its click.
struct OnClick {
    double behind_ms = 0;
    double rest_ms = 0;  // without the cycles of its wave
};
using OnString = std::vector<OnClick>;

double mean_of(const OnString& notes, double OnClick::*value) {
    double sum = 0;
    for (const auto& note : notes) sum += note.*value;
    return notes.empty() ? 0 : sum / static_cast<double>(notes.size());
}

double middle_of(const OnString& notes) {
    std::vector<double> values;
    for (const auto& note : notes) values.push_back(note.rest_ms);
    return assess::median(std::move(values));
}

/// What one take to the click brought.
class Tapping {
  public:
    Tapping(std::span<const Seconds> clicks, std::span<const listen::Note> notes,
            std::span<const int> strings, double cycles)
        : clicks_(clicks), notes_(notes), cycles_(cycles) {
        for (const int string : strings) by_string_[string];
        if (clicks.size() >= 2) take_notes();
    }

    ClickDelay result() {
        leave_out();
        ClickDelay found;
        found.cycles = cycles_;
        found.off_click = off_click_;
        for (const auto& [string, notes] : by_string_) {
            found.used += static_cast<int>(notes.size());
            if (static_cast<int>(notes.size()) < fewest_on_clicks) found.lacking.push_back(string);
        }
        found.left_out = taken_ - found.used;
        found.sd = from_milliseconds(sd_ms());
        found.fault = fault(found);
        if (!found.fault) add_strings(found);
        return found;
    }

  private:
    void take_notes() {
        std::map<std::size_t, std::vector<std::size_t>> by_click;
        for (std::size_t i = 0; i < notes_.size(); ++i) {
            if (notes_[i].slid) continue;
            if (const auto click = click_of(clicks_, notes_[i].on)) {
                by_click[*click].push_back(i);
            } else {
                ++off_click_;
            }
        }
        for (const auto& [click, near] : by_click) {
            take(notes_[picked_of(notes_, near)], clicks_[click]);
            off_click_ += static_cast<int>(near.size()) - 1;
        }
    }

    void take(const listen::Note& note, Seconds click) {
        ++taken_;
        has_strings_ = has_strings_ || note.string.has_value();
        const auto string = by_string_.find(note.string.value_or(0));
        if (string == by_string_.end()) return;
        const double behind = (note.on - click).milliseconds();
        string->second.push_back({behind, behind - 1000 * cycles_ / note.note.hz()});
    }

    void leave_out() {
        std::vector<double> offs;
        for (auto& [string, notes] : by_string_) {
            const auto first = std::min(first_ones, std::ssize(notes));
            notes.erase(notes.begin(), notes.begin() + first);
            if (notes.empty()) continue;
            const double middle = middle_of(notes);
            for (const auto& note : notes) offs.push_back(note.rest_ms - middle);
        }
        const double reach = far_off * std::max(least_spread_ms, spread_around_zero(offs));
        for (auto& [string, notes] : by_string_) {
            if (notes.empty()) continue;
            const double middle = middle_of(notes);
            std::erase_if(notes, [&](const OnClick& note) {
                return std::fabs(note.rest_ms - middle) > reach;
            });
        }
    }

    /// Of single notes around the mean of their string.
    [[nodiscard]] double sd_ms() const {
        double squares = 0;
        double free = 0;
        for (const auto& [string, notes] : by_string_) {
            if (notes.empty()) continue;
            const double mean = mean_of(notes, &OnClick::rest_ms);
            for (const auto& note : notes) squares += std::pow(note.rest_ms - mean, 2);
            free += static_cast<double>(notes.size()) - 1;
        }
        return free > 0 ? std::sqrt(squares / free) : 0;
    }

    [[nodiscard]] std::optional<PlayingFault> fault(const ClickDelay& found) const {
        if (taken_ == 0) return PlayingFault::no_notes;
        if (!has_strings_) return PlayingFault::one_channel;
        if (found.sd.milliseconds() > uneven_ms) return PlayingFault::not_in_time;
        if (!found.lacking.empty() || by_string_.empty()) return PlayingFault::too_few_notes;
        return std::nullopt;
    }

    void add_strings(ClickDelay& found) const {
        const auto strings = static_cast<double>(by_string_.size());
        const double variance = std::pow(found.sd.milliseconds(), 2);
        double sum = 0;
        double rest = 0;
        double of_mean = 0;  // variance
        for (const auto& [string, notes] : by_string_) {
            sum += mean_of(notes, &OnClick::behind_ms) / strings;
            rest += mean_of(notes, &OnClick::rest_ms) / strings;
            of_mean += variance / static_cast<double>(notes.size()) / (strings * strings);
        }
        found.sum = from_milliseconds(sum);
        found.sum_error = from_milliseconds(std::sqrt(of_mean));
        for (const auto& [string, notes] : by_string_) {
            StringOnClick one;
            one.string = string;
            one.notes = static_cast<int>(notes.size());
            const double behind = mean_of(notes, &OnClick::behind_ms);
            one.behind = from_milliseconds(behind);
            one.difference = from_milliseconds(behind - sum);
            one.remains = from_milliseconds(mean_of(notes, &OnClick::rest_ms) - rest);
            // The mean of all holds this string too.
            const double own = variance / static_cast<double>(notes.size()) * (1 - 2 / strings);
            one.error = from_milliseconds(std::sqrt(std::max(0.0, of_mean + own)));
            found.strings.push_back(one);
        }
    }

    std::span<const Seconds> clicks_;
    std::span<const listen::Note> notes_;
    double cycles_;
    std::map<int, OnString> by_string_;
    int taken_ = 0;
    int off_click_ = 0;
    bool has_strings_ = false;
};

}  // namespace

bool StringOnClick::is_sure() const { return abs(remains) > error * sure; }

ClickDelay measure_on_clicks(std::span<const Seconds> clicks, std::span<const listen::Note> notes,
                             std::span<const int> strings, double cycles) {
    return Tapping(clicks, notes, strings, cycles).result();
}

}  // namespace compline::practice
