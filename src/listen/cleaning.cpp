#include "cleaning.hpp"

#include "together.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdlib>
#include <deque>
#include <map>
#include <optional>
#include <utility>

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

/// One pick, reported twice: the first onset stands, and rings as long as the second.
int join_double_triggers(std::vector<Note>& notes, Seconds within) {
    Sweep sweep(notes);
    // The notes that may be reported again, of one pitch each: the last pitch of every string, and
    // every pitch where strings are not known.
    std::array<std::deque<std::size_t>, 1 + guitar::most_strings> on_strings;
    std::map<int, std::deque<std::size_t>> of_pitches;
    for (std::size_t i = 0; i < notes.size(); ++i) {
        auto& recent = notes[i].string ? on_strings[static_cast<std::size_t>(*notes[i].string)]
                                       : of_pitches[notes[i].note.number()];
        const bool lies_between = !recent.empty() && notes[recent.back()].note != notes[i].note;
        if (lies_between) recent.clear();
        while (!recent.empty() && notes[i].on - notes[recent.front()].on > within)
            recent.pop_front();
        if (recent.empty() || notes[i].slid) {
            recent.push_back(i);
            continue;
        }
        Note& first = notes[recent.front()];
        sweep.drop(i);
        first.off = std::max(first.off, notes[i].off);
        first.velocity = std::max(first.velocity, notes[i].velocity);
    }
    return sweep.finish();
}

/// A unit in chromatic mode sends a slide fret by fret. Only where it ends has been played.
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

/// The middle one of some velocities, the louder of two.
int median(std::vector<int> velocities) {
    const auto middle = velocities.begin() + static_cast<long>(velocities.size() / 2);
    std::nth_element(velocities.begin(), middle, velocities.end());
    return *middle;
}

/// Velocities of what was struck with a note, as far as `Counts` says. Notes are asked for in
/// order, so that each is looked at once, however many begin together.
template <typename Counts>
class StruckWith {
  public:
    StruckWith(const std::vector<Note>& notes, Counts counts)
        : notes_(notes), counts_(std::move(counts)) {}

    /// As median() of them, the note itself left out; nothing where it is alone.
    std::optional<int> median(std::size_t i) {
        const Seconds on = notes_[i].on;
        for (; to_ < notes_.size() && notes_[to_].on - on <= together; ++to_) count(to_, 1);
        for (; on - notes_[from_].on > together; ++from_) count(from_, -1);
        count(i, -1);
        const auto found = middle();
        count(i, 1);
        return found;
    }

  private:
    void count(std::size_t i, int by) {
        if (!counts_(i)) return;
        of_velocity_[static_cast<std::size_t>(notes_[i].velocity)] += by;
        all_ += by;
    }

    [[nodiscard]] std::optional<int> middle() const {
        int softer = 0;
        for (std::size_t velocity = 0; velocity < of_velocity_.size(); ++velocity) {
            softer += of_velocity_[velocity];
            if (softer > all_ / 2) return static_cast<int>(velocity);
        }
        return std::nullopt;
    }

    const std::vector<Note>& notes_;
    Counts counts_;
    std::size_t from_ = 0;  ///< [from_, to_) are counted
    std::size_t to_ = 0;
    std::array<int, 128> of_velocity_{};
    int all_ = 0;
};

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
    StruckWith others(notes, [&](std::size_t k) { return !open[k]; });
    for (std::size_t i = 0; i < notes.size(); ++i) {
        if (!open[i]) continue;
        // In a soft chord an open string is as soft as the others.
        const auto usual = others.median(i);
        if (!usual || notes[i].velocity < rules.lift_off_loudness * *usual) sweep.drop(i);
    }
    return sweep.finish();
}

/// A string that was brushed: short, and soft beside what was struck with it or, where it comes
/// alone, before it.
int drop_brushed(std::vector<Note>& notes, const Cleaning& rules) {
    Sweep sweep(notes);
    std::vector<int> last;
    const auto is_short = [&](std::size_t k) { return notes[k].length() < rules.ghost; };
    StruckWith long_ones(notes, [&](std::size_t k) { return !is_short(k); });
    StruckWith all(notes, [](std::size_t) { return true; });
    const auto usual_beside = [&](std::size_t i) -> std::optional<int> {
        if (const auto usual = long_ones.median(i)) return usual;
        if (const auto usual = all.median(i)) return usual;
        if (last.empty()) return std::nullopt;
        return median(last);
    };
    for (std::size_t i = 0; i < notes.size(); ++i) {
        const auto usual = is_short(i) ? usual_beside(i) : std::nullopt;
        if (usual && notes[i].velocity < rules.ghost_loudness * *usual) {
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
