#include "bass_step.hpp"

#include <algorithm>
#include <cstdlib>
#include <vector>

namespace compline::band {

namespace {

constexpr int more_per_retry = 4;  // chance adds so much more for each line thrown away
// The highest notes of a bass are thin, and a group's guitar is there: the line comes back.
constexpr int unsettled = 3;  // a semitone outside the settled register
// A bass among the strings of the guitar hides the grip's lowest note and is not heard as the bass.
constexpr int below_strings = 3;   // a minor third
constexpr int among_strings = 30;  // where the bass has the note nowhere else
constexpr int in_view = 9;         // semitones from the height wanted; every tone is among them
constexpr int octave = 12;
constexpr int octave_and_more = 20;
constexpr int two_feel_height = 38;  // D2: roots below, fifths above or below them

/// The highest note that stays clear of the band's guitar.
int ceiling_of(const BassBar& bar) {
    return bar.guitar_lowest ? bar.guitar_lowest->number() - below_strings : highest_bass.number();
}

/// Whatever there is an octave lower is played there. (A low grip may leave no room for some
/// notes.)
void keep_below(int ceiling, std::vector<Choice>& choices) {
    const auto has_room = [&](const Choice& choice) {
        const int note = choice.note.number();
        return note > ceiling && note - octave >= lowest_bass.number();
    };
    choices.erase(std::remove_if(choices.begin(), choices.end(), has_room), choices.end());
}

int register_cost(int note, int height, int ceiling, bool walks) {
    const int away = std::abs(note - height);
    int cost = std::min(away * away / (walks ? 6 : 10), 40);
    if (note < settled_low.number()) cost += unsettled * (settled_low.number() - note);
    if (note > settled_high.number()) cost += unsettled * (note - settled_high.number());
    if (note > ceiling) cost += among_strings;
    return cost;
}

/// Where the line is to be in this bar.
int aim_at(const BassBar& bar, int height) {
    const bool walking = walks(bar);
    const int aim = walking ? std::clamp(height, settled_low.number(), settled_high.number())
                            : (height + two_feel_height) / 2;
    return std::max(std::min(aim, ceiling_of(bar) - below_strings), lowest_bass.number());
}

}  // namespace

Step step_of(const BassPlace& place, const LineContext& outlook, const BassBar& bar, int height,
             KeyedChance chance, int retries) {
    const bool walking = walks(bar);
    const bool roots = bar.bass == chart::Bass::roots;
    const auto wanted = wanted_at(place, outlook, bar, chance);
    const auto own = chance.of(static_cast<std::uint64_t>(place.at.count()) + 100);
    const int most = wishes + more_per_retry * retries;
    const int shift = chance.of(99).below(6 * retries + 1) - 3 * retries;
    const int aim = aim_at(bar, walking ? height + shift : height);
    const bool whole_range = retries > 0 || place.is_given() || !walking;
    const int view = whole_range ? octave_and_more : in_view;
    const int high = std::max(aim + view, lowest_bass.number() + octave - 1);
    Step step;
    step.walks = walking;
    step.repeats = roots || (!walking && place.again) || wanted.again;
    step.stays = roots;
    step.choices = wanted.pitches.notes(aim - view, high, [&](int note) {
        return own.of(static_cast<std::uint64_t>(note)).below(most) +
               register_cost(note, aim, ceiling_of(bar), walking);
    });
    keep_below(ceiling_of(bar), step.choices);
    return step;
}

}  // namespace compline::band
