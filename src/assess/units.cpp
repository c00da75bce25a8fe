#include "units.hpp"

#include <algorithm>
#include <cstdlib>
#include <utility>

namespace compline::assess {

using listen::Note;
using time::Seconds;

namespace {

constexpr Seconds longest_up_stroke{0.150};
constexpr Seconds slow_rake{0.120};
constexpr std::size_t fewest_broken = 3;
constexpr std::size_t most_broken = 6;
/// A string that stops as the next one starts does not ring with it.
constexpr Seconds rings_with{0.030};

/// How many frets the whole grip moves from one strum to the next; 0 where it does not.
int fret_shift(const SoundingStrum& from, const SoundingStrum& to) {
    int shift = 0;
    for (const Note& note : from.strum.notes) {
        const auto& after = to.strum.notes;
        const auto moved = std::find_if(after.begin(), after.end(), [&](const Note& n) {
            return n.string && n.string == note.string;
        });
        if (moved == after.end()) return 0;
        const int step = moved->note.number() - note.note.number();
        if (step == 0 || (shift != 0 && step != shift)) return 0;
        shift = step;
    }
    return shift;
}

bool on_same_string(const Note& a, const Note& b) {
    return a.string && b.string ? a.string == b.string : a.note == b.note;
}

class UnitFinder {
  public:
    UnitFinder(std::vector<SoundingStrum> strums, const Grid& grid)
        : grid_(grid), count_(strums.size()) {
        found_.sounds = std::move(strums);
    }

    Units find() {
        for (std::size_t s = 0; s < count_; ++s) {
            add({Unit::Kind::strum, s, s + 1, s, strum(s).moves_grip, approaches(s)});
            if (s + 1 >= count_) continue;
            if (is_up_stroke(s)) {
                add({Unit::Kind::up_stroke, s, s + 2, s + 1,
                     strum(s).moves_grip || strum(s + 1).moves_grip, false});
            }
            if (strum(s + 1).strum.is_slide() && approaches(s)) {
                add({Unit::Kind::slide, s, s + 2, s + 1, strum(s).moves_grip, false});
            }
            add_broken(s);
        }
        return std::move(found_);
    }

  private:
    [[nodiscard]] const SoundingStrum& strum(std::size_t s) const { return found_.sounds[s]; }

    void add(const Unit& unit) { found_.units.push_back(unit); }

    [[nodiscard]] bool approaches(std::size_t s) const {
        if (s + 1 >= count_ || !strum(s).strum.is_chord()) return false;
        const Seconds reach = grid_.pace_at(strum(s).first()).by_hand(1);
        if (strum(s + 1).first() - strum(s).first() > reach) return false;
        const int shift = std::abs(fret_shift(strum(s), strum(s + 1)));
        return shift == 1 || shift == 2;
    }

    /// The same grip, or its upper strings, twice at once. A string that was heard once only, since
    /// it was struck twice within a moment, rings through.
    [[nodiscard]] bool is_up_stroke(std::size_t s) const {
        const auto& up = strum(s);
        const auto& down = strum(s + 1);
        const auto is_in = [](const std::vector<Note>& notes, const Note& note) {
            return std::any_of(notes.begin(), notes.end(), [&](const Note& n) {
                return n.note == note.note && n.string == note.string;
            });
        };
        const auto again = [&](const Note& note) { return is_in(down.strum.notes, note); };
        const auto sounds = [&](const Note& note) { return is_in(down.sounding, note); };
        const auto& notes = up.strum.notes;
        return up.is_voiced() && down.is_voiced() &&
               down.first() - up.first() <= longest_up_stroke &&
               std::any_of(notes.begin(), notes.end(), again) &&
               std::all_of(notes.begin(), notes.end(), sounds);
    }

    /// The notes of the strum ring with all of these, on strings of their own.
    [[nodiscard]] bool rings_with_all(const std::vector<Note>& notes,
                                      const listen::Strum& next) const {
        return std::all_of(notes.begin(), notes.end(), [&](const Note& note) {
            return note.off > next.last() + rings_with &&
                   std::none_of(next.notes.begin(), next.notes.end(),
                                [&](const Note& n) { return on_same_string(n, note); });
        });
    }

    void add_broken(std::size_t s) {
        if (strum(s).strum.is_slide()) return;
        listen::Strum whole = strum(s).strum;
        const Seconds beat = grid_.pace_at(whole.first()).beat;
        for (std::size_t next = s + 1; next < count_; ++next) {
            const auto& part = strum(next).strum;
            // Several strings at once are part of it only in a slow rake.
            const Seconds step = part.first() - whole.last();
            const bool near = part.notes.size() <= 2 ? step <= beat : step <= slow_rake;
            const bool goes_on = near && whole.notes.size() + part.notes.size() <= most_broken &&
                                 rings_with_all(whole.notes, part);
            if (!goes_on) return;
            whole.notes.insert(whole.notes.end(), part.notes.begin(), part.notes.end());
            // A bass note and the chord after it are two things.
            const bool bass_and_chord = next == s + 1 && strum(s).strum.is_bass() &&
                                        part.notes.size() > 1 && step > slow_rake;
            if (whole.notes.size() < fewest_broken || bass_and_chord) continue;
            add_sound(s, next + 1, whole);
        }
    }

    void add_sound(std::size_t begin, std::size_t end, const listen::Strum& whole) {
        SoundingStrum sound = strum(begin);
        sound.strum = whole;
        sound.struck = pitch_classes_of(whole.notes);
        // What rang before the first note and still rings beside the last one.
        std::vector<Note> sounding = whole.notes;
        for (const Note& note : strum(begin).sounding) {
            const bool struck = std::any_of(whole.notes.begin(), whole.notes.end(),
                                            [&](const Note& n) { return on_same_string(n, note); });
            if (!struck && note.off > whole.last() + rings_with) sounding.push_back(note);
        }
        sound.sounding = std::move(sounding);
        sound.pitch_classes = pitch_classes_of(sound.sounding);
        sound.moves_grip = true;
        found_.sounds.push_back(std::move(sound));
        add({Unit::Kind::broken, begin, end, found_.sounds.size() - 1, true, false});
    }

    const Grid& grid_;
    std::size_t count_;
    Units found_;
};

}  // namespace

Units find_units(std::vector<SoundingStrum> strums, const Grid& grid) {
    return UnitFinder(std::move(strums), grid).find();
}

}  // namespace compline::assess
