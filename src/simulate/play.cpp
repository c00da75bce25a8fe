#include "right_hand.hpp"

#include <compline/simulate/played.hpp>

#include <fmt/format.h>

namespace compline::simulate {

namespace {

using time::eighth_note;
using time::Seconds;
using time::Ticks;

/// So many changes in a row are one stretch elsewhere; fewer may be named one by one.
constexpr std::size_t stretch = 4;

std::vector<Outcome> meant(const Intent& chord) {
    if (chord.deed == Deed::late) return {Outcome::late};
    if (chord.deed == Deed::early) return {Outcome::early};
    if (chord.deed == Deed::missed) return {Outcome::missed};
    if (!chord.entry) return {Outcome::laid_out};
    if (*chord.entry < Ticks(0)) return {Outcome::pushed};
    return {*chord.entry > Ticks(0) ? Outcome::placed : Outcome::on_time};
}

/// An up-stroke where a push would be may be taken for one.
bool could_be_a_push(const Road& road, const Intent& chord, const Habits& habits) {
    const auto due = road.time_of(chord.area.start);
    const auto off_beat = due - road.time_of(chord.area.start - eighth_note);
    return chord.apart >
           off_beat - road.tolerance_at(chord.area.start) - habits.place - Seconds(0.025);
}

/// The old grip does for this chord too: then it has been there all the while.
void tell_if_it_was_there(const Intents& intents, std::size_t i, PlayedChange& truth) {
    if (i == 0 || truth.after_nothing || !intents.chords[i - 1].grip) return;
    if (!would_do(*intents.chords[i - 1].grip, truth.chord)) return;
    if (truth.landings.front() == Outcome::pushed) return;
    truth.landings.insert(truth.landings.end(), {Outcome::pushed, Outcome::held});
}

PlayedChange truth_of(const Road& road, const Habits& habits, const Intent& chord) {
    PlayedChange truth;
    truth.time_through = chord.area.time_through;
    truth.bar = chord.area.bar;
    truth.beat = chord.area.beat;
    truth.at = chord.area.start;
    truth.chord = chord.area.chord;
    truth.after_nothing = chord.area.after_nothing;
    truth.deed = chord.deed;
    truth.words = chord.words;
    truth.planted = chord.planted;
    truth.landings = meant(chord);
    if (chord.deed == Deed::up_stroke && could_be_a_push(road, chord, habits))
        truth.landings.push_back(Outcome::pushed);
    const bool grid = chord.entry && chord.off == Seconds(0) && chord.deed != Deed::missed;
    if (grid) truth.beats_in = time::Beats(*chord.entry).count();
    truth.wrong = chord.slip.wrong;
    truth.missing = chord.slip.missing;
    truth.foreign = chord.deed == Deed::missed;
    return truth;
}

void tell_stray(const Stray& stray, std::vector<PlayedChange>& changes) {
    const auto count = stray.last - stray.first + 1;
    for (std::size_t i = stray.first; i <= stray.last; ++i) {
        auto& truth = changes[i];
        truth.deed = Deed::lost;
        truth.words = fmt::format("lost for {} changes, playing {} first", count,
                                  stray.played.front().area.chord.symbol());
        truth.bars_astray = stray.bars;
        truth.landings = {Outcome::astray};
        if (count < stretch) truth.landings.push_back(Outcome::missed);
        truth.beats_in.reset();
        truth.foreign = true;
    }
}

}  // namespace

PlayedTune play(const roadmap::RoadMap& map, const Habits& habits, std::uint64_t seed) {
    Chance chance(seed);
    const Road road{map};
    const auto intents = intend(road, habits, chance);
    const auto strokes = strokes_of(road, habits, intents, chance);
    PlayedTune played;
    played.script = rung(road, habits, strokes, chance);
    for (std::size_t i = 0; i < intents.chords.size(); ++i) {
        played.changes.push_back(truth_of(road, habits, intents.chords[i]));
        tell_if_it_was_there(intents, i, played.changes.back());
    }
    for (const auto& stray : intents.strays) tell_stray(stray, played.changes);
    for (std::size_t i = 0; i < strokes.all.size(); ++i) {
        const auto& strum = played.script[i];
        const auto lands = strokes.all[i].lands;
        if (lands) played.changes[*lands].landing = map.time_of(strum.at) + strum.lateness;
    }
    return played;
}

}  // namespace compline::simulate
