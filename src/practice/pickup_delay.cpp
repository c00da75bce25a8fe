#include "delay_selection.hpp"

#include <compline/practice/pickup_delay.hpp>

#include <algorithm>
#include <cmath>

namespace compline::practice {

using time::from_milliseconds;
using time::Seconds;

namespace {

constexpr double apart_ms = 8;         // spread beyond which sound and note have nothing in common
constexpr double unsure_cycles = 0.5;  // standard error
constexpr double many = 1.0 / 3;       // of the pairs, left out

/// The pairs of one measurement, string by string, or all of them as of one.
class Measuring {
  public:
    Measuring(const Pairs& pairs, std::span<const int> strings)
        : pairs_(pairs), strings_(strings.begin(), strings.end()) {
        std::sort(strings_.begin(), strings_.end());
        strings_.erase(std::unique(strings_.begin(), strings_.end()), strings_.end());
        by_string_ = std::any_of(pairs.pairs.begin(), pairs.pairs.end(),
                                 [](const HeardTwice& pair) { return pair.string.has_value(); });
        for (const auto& pair : pairs.pairs) take(pair);
    }

    PickupDelay result() {
        PickupDelay found;
        found.sounds_alone = pairs_.sounds_alone;
        found.notes_alone = pairs_.notes_alone;
        sifted_ = sift(rows_, places());
        found.used = static_cast<int>(sifted_.rows.size());
        found.left_out = static_cast<int>(pairs_.pairs.size()) - found.used;
        found.sd = from_milliseconds(sifted_.sd_ms);
        found.lacking = lacking();
        found.fault = fault();
        if (found.fault) return found;
        const auto fit = fewest_differences(sifted_, places());
        if (!fit || !sifted_.each || cycles_error(*fit) > unsure_cycles) {
            found.fault = SoundFault::too_much_alike;
            return found;
        }
        tell(*fit, found);
        return found;
    }

  private:
    [[nodiscard]] std::size_t places() const { return by_string_ ? strings_.size() : 1; }

    void take(const HeardTwice& pair) {
        std::size_t place = 0;
        if (by_string_) {
            const auto string =
                std::find(strings_.begin(), strings_.end(), pair.string.value_or(0));
            if (string == strings_.end()) return;
            place = static_cast<std::size_t>(string - strings_.begin());
        }
        rows_.push_back({place, 1000 / pair.note.hz(), pair.delay().milliseconds()});
    }

    [[nodiscard]] int used_on(std::size_t place) const {
        return static_cast<int>(std::count_if(sifted_.rows.begin(), sifted_.rows.end(),
                                              [&](const auto& row) { return row.place == place; }));
    }

    [[nodiscard]] std::vector<int> lacking() const {
        std::vector<int> strings;
        for (std::size_t i = 0; by_string_ && i < strings_.size(); ++i) {
            if (used_on(i) < fewest_notes) strings.push_back(strings_[i]);
        }
        return strings;
    }

    [[nodiscard]] std::optional<SoundFault> fault() const {
        const int paired = static_cast<int>(pairs_.pairs.size());
        const int sounds = paired + pairs_.sounds_alone;
        const int notes = paired + pairs_.notes_alone;
        if (sounds == 0) return SoundFault::no_sound;
        if (notes == 0) return SoundFault::no_notes;
        const bool strangers = 2 * paired < std::min(sounds, notes) && sounds >= fewest_notes;
        const auto rows = static_cast<double>(rows_.size());
        const bool scattered = sifted_.spread_ms > apart_ms || sifted_.left_out > many * rows;
        const auto wanted = fewest_notes * strings_.size();
        if (strangers && notes >= fewest_notes) return SoundFault::not_together;
        if (rows_.size() >= fewest_notes && scattered) return SoundFault::not_together;
        if (!lacking().empty() || sifted_.rows.size() < wanted) return SoundFault::too_few_notes;
        return std::nullopt;
    }

    [[nodiscard]] double cycles_error(const DelayFit& fit) const {
        return fit.model.cycles_held ? 0 : fit.solution.error(1, sifted_.sd_ms);
    }

    /// Standard error at the least sure of the notes.
    [[nodiscard]] double worst_error(const DelayFit& fit) const {
        double error = 0;
        for (const auto& row : sifted_.rows) {
            const auto of_row = fit.model.row_of(row.place, row.cycle_ms);
            error = std::max(error, fit.solution.error_at(of_row, sifted_.sd_ms));
        }
        return error;
    }

    void tell(const DelayFit& fit, PickupDelay& found) const {
        found.common = {from_milliseconds(fit.solution.values[0]), fit.cycles()};
        found.constant_error = from_milliseconds(fit.solution.error(0, sifted_.sd_ms));
        found.cycles_error = cycles_error(fit);
        if (by_string_) found.strings = by_string(fit);
        // A difference that is too small to be sure may be there all the same.
        double unsure = 0;
        for (const auto& one : found.strings) {
            const double rest = (one.measured - one.difference).milliseconds();
            unsure = std::max(unsure, std::fabs(rest));
        }
        const double error = 2 * std::max(worst_error(fit), worst_error(*sifted_.each));
        found.sure_within = from_milliseconds(std::hypot(error, unsure));
    }

    [[nodiscard]] std::vector<StringDelay> by_string(const DelayFit& fit) const {
        const auto constants = own_constants(sifted_, fit, places());
        std::vector<StringDelay> all;
        for (std::size_t i = 0; i < places(); ++i) {
            StringDelay one;
            one.string = strings_[i];
            one.notes = used_on(i);
            if (constants[i]) {
                one.measured = from_milliseconds(constants[i]->ms);
                one.error = from_milliseconds(constants[i]->error_ms);
            }
            const auto& own = fit.model.own;
            const auto at = std::find(own.begin(), own.end(), i);
            if (at != own.end()) {
                const auto n = static_cast<std::size_t>(at - own.begin());
                one.difference = from_milliseconds(fit.own(n));
            }
            all.push_back(one);
        }
        return all;
    }

    const Pairs& pairs_;
    std::vector<int> strings_;
    bool by_string_ = false;
    std::vector<DelayRow> rows_;
    SiftedRows sifted_;
};

}  // namespace

PickupDelay fit_pickup_delay(const Pairs& pairs, std::span<const int> strings) {
    return Measuring(pairs, strings).result();
}

Seconds PickupDelay::of(harmony::MidiNote note, std::optional<int> string) const {
    Seconds delay = common.constant + Seconds(common.cycles / note.hz());
    for (const auto& one : strings) {
        if (one.string == string) delay += one.difference;
    }
    return delay;
}

}  // namespace compline::practice
