#include "bass_seasoning.hpp"

#include "bar_grid.hpp"

#include <algorithm>
#include <cstdlib>
#include <optional>

namespace compline::band {

namespace {

using chart::Bass;
using chart::Feel;
using time::Ticks;

// One bar in so many; where a phrase ends, which is every fourth bar, more. Walking, that is one in
// six; in two, where there is more room, one in four.
constexpr int walking_bars = 9;
constexpr int walking_phrase_ends = 3;
constexpr int two_feel_bars = 6;
constexpr int two_feel_phrase_ends = 2;
constexpr int ballad_fewer = 2;  // a slow line sings: it is hardly ever interrupted
constexpr int nearest = 7;       // a skip note is under the hand: a fifth away at most
constexpr int dead_in_five = 2;

class Seasoner {
  public:
    Seasoner(const std::vector<BassBar>& bars, const std::vector<ChordToPlay>& changes,
             const std::vector<BassPlace>& places, const std::vector<Choice>& line)
        : bars_(bars), changes_(changes), places_(places), line_(line) {}

    /// What comes right before a place, if anything may.
    [[nodiscard]] std::optional<Seasoned> before(std::size_t i, KeyedChance chance) const {
        if (!has_room(i)) return std::nullopt;
        const bool skips = bars_[places_[i - 1].bar].seasoning == Seasoning::skips_and_dead_notes;
        if (!skips || chance.of(2).below(5) < dead_in_five) {
            if (!fits(i, number(i - 1))) return std::nullopt;
            return Seasoned{i, line_[i - 1].note, true};
        }
        auto notes = skips_before(i);
        if (notes.empty()) return std::nullopt;
        const int wish = chance.of(3).below(static_cast<int>(notes.size()));
        return Seasoned{i, harmony::MidiNote(notes[static_cast<std::size_t>(wish)]), false};
    }

    /// The bar may be seasoned, by its manner and by chance.
    [[nodiscard]] bool wants(std::size_t bar, KeyedChance chance) const {
        const auto& it = bars_[bar];
        const bool two_feel = it.bass == Bass::two_feel && it.feel != Feel::bossa &&
                              it.feel != Feel::ballad && BarGrid(it.meter).pulses == 4;
        if (it.seasoning == Seasoning::none || !(walks(it) || two_feel)) return false;
        int bars = walks(it) ? (it.phrase_ends ? walking_phrase_ends : walking_bars)
                             : (it.phrase_ends ? two_feel_phrase_ends : two_feel_bars);
        if (it.feel == Feel::ballad) bars *= ballad_fewer;
        return chance.of(0).below(bars) == 0;
    }

  private:
    [[nodiscard]] int number(std::size_t i) const { return line_[i].note.number(); }

    /// A beat or more is held and another begins right behind it, and neither is a kick nor the
    /// end.
    [[nodiscard]] bool has_room(std::size_t i) const {
        const auto& from = places_[i - 1];
        const auto& to = places_[i];
        const bool on_beats = from.on_beat && to.on_beat;
        const bool lasts = to.at - from.at > BarGrid(bars_[from.bar].meter).short_note;
        return on_beats && lasts && from.until == to.at && !from.kick && !to.kick &&
               to.role != Role::home;
    }

    /// The note before again; of a note that rests in its chord while that goes on, its root or
    /// fifth as well. (What leads into a change is not led astray.)
    [[nodiscard]] std::vector<int> skips_before(std::size_t i) const {
        std::vector<int> notes;
        const auto& tones = *changes_[places_[i - 1].change].tones;
        const bool rests = !places_[i].starts && tones.chord.has(line_[i - 1].note.pitch_class());
        for (int note = lowest_bass.number(); note <= highest_bass.number(); ++note) {
            const bool again = note == number(i - 1);
            const bool own = note % 12 == tones.root || note % 12 == tones.fifth;
            const bool near = std::abs(note - number(i - 1)) <= nearest;
            const bool low = note <= std::max(number(i - 1), number(i));
            if ((again || (rests && own)) && near && low && fits(i, note)) notes.push_back(note);
        }
        return notes;
    }

    /// The next note is at hand and is not this one, and nothing is struck three times running.
    [[nodiscard]] bool fits(std::size_t i, int note) const {
        if (note == number(i) || std::abs(note - number(i)) > nearest) return false;
        return i < 2 || number(i - 2) != number(i - 1) || note != number(i - 1);
    }

    const std::vector<BassBar>& bars_;
    const std::vector<ChordToPlay>& changes_;
    const std::vector<BassPlace>& places_;
    const std::vector<Choice>& line_;
};

}  // namespace

std::vector<Seasoned> season(const std::vector<BassBar>& bars,
                             const std::vector<ChordToPlay>& changes,
                             const std::vector<BassPlace>& places, const std::vector<Choice>& line,
                             const std::vector<KeyedChance>& chances) {
    const Seasoner seasoner(bars, changes, places, line);
    std::vector<Seasoned> seasoned;
    for (std::size_t first = 0; first < line.size();) {
        const auto bar = places[first].bar;
        std::size_t last = first + 1;
        while (last < line.size() && places[last].bar == bar) ++last;
        const auto chance = chances[bar].of(20);
        if (seasoner.wants(bar, chance)) {
            const auto beats = static_cast<int>(last - first);
            const std::size_t i = first + 1 + static_cast<std::size_t>(chance.of(1).below(beats));
            const auto note = i < line.size() ? seasoner.before(i, chance) : std::nullopt;
            if (note) seasoned.push_back(*note);
        }
        first = last;
    }
    return seasoned;
}

}  // namespace compline::band
