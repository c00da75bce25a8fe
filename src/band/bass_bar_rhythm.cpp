#include "bass_bar_rhythm.hpp"

#include <algorithm>

namespace compline::band {

namespace {

using chart::Bass;
using chart::Feel;
using time::eighth_note;
using time::quarter_note;
using time::Ticks;

/// Where the halves of a bar begin, in beats: 5/4 is three and two, 6/4 two bars of waltz.
std::vector<int> groups_of(time::Meter meter) {
    switch (meter.beats()) {
        case 5:
        case 6:
            return {0, 3};
        default:
            return {0};
    }
}

Ticks beats(int count) { return quarter_note * count; }

/// One bar's places; those of role `fifth` and `weak` may turn out to lead into the next chord.
class BarWriter {
  public:
    BarWriter(const BassBar& bar, std::size_t number, const std::vector<ChordToPlay>& changes,
              KeyedChance chance, time::Meter meter)
        : bar_(bar),
          number_(number),
          changes_(changes),
          chance_(chance),
          meter_(meter),
          line_(meter.bar() * static_cast<std::int64_t>(number)) {}

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
        places_.push_back({at, {}, role, change, number_, false, changes_[change].from == at});
        if (places_.back().starts) places_.back().role = Role::start;
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
        for (const int group : groups_of(meter_)) put(beats(group), Role::root);
    }

    void walking() {
        const int strong = meter_.beats() == 4 ? 2 : groups_of(meter_).back();
        for (int beat = 0; beat < meter_.beats(); ++beat) {
            put(beats(beat), beat == 0        ? Role::downbeat
                             : beat == strong ? Role::strong
                                              : Role::weak);
        }
    }

    void two_feel() {
        if (meter_.beats() != 4) {
            for (const int group : groups_of(meter_)) put(beats(group), Role::root_or_fifth);
            return;
        }
        put(beats(0), Role::root);
        put(beats(2), Role::half);
        liven();
    }

    /// Now and then a fourth quarter, into the chord that comes.
    void liven() {
        static constexpr int bars = 8;
        const int quarters = bar_.feel == Feel::ballad ? 2 : 3;  // in eight bars
        if (chance_.of(1).below(bars) >= quarters || !calm(beats(2), beats(4))) return;
        const auto next = change_at(line_ + beats(3)) + 1;
        const bool change_follows = next < changes_.size() && changes_[next].tones &&
                                    changes_[next].from == line_ + beats(4);
        if (change_follows) put(beats(3), Role::weak);
    }

    /// A dotted quarter and an eighth, and again: root, fifth, fifth, and ahead of the next root.
    void bossa() {
        const auto groups = groups_of(meter_);
        for (std::size_t i = 0; i < groups.size(); ++i) {
            const int from = groups[i];
            const int to = i + 1 < groups.size() ? groups[i + 1] : meter_.beats();
            put(beats(from), Role::root);
            if (to - from >= 3) {
                put(beats(from + 1) + eighth_note, Role::fifth);
                put(beats(from + 2), to - from == 3 ? Role::lead : Role::fifth);
            }
            if (to - from != 3) put(beats(to) - eighth_note, Role::lead);
        }
    }

    void starts() {
        for (int beat = 1; beat < meter_.beats(); ++beat) {
            const Ticks at = line_ + beats(beat);
            if (!starts_at(at)) continue;
            const bool there = std::any_of(places_.begin(), places_.end(),
                                           [&](const BassPlace& place) { return place.at == at; });
            if (!there) put(beats(beat), Role::start);
        }
    }

    void mark(Ticks in_bar) {
        const Ticks at = line_ + in_bar;
        const auto change = change_at(at);
        const bool next_starts = change + 1 < changes_.size() && changes_[change + 1].tones;
        const bool ahead =
            !is_on_beat(at) && next_starts && changes_[change].to - at < quarter_note;
        if (!ahead && !changes_[change].tones) return;
        const auto there = std::find_if(places_.begin(), places_.end(),
                                        [&](const BassPlace& place) { return place.at == at; });
        BassPlace kick{at,   {},   ahead ? Role::anticipation : Role::root, change, number_,
                       true, false};
        kick.starts = changes_[change].from == at;
        if (kick.starts) kick.role = Role::start;
        if (there == places_.end()) {
            places_.push_back(kick);
        } else {
            *there = kick;
        }
    }

    void end_notes() {
        const Ticks end = line_ + meter_.bar();
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
    KeyedChance chance_;
    time::Meter meter_;
    Ticks line_;
    std::vector<BassPlace> places_;
};

}  // namespace

std::vector<BassPlace> places_in_bar(const BassBar& bar, std::size_t number,
                                     const std::vector<ChordToPlay>& changes, KeyedChance chance,
                                     time::Meter meter) {
    return BarWriter(bar, number, changes, chance, meter).write();
}

}  // namespace compline::band
