#include "bass_bar_rhythm.hpp"

#include "bar_grid.hpp"

#include <algorithm>

namespace compline::band {

namespace {

using chart::Bass;
using chart::Feel;
using time::Ticks;

/// Where the halves of a bar begin, in pulses: 5/4 is three and two, 6/4 two bars of waltz.
std::vector<int> groups_of(const time::Meter& meter) {
    const int pulses = BarGrid(meter).pulses;
    const bool two = (pulses == 5 || pulses == 6) && !is_double_time(meter);
    return two ? std::vector{0, 3} : std::vector{0};
}

/// ... and where it is felt twice as fast each half as a bar.
std::vector<int> halves_of(const time::Meter& meter) {
    if (!is_double_time(meter)) return groups_of(meter);
    const int pulses = BarGrid(meter).pulses;
    return pulses > 4 ? std::vector{0, pulses / 2} : std::vector{0};
}

/// One bar's places; those of role `fifth` and `weak` may turn out to lead into the next chord.
class BarWriter {
  public:
    BarWriter(const BassBar& bar, std::size_t number, const std::vector<ChordToPlay>& changes,
              Ticks line, KeyedChance chance)
        : bar_(bar),
          number_(number),
          changes_(changes),
          line_(line),
          chance_(chance),
          meter_(bar.meter),
          grid_(bar.meter) {}

    std::vector<BassPlace> write() {
        if (bar_.bass == Bass::off) return {};
        usual();
        starts();
        for (const Ticks kick : bar_.kicks) mark(kick);
        std::stable_sort(places_.begin(), places_.end(),
                         [](const BassPlace& a, const BassPlace& b) { return a.at < b.at; });
        end_notes();
        return std::move(places_);
    }

  private:
    [[nodiscard]] std::size_t change_at(Ticks at) const {
        const auto after = std::upper_bound(
            changes_.begin(), changes_.end(), at,
            [](Ticks wanted, const ChordToPlay& change) { return wanted < change.from; });
        return static_cast<std::size_t>(after - changes_.begin()) - 1;
    }

    [[nodiscard]] bool starts_at(Ticks at) const { return changes_[change_at(at)].from == at; }

    /// No chord starts between two points of the bar, and no kick is there.
    [[nodiscard]] bool calm(Ticks from, Ticks to) const {
        const bool kicked = std::any_of(bar_.kicks.begin(), bar_.kicks.end(),
                                        [&](Ticks kick) { return kick > from && kick < to; });
        return !kicked && change_at(line_ + from) == change_at(line_ + to - Ticks(1));
    }

    void put(Ticks in_bar, Role role) {
        const Ticks at = line_ + in_bar;
        const auto change = change_at(at);
        if (!changes_[change].tones) return;
        const bool starts = changes_[change].from == at;
        places_.push_back(
            {at, {}, role, change, number_, false, starts, false, is_on_beat(in_bar), in_bar});
        if (places_.back().starts) places_.back().role = Role::start;
    }

    [[nodiscard]] bool is_on_beat(Ticks in_bar) const {
        return in_bar % chord_step(meter_) == Ticks(0);
    }

    void usual() {
        if (bar_.bass == Bass::roots) {
            roots();
        } else if (bar_.feel == Feel::bossa) {
            bossa();
        } else if (bar_.bass == Bass::two_feel) {
            two_feel();
        } else {
            walking();
        }
    }

    void roots() {
        for (const int group : groups_of(meter_)) put(grid_.on(group), Role::root);
    }

    /// In double-time as the bar of 4/4 that each half is.
    [[nodiscard]] bool is_strong(Ticks in_bar) const {
        if (is_double_time(meter_)) return in_bar % (grid_.pulse * 2) == Ticks(0);
        return in_bar % meter_.beat() == Ticks(0) &&
               meter_.is_strong(static_cast<int>(in_bar / meter_.beat()));
    }

    void walking() {
        for (int pulse = 0; pulse < grid_.pulses; ++pulse) {
            const Ticks at = grid_.on(pulse);
            put(at, pulse == 0 ? Role::downbeat : is_strong(at) ? Role::strong : Role::weak);
        }
        if (grid_.compound) liven(grid_.off(grid_.pulses - 1), grid_.on(grid_.pulses - 1));
    }

    void two_feel() {
        if (grid_.compound) {
            two_feel_in_triples();
        } else if (grid_.pulses % 4 == 0) {
            for (int from = 0; from < grid_.pulses; from += 4) {
                put(grid_.on(from), from == 0 ? Role::root : Role::root_or_fifth);
                put(grid_.on(from + 2), Role::half);
            }
            liven(grid_.on(grid_.pulses - 1), grid_.on(grid_.pulses - 2));
        } else if (grid_.pulses == 2) {
            put(grid_.on(0), Role::root);
            put(grid_.on(1), Role::half);
        } else {
            for (const int half : halves_of(meter_)) put(grid_.on(half), Role::root_or_fifth);
        }
    }

    /// 9/8 is a waltz in one.
    void two_feel_in_triples() {
        const bool halves = grid_.pulses % 2 == 0;
        put(Ticks(0), halves ? Role::root : Role::root_or_fifth);
        const Ticks middle = grid_.on(grid_.pulses / 2);
        if (halves) put(middle, Role::half);
        liven(grid_.off(grid_.pulses - 1), halves ? middle : Ticks(0));
    }

    /// Now and then a short note at the end, into the chord that comes: a fourth quarter, or of
    /// three eighths the last. held: where what it cuts short begins.
    void liven(Ticks at, Ticks held) {
        static constexpr int bars = 8;
        const int livened = bar_.feel == Feel::ballad ? 2 : 3;  // in eight bars
        if (chance_.of(1).below(bars) >= livened || !calm(held, grid_.bar)) return;
        const auto next = change_at(line_ + at) + 1;
        const bool change_follows = next < changes_.size() && changes_[next].tones &&
                                    changes_[next].from == line_ + bar_.length();
        if (change_follows) put(at, Role::weak);
    }

    /// A dotted quarter and an eighth, and again: root, fifth, fifth, and ahead of the next root.
    void bossa() {
        if (grid_.compound) return bossa_in_triples();
        const auto groups = halves_of(meter_);
        for (std::size_t i = 0; i < groups.size(); ++i) {
            const int from = groups[i];
            const int to = i + 1 < groups.size() ? groups[i + 1] : grid_.pulses;
            put(grid_.on(from), Role::root);
            if (to - from >= 3) {
                put(grid_.off(from + 1), Role::fifth);
                put(grid_.on(from + 2), to - from == 3 ? Role::lead : Role::fifth);
            }
            if (to - from != 3) put(grid_.off(to - 1), Role::lead);
        }
    }

    /// Root and fifth on the beats, and the last eighth ahead of the next root.
    void bossa_in_triples() {
        for (int pulse = 0; pulse < grid_.pulses; ++pulse) {
            const bool root = pulse == 0 || (pulse == 2 && grid_.pulses == 4);
            put(grid_.on(pulse), root ? Role::root : Role::fifth);
        }
        put(grid_.off(grid_.pulses - 1), Role::lead);
    }

    void starts() {
        const Ticks step = chord_step(meter_);
        for (Ticks in_bar = step; in_bar < grid_.bar; in_bar += step) {
            const Ticks at = line_ + in_bar;
            if (!starts_at(at)) continue;
            const bool there = std::any_of(places_.begin(), places_.end(),
                                           [&](const BassPlace& place) { return place.at == at; });
            if (!there) put(in_bar, Role::start);
        }
    }

    void mark(Ticks in_bar) {
        const Ticks at = line_ + in_bar;
        const auto change = change_at(at);
        const bool next_starts = change + 1 < changes_.size() && changes_[change + 1].tones;
        const bool ahead =
            !is_on_beat(in_bar) && next_starts && changes_[change].to - at < chord_step(meter_);
        if (!ahead && !changes_[change].tones) return;
        const auto there = std::find_if(places_.begin(), places_.end(),
                                        [&](const BassPlace& place) { return place.at == at; });
        BassPlace kick{at,     {},      ahead ? Role::anticipation : Role::root,
                       change, number_, true,
                       false,  false,   is_on_beat(in_bar),
                       in_bar};
        kick.starts = changes_[change].from == at;
        if (kick.starts) kick.role = Role::start;
        if (there == places_.end()) {
            places_.push_back(kick);
        } else {
            *there = kick;
        }
    }

    void end_notes() {
        const Ticks end = line_ + bar_.length();
        for (std::size_t i = 0; i < places_.size(); ++i) {
            auto& place = places_[i];
            place.until = i + 1 < places_.size() ? places_[i + 1].at : end;
            const bool rest_follows = changes_[place.change].tones &&
                                      place.change + 1 < changes_.size() &&
                                      !changes_[place.change + 1].tones;
            if (rest_follows) place.until = std::min(place.until, changes_[place.change].to);
        }
    }

    const BassBar& bar_;
    std::size_t number_;
    const std::vector<ChordToPlay>& changes_;
    Ticks line_;
    KeyedChance chance_;
    time::Meter meter_;
    BarGrid grid_;
    std::vector<BassPlace> places_;
};

}  // namespace

std::vector<BassPlace> places_in_bar(const BassBar& bar, std::size_t number,
                                     const std::vector<ChordToPlay>& changes, Ticks line,
                                     KeyedChance chance) {
    return BarWriter(bar, number, changes, line, chance).write();
}

}  // namespace compline::band
