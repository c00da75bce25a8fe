#include "cleaning.hpp"

#include "together.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdlib>
#include <optional>

namespace compline::listen {

namespace {

using time::Seconds;

constexpr int octave = 12;
constexpr int twelfth = 19;
/// Between two notes of which the second takes over from the first.
constexpr Seconds at_once{0.010};
/// A string that is fretted anew in passing sounds shorter than any note that is played.
constexpr Seconds in_passing{0.060};
/// An overtone that cuts into a note that rings on comes without a gap, and as soft as the string
/// is by then; a string that is struck again is struck as loud.
constexpr Seconds no_gap{0.002};
constexpr double rung_down = 0.6;
/// Of whose velocities the median is taken where a note comes alone.
constexpr std::size_t last_few = 6;

/// One rule at work: neighbours on each string, and what is dropped.
class Sweep {
  public:
    explicit Sweep(std::vector<Note>& notes)
        : notes_(notes), previous_(notes.size()), next_(notes.size()), drop_(notes.size(), false) {
        std::array<std::optional<std::size_t>, 1 + guitar::most_strings> last;
        for (std::size_t i = 0; i < notes.size(); ++i) {
            if (!notes[i].string) continue;
            auto& before = last[static_cast<std::size_t>(*notes[i].string)];
            previous_[i] = before;
            if (before) next_[*before] = i;
            before = i;
        }
    }

    // On the same string; none where strings are not known.
    [[nodiscard]] std::optional<std::size_t> previous(std::size_t i) const { return previous_[i]; }
    [[nodiscard]] std::optional<std::size_t> next(std::size_t i) const { return next_[i]; }
    /// The note after takes over at once.
    [[nodiscard]] bool is_followed(std::size_t i) const {
        return next_[i] && notes_[*next_[i]].on - notes_[i].off <= at_once;
    }

    void drop(std::size_t i) { drop_[i] = true; }
    [[nodiscard]] bool is_dropped(std::size_t i) const { return drop_[i]; }

    /// Takes out what is dropped; how many that were.
    int finish() {
        std::size_t at = 0;
        const auto dropped = std::erase_if(notes_, [&](const Note&) { return drop_[at++]; });
        if (dropped > 0) sort_by_onset(notes_);
        return static_cast<int>(dropped);
    }

  private:
    std::vector<Note>& notes_;
    std::vector<std::optional<std::size_t>> previous_;
    std::vector<std::optional<std::size_t>> next_;
    std::vector<bool> drop_;
};

bool is_overtone(const Note& a, const Note& b) {
    const int apart = std::abs(a.note.number() - b.note.number());
    return apart == octave || apart == twelfth;
}

/// The detector took an overtone for the note: the real note began with the flicker, or never
/// stopped. The higher pitch was found the sooner, by as much as the delays differ.
int drop_flickers(std::vector<Note>& notes, Seconds longest, const DelayOf& delay_of) {
    Sweep sweep(notes);
    int flickers = 0;
    for (std::size_t i = 0; i < notes.size(); ++i) {
        if (notes[i].length() > longest || !sweep.is_followed(i)) continue;
        Note& real = notes[*sweep.next(i)];
        if (!is_overtone(notes[i], real)) continue;
        ++flickers;
        sweep.drop(i);
        const auto before = sweep.previous(i);
        const bool rings_on = before && !sweep.is_dropped(*before) &&
                              notes[*before].note == real.note &&
                              notes[i].on - notes[*before].off <= no_gap &&
                              notes[i].velocity < rung_down * notes[*before].velocity;
        real.velocity = std::max(notes[i].velocity, real.velocity);
        real.on = std::min(real.on, notes[i].on + delay_of(real) - delay_of(notes[i]));
        if (rings_on) {
            sweep.drop(*before);
            real.on = notes[*before].on;
            real.velocity = notes[*before].velocity;
        }
    }
    (void)sweep.finish();
    return flickers;
}

bool same_string(const Note& a, const Note& b) { return a.string == b.string; }

/// One pick, reported twice: the first onset stands, and rings as long as the second.
int join_double_triggers(std::vector<Note>& notes, Seconds within) {
    Sweep sweep(notes);
    for (std::size_t i = 0; i < notes.size(); ++i) {
        if (sweep.is_dropped(i)) continue;
        for (std::size_t j = i + 1; j < notes.size(); ++j) {
            if (notes[j].on - notes[i].on > within) break;
            if (!same_string(notes[i], notes[j]) || sweep.is_dropped(j)) continue;
            const bool again = notes[j].note == notes[i].note;
            if (notes[i].string && !again) break;  // something lies between
            if (!again || notes[j].slid) continue;
            sweep.drop(j);
            notes[i].off = std::max(notes[i].off, notes[j].off);
            notes[i].velocity = std::max(notes[i].velocity, notes[j].velocity);
        }
    }
    return sweep.finish();
}

/// A unit in chromatic mode tells a slide fret by fret. Only where it ends has been played.
int drop_frets_passed(std::vector<Note>& notes) {
    Sweep sweep(notes);
    const auto step = [&](std::size_t from, std::size_t to) {
        return notes[to].note.number() - notes[from].note.number();
    };
    for (std::size_t i = 0; i < notes.size(); ++i) {
        const auto before = sweep.previous(i);
        if (!before || notes[i].length() >= in_passing) continue;
        if (!sweep.is_followed(*before) || !sweep.is_followed(i)) continue;
        const auto after = *sweep.next(i);
        if (std::abs(step(*before, i)) != 1 || step(i, after) != step(*before, i)) continue;
        sweep.drop(i);
        notes[after].slid = true;
    }
    return sweep.finish();
}

int median(std::vector<int>& velocities) {
    const auto middle = velocities.begin() + static_cast<long>(velocities.size() / 2);
    std::nth_element(velocities.begin(), middle, velocities.end());
    return *middle;
}

/// Velocities of what was struck with a note, itself left out, as far as `counts` says.
template <typename Counts>
std::vector<int> struck_with(const std::vector<Note>& notes, std::size_t i, Counts counts) {
    std::vector<int> velocities;
    const auto look = [&](std::size_t k) {
        if (time::abs(notes[k].on - notes[i].on) > together) return false;
        if (counts(k)) velocities.push_back(notes[k].velocity);
        return true;
    };
    for (std::size_t k = i; k-- > 0 && look(k);) {
    }
    for (std::size_t k = i + 1; k < notes.size() && look(k); ++k) {
    }
    return velocities;
}

/// An open string that begins softly as a finger leaves it.
int drop_lift_offs(std::vector<Note>& notes, const Cleaning& rules) {
    Sweep sweep(notes);
    std::vector<bool> open(notes.size(), false);
    for (std::size_t i = 0; i < notes.size(); ++i) {
        const auto before = sweep.previous(i);
        if (!before || notes[i].fret != 0 || notes[*before].fret.value_or(0) == 0) continue;
        open[i] = notes[i].on - notes[*before].off <= rules.lift_off &&
                  notes[i].velocity < rules.lift_off_loudness * notes[*before].velocity;
    }
    for (std::size_t i = 0; i < notes.size(); ++i) {
        if (!open[i]) continue;
        // In a soft chord an open string is as soft as the others.
        auto others = struck_with(notes, i, [&](std::size_t k) { return !open[k]; });
        if (others.empty() || notes[i].velocity < rules.lift_off_loudness * median(others)) {
            sweep.drop(i);
        }
    }
    return sweep.finish();
}

/// A string that was brushed: short, and soft beside what was struck with it or, where it comes
/// alone, before it.
int drop_brushed(std::vector<Note>& notes, const Cleaning& rules) {
    Sweep sweep(notes);
    std::vector<int> last;
    for (std::size_t i = 0; i < notes.size(); ++i) {
        const auto is_short = [&](std::size_t k) { return notes[k].length() < rules.ghost; };
        bool ghost = false;
        if (is_short(i)) {
            auto others = struck_with(notes, i, [&](std::size_t k) { return !is_short(k); });
            if (others.empty()) others = struck_with(notes, i, [](std::size_t) { return true; });
            if (others.empty()) others = last;
            ghost = !others.empty() && notes[i].velocity < rules.ghost_loudness * median(others);
        }
        if (ghost) {
            sweep.drop(i);
            continue;
        }
        last.push_back(notes[i].velocity);
        if (last.size() > last_few) last.erase(last.begin());
    }
    return sweep.finish();
}

}  // namespace

void sort_by_onset(std::vector<Note>& notes) {
    std::stable_sort(notes.begin(), notes.end(), [](const Note& a, const Note& b) {
        return a.on != b.on ? a.on < b.on : a.string < b.string;
    });
}

void mend_strings(std::vector<Note>& notes, const Cleaning& rules, const DelayOf& delay_of,
                  Cleaned& cleaned) {
    constexpr Seconds off{0};
    const auto join = [&] {
        if (rules.double_trigger <= off) return;
        cleaned.double_triggers += join_double_triggers(notes, rules.double_trigger);
    };
    // Either may hide the other: a flicker before a double trigger, or within it.
    join();
    if (rules.flicker > off) {
        cleaned.flickers += drop_flickers(notes, rules.flicker, delay_of);
        join();
    }
    cleaned.frets_passed += drop_frets_passed(notes);
    if (rules.lift_off > off) cleaned.lift_offs += drop_lift_offs(notes, rules);
}

void drop_ghosts(std::vector<Note>& notes, const Cleaning& rules, Cleaned& cleaned) {
    if (rules.ghost > Seconds(0)) cleaned.ghosts += drop_brushed(notes, rules);
}

}  // namespace compline::listen
