#include "comping_rhythms.hpp"

#include "keyed_chance.hpp"

#include <compline/band/band.hpp>
#include <compline/time/meter.hpp>

#include <algorithm>
#include <cstddef>

namespace compline::band {

namespace {

using chart::Feel;
using time::eighth_note;
using time::Ticks;

constexpr Ticks two_beats = time::quarter_note * 2;
constexpr int bars_of_air = 8;  ///< of which one is left empty

// Measured over the demo charts but for the ballad, these make a third of the changes over bar
// lines pushes, those that cells have by themselves among them.
constexpr int pushes_in_100 = 37;
constexpr int pushes_into_air_in_100 = 55;

// What is decided by chance.
enum : std::uint64_t { which_cell = 1, which_answer, answers, which_halves, air, push };

void remove(Eighths& struck, int eighth) {
    struck.erase(std::remove(struck.begin(), struck.end(), eighth), struck.end());
}

void insert(Eighths& struck, int eighth) {
    const auto place = std::lower_bound(struck.begin(), struck.end(), eighth);
    if (place == struck.end() || *place != eighth) struck.insert(place, eighth);
}

int start_of(const chart::Slot& slot) { return static_cast<int>(slot.start / eighth_note); }
int end_of(const chart::Slot& slot) {
    return static_cast<int>((slot.start + slot.length) / eighth_note);
}

bool is_struck_in(const Eighths& struck, const chart::Slot& slot) {
    return std::any_of(struck.begin(), struck.end(), [&](int eighth) {
        return eighth >= start_of(slot) && eighth < end_of(slot);
    });
}

class CompingRhythms {
  public:
    CompingRhythms(const std::vector<CompBar>& bars, const time::Meter& usual, std::uint64_t seed)
        : bars_(bars), usual_(usual), chance_(seed), comped_(bars.size()), empty_(bars.size()) {}

    std::vector<CompedBar> choose() {
        choose_cells();
        leave_air();
        for (std::size_t i = 1; i < bars_.size(); ++i) decide_push(i);
        for (std::size_t i = 0; i < bars_.size(); ++i) settle(i);
        return std::move(comped_);
    }

  private:
    [[nodiscard]] const time::Meter& meter(std::size_t i) const {
        return bars_[i].meter ? *bars_[i].meter : usual_;
    }

    [[nodiscard]] bool is_played(std::size_t i) const {
        return !bars_[i].lays_out && !bars_[i].slots.empty();
    }

    /// A chord is there, and it was not there right before: after N.C., a silence, at the top.
    [[nodiscard]] bool comes_after_rest(std::size_t i) const {
        return i == 0 || !is_played(i - 1) || !bars_[i - 1].slots.back().chord;
    }

    [[nodiscard]] bool goes_on(std::size_t i) const {
        return !comes_after_rest(i) &&
               bars_[i].slots.front().chord == bars_[i - 1].slots.back().chord;
    }

    [[nodiscard]] KeyedChance chance_at(std::size_t i, std::uint64_t what) const {
        return chance_.of(static_cast<std::uint64_t>(bars_[i].start.count())).of(what);
    }

    // Cells.

    void choose_cells() {
        std::size_t phrase = 0;
        int before = -1;
        for (std::size_t i = 0; i < bars_.size(); ++i) {
            const bool begins = i == 0 || bars_[i].in_section % bars_of_phrase == 0;
            if (begins && i > 0) before = cell_of_phrase(phrase, before);
            if (begins) phrase = i;
            comped_[i].struck = eighths_of(i, phrase, before);
        }
    }

    /// Another than the phrase before had; of the first bar's feel, so that a bar of another feel
    /// takes one of its own by the same number.
    [[nodiscard]] int cell_of_phrase(std::size_t phrase, int before) const {
        const auto cells = static_cast<int>(comp_cells(bars_[phrase].feel, meter(phrase)).size());
        const auto chance = chance_at(phrase, which_cell);
        // A bossa goes on in its own pattern more often than not.
        if (bars_[phrase].feel == Feel::bossa) {
            return chance.of(which_cell).below(2) == 0 ? 0 : chance.below(cells);
        }
        if (before < 0 || cells == 1) return chance.below(cells);
        return (before + 1 + chance.below(cells - 1)) % cells;
    }

    [[nodiscard]] Eighths eighths_of(std::size_t i, std::size_t phrase, int before) const {
        const auto& bar = bars_[i];
        const auto& slots = bar.slots;
        const bool rests = std::any_of(slots.begin(), slots.end(),
                                       [](const chart::Slot& slot) { return !slot.chord; });
        if (!is_played(i) || rests || !bar.kicks.empty()) return starts(bar);
        const auto half = eighth_note * middle_of(meter(i));
        const bool halves = slots.size() == 2 && slots[1].start == half && half > Ticks(0);
        if (slots.size() > 1 && !halves) return starts(bar);
        const auto& cells =
            halves ? half_bar_cells(bar.feel, meter(i)) : comp_cells(bar.feel, meter(i));
        const auto count = static_cast<int>(cells.size());
        int cell = halves ? chance_at(phrase, which_halves).below(count)
                          : cell_of_phrase(phrase, before) % count;
        const bool second_half = bar.in_section % bars_of_phrase >= bars_of_phrase / 2;
        if (second_half && chance_at(phrase, answers).below(2) == 0 && count > 1) {
            cell = (cell + 1 + chance_at(phrase, which_answer).below(count - 1)) % count;
        }
        const auto& chosen = cells[static_cast<std::size_t>(cell)];
        return bar.in_section % 2 == 0 ? chosen.first : chosen.second;
    }

    /// Each chord where it starts, and a long one again, as a Charleston has it, unless kicks are a
    /// figure already.
    [[nodiscard]] static Eighths starts(const CompBar& bar) {
        constexpr Ticks long_chord = time::quarter_note * 3;
        constexpr int again = 3;
        Eighths struck;
        for (const auto& slot : bar.slots) {
            insert(struck, start_of(slot));
            const bool twice =
                slot.length >= long_chord && bar.feel != Feel::ballad && bar.kicks.empty();
            if (twice) insert(struck, start_of(slot) + again);
        }
        return struck;
    }

    // Air.

    void leave_air() {
        for (std::size_t from = 0; from < bars_.size(); from += bars_of_air) {
            const auto to = std::min(from + bars_of_air, bars_.size());
            const auto chance = chance_at(from, air);
            if (chance.below(bars_of_air) >= static_cast<int>(to - from)) continue;
            leave_empty(from, to, chance.of(air));
        }
    }

    void leave_empty(std::size_t from, std::size_t to, KeyedChance chance) {
        int sum = 0;
        for (auto i = from; i < to; ++i) sum += room_for_air(i);
        if (sum == 0) return;
        int left = chance.below(sum);
        for (auto i = from; i < to; ++i) {
            left -= room_for_air(i);
            if (left >= 0) continue;
            empty_[i] = true;
            return;
        }
    }

    /// How well a bar may be left empty; 0: not at all.
    [[nodiscard]] int room_for_air(std::size_t i) const {
        const auto& bar = bars_[i];
        const bool one_chord = is_played(i) && bar.slots.size() == 1 && bar.slots[0].chord;
        if (!one_chord || comes_after_rest(i) || i + 1 == bars_.size()) return 0;
        if (!bar.kicks.empty() || bar.feel == Feel::ballad || empty_[i - 1]) return 0;
        const bool phrase_is_under_way = bar.in_section % bars_of_phrase != 0;
        return 1 + (goes_on(i) ? 2 : 0) + (phrase_is_under_way ? 1 : 0);
    }

    // Pushes.

    [[nodiscard]] int last_off_beat(std::size_t i) const {
        return static_cast<int>(meter(i).bar() / eighth_note) - 1;
    }

    [[nodiscard]] bool may_push(std::size_t i) const {
        const auto& bar = bars_[i];
        const auto& before = bars_[i - 1];
        const bool changes =
            is_played(i) && bar.slots.front().chord && !comes_after_rest(i) && !goes_on(i);
        if (!changes || empty_[i - 1] || !bar.kicks.empty() || !before.kicks.empty()) return false;
        if (bar.feel == Feel::ballad || before.feel == Feel::ballad) return false;
        return bar.slots.front().length >= two_beats && before.slots.back().length >= two_beats;
    }

    void decide_push(std::size_t i) {
        if (!may_push(i)) return;
        const auto& struck = comped_[i - 1].struck;
        const bool by_cell =
            std::find(struck.begin(), struck.end(), last_off_beat(i - 1)) != struck.end();
        const int in_100 = empty_[i] ? pushes_into_air_in_100 : pushes_in_100;
        comped_[i].pushed = by_cell || chance_at(i, push).below(100) < in_100;
    }

    // Each chord heard.

    void settle(std::size_t i) {
        auto& struck = comped_[i].struck;
        if (!is_played(i)) struck.clear();
        if (struck.empty() || bars_[i].slots.empty()) return;
        if (empty_[i]) {
            struck.clear();
            return;
        }
        settle_end(i);
        if (comped_[i].pushed) remove(struck, 0);
        if (comes_after_rest(i)) remove(struck, 1);
        // Struck right before the bar line, a chord that goes on is not struck right behind it.
        const bool just_struck = goes_on(i) && !comped_[i - 1].struck.empty() &&
                                 comped_[i - 1].struck.back() == last_off_beat(i - 1);
        if (just_struck && struck.size() > 1) remove(struck, 0);
        for (const auto& slot : bars_[i].slots) settle(i, slot);
        const bool pushed_and_gone = struck.empty() && comped_[i].pushed;
        if (pushed_and_gone) struck.push_back(last_off_beat(i) == 7 ? 5 : 3);
        if (pushes_out(i)) insert(struck, last_off_beat(i));
    }

    [[nodiscard]] bool pushes_out(std::size_t i) const {
        return i + 1 < comped_.size() && comped_[i + 1].pushed;
    }

    /// Before a push the last beat is left free, and no off-beat dangles before another chord.
    void settle_end(std::size_t i) {
        auto& struck = comped_[i].struck;
        const bool chord_goes_on = i + 1 < bars_.size() && is_played(i + 1) && goes_on(i + 1);
        if (pushes_out(i)) remove(struck, last_off_beat(i) - 1);
        if (!chord_goes_on) remove(struck, last_off_beat(i));
    }

    void settle(std::size_t i, const chart::Slot& slot) {
        auto& struck = comped_[i].struck;
        const bool first = slot.start == Ticks(0);
        if (!slot.chord) {
            for (int eighth = start_of(slot); eighth < end_of(slot); ++eighth)
                remove(struck, eighth);
        } else if (first && comes_after_rest(i)) {
            insert(struck, 0);
        } else if (!is_struck_in(struck, slot) && !(first && comped_[i].pushed)) {
            insert(struck, start_of(slot));
        }
    }

    const std::vector<CompBar>& bars_;
    time::Meter usual_;
    KeyedChance chance_;
    std::vector<CompedBar> comped_;
    std::vector<bool> empty_;
};

}  // namespace

std::vector<CompedBar> choose_rhythms(const std::vector<CompBar>& bars, const time::Meter& usual,
                                      std::uint64_t seed) {
    return CompingRhythms(bars, usual, seed).choose();
}

}  // namespace compline::band
