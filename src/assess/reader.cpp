#include "reader.hpp"

#include <algorithm>

namespace compline::assess {

using time::Seconds;

namespace {

// What a strum would have to be, in nats. Source: see fit.hpp.
constexpr double chunk_lands = -6;       // a dead strum says nothing of tones
constexpr double note_lands = -0.5;      // one note, over strings that ring
constexpr double one_voice_slips = 0.5;  // ... a fret off, instead of its fit
constexpr double same_grip_whole = -1.5;
constexpr double same_grip = -3;
constexpr double broken_chord = -1.2;
constexpr double up_stroke = -3.6;      // rarer than a push that is struck again
constexpr double old_chord = -4.6;      // struck on where the next is due,
constexpr double old_chord_moved = -3;  // and with another grip
constexpr double approach = -1.2;
constexpr double approach_on_two_strings = -3;  // so much is parallel by chance
constexpr double stray = -4.6;                  // a chord of neither name
constexpr double double_stop = -2.3;
constexpr double single = -0.1;  // lines and bass notes are free
constexpr double rest = -0.5;    // where no chord is
// Being elsewhere in the form: twice the price of a slip, and dearer with each chord, so that
// who plays every push a chord early is not taken to be lost.
constexpr double gets_lost = -9.2;
constexpr double stays_lost = -0.7;
constexpr double finds_back = -1;

ReadAs of_unvoiced(const listen::Strum& strum) {
    if (strum.is_chunk()) return ReadAs::chunk;
    return strum.is_bass() ? ReadAs::bass : ReadAs::fill;
}

}  // namespace

TakeReader::TakeReader(const Targets& targets, const Shifts& shifts, const Units& units,
                       std::size_t strums, const Grid& grid, const Player& player)
    : targets_(targets),
      shifts_(shifts),
      units_(units),
      fits_(units.sounds, targets),
      times_(targets, grid, player),
      beam_(targets, player, strums) {}

std::vector<PartialReading> TakeReader::best() {
    std::uint32_t unit = 0;
    for (std::size_t strum = 0; strum < beam_.strums(); ++strum) {
        const auto& likely = beam_.likely(strum, first_open_);
        for (; unit < units_.units.size() && units_.units[unit].begin == strum; ++unit) {
            go_on(likely, unit);
        }
    }
    return beam_.best(first_open_);
}

void TakeReader::go_on(const ReadingBeam::Nodes& likely, std::uint32_t unit) {
    const auto& it = units_.units[unit];
    const auto [first, last] = candidates(it);
    landing_times_.clear();
    for (std::size_t i = first; i < last; ++i) {
        landing_times_.push_back(landing_time(it, i) + beam_.played(i) + manner(it));
    }
    const bool alone = it.kind == Unit::Kind::strum;
    if (alone) repeat_time_ = times_.of_repeat(units_.sounds[it.sound].first());
    for (const auto n : likely) {
        for (std::size_t i = std::max(first, beam_.node(n).next()); i < last; ++i) {
            land(n, unit, i, landing_times_[i - first]);
        }
        if (alone) read_otherwise(n, unit);
    }
}

/// Targets that the strum could land.
std::pair<std::size_t, std::size_t> TakeReader::candidates(const Unit& unit) {
    const Seconds begin = units_.sounds[unit.begin].first();
    while (first_open_ < targets_.size() && times_.over(first_open_) < begin) {
        ++first_open_;
    }
    std::size_t last = first_open_;
    while (last < targets_.size() && times_.earliest(last) <= units_.sounds[unit.sound].first()) {
        ++last;
    }
    return {first_open_, last};
}

/// Of a slide the pick or the arrival, whichever is likelier.
double TakeReader::landing_time(const Unit& unit, std::size_t target) const {
    const double arrival = times_.of_landing(units_.sounds[unit.sound].first(), target);
    if (unit.kind != Unit::Kind::slide) return arrival;
    return std::max(arrival, times_.of_landing(units_.sounds[unit.begin].first(), target));
}

void TakeReader::land(std::int32_t n, std::uint32_t unit, std::size_t target, double nats) {
    const PartialReading before = beam_.node(n);
    const auto& it = units_.units[unit];
    nats += before.nats + beam_.left_out(before.next(), target);
    const bool elsewhere = before.shift != 0;
    const auto& fit = fits_.of(it.sound, target);
    if (!fit.whole || elsewhere) land_elsewhere(n, unit, target, nats);
    if (!may_land(it, target, fit) || (fit.foreign > 0 && is_old_grip(before, it))) return;
    // What leads in says for the chord what it would say alone.
    if (it.kind == Unit::Kind::up_stroke) nats += fits_.of(it.begin, target).struck;
    const bool one_voice = fit.slip && !units_.sounds[it.sound].strum.is_chord();
    nats += one_voice ? one_voice_slips : fit.nats;
    add(n, unit, target, 0, nats + grip(it, target, fit) + (elsewhere ? finds_back : 0));
}

/// The chart, moved, is looked at only where as it stands it does not explain what was struck.
void TakeReader::land_elsewhere(std::int32_t n, std::uint32_t unit, std::size_t target,
                                double nats) {
    const auto& it = units_.units[unit];
    const auto was = beam_.node(n).shift;
    const bool is_whole = fits_.of(it.sound, target).whole;
    for (std::uint32_t shift = 1; shift < shifts_.count(); ++shift) {
        const auto meant = shifts_.meant(shift, target);
        if (!meant || (is_whole && shift != was)) continue;
        const auto& fit = fits_.of(it.sound, *meant);
        const bool fits = fit.nats > 0 || (fit.slip && shift == was && !is_whole);
        if (!fits || !may_land(it, *meant, fit)) continue;
        add(n, unit, target, shift, nats + fit.nats + (shift == was ? stays_lost : gets_lost));
    }
}

/// The hand has not moved, and what it strikes is all of the chord in hand: no other chord badly
/// played.
bool TakeReader::is_old_grip(const PartialReading& before, const Unit& unit) const {
    if (unit.moves_grip || before.chord == PartialReading::nothing_yet) return false;
    const auto held = shifts_.meant(before.shift, static_cast<std::size_t>(before.chord));
    return held && fits_.of(unit.sound, *held).whole;
}

/// A single note lands a chord when it makes whole what rings, or would a fret or two from where it
/// is; a low one never does.
bool TakeReader::may_land(const Unit& unit, std::size_t target, const Fit& fit) const {
    const auto& strum = units_.sounds[unit.sound].strum;
    if (strum.is_bass()) return false;
    return strum.is_chord() || fit.slip || (fit.whole && fits_.tells(unit.sound, target));
}

double TakeReader::manner(const Unit& unit) const {
    const auto& strum = units_.sounds[unit.sound].strum;
    double nats = 0;
    if (strum.is_chunk()) nats += chunk_lands;
    if (!strum.is_chord()) nats += note_lands;
    if (unit.kind == Unit::Kind::broken) nats += broken_chord;
    if (unit.kind == Unit::Kind::up_stroke) nats += up_stroke;
    return nats;
}

/// The grip of the old chord says little of the new one, and nothing before it is due.
double TakeReader::grip(const Unit& unit, std::size_t target, const Fit& fit) const {
    if (unit.moves_grip || !targets_.due[target].from) return 0;
    const Seconds t = units_.sounds[unit.sound].first();
    const bool ahead = t < times_.due_from(target);
    return fit.whole && !ahead ? same_grip_whole : same_grip;
}

void TakeReader::read_otherwise(std::int32_t n, std::uint32_t unit) {
    const auto& it = units_.units[unit];
    const auto& sound = units_.sounds[it.sound];
    if (!sound.is_voiced()) {
        stay(n, unit, single, of_unvoiced(sound.strum));
        return;
    }
    // Two strings of the grip, struck again, are no fill.
    const bool fill = sound.strum.notes.size() == 2 && sound.brings_tone;
    stay(n, unit, fill ? double_stop : stray, fill ? ReadAs::fill : ReadAs::outside);
    if (it.approaches && it.moves_grip && targets_.size() > 0 &&
        is_foreign_to_next(it, beam_.node(n))) {
        const bool two = sound.strum.notes.size() == 2;
        stay(n, unit, two ? approach_on_two_strings : approach, ReadAs::approach);
    }
    if (beam_.node(n).chord != PartialReading::nothing_yet) read_in_hand(n, unit);
}

/// The chord in hand, struck again; also where the next was due.
void TakeReader::read_in_hand(std::int32_t n, std::uint32_t unit) {
    const PartialReading& before = beam_.node(n);
    const auto& it = units_.units[unit];
    const auto chord = static_cast<std::size_t>(before.chord);
    const Seconds t = units_.sounds[it.sound].first();
    const auto last = targets_.may_go_on_through(chord);
    const bool next_is_due = last + 1 < targets_.size() && t >= times_.due_from(last + 1);
    if (!next_is_due && t > times_.over(last)) {
        stay(n, unit, rest, ReadAs::passing);  // no chord: what is played there is nobody's matter
        return;
    }
    const auto held = shifts_.meant(before.shift, chord);
    if (!held) return;
    const auto& fit = fits_.of(it.sound, *held);
    const bool part_of_grip = !units_.sounds[it.sound].brings_tone;
    double nats = (part_of_grip ? fit.struck : fit.nats) + repeat_time_;
    if (next_is_due) nats += old_chord + (it.moves_grip ? old_chord_moved : 0);
    stay(n, unit, nats, next_is_due ? ReadAs::old : ReadAs::again);
}

bool TakeReader::is_foreign_to_next(const Unit& unit, const PartialReading& before) const {
    const auto next = before.next();
    return fits_.of(unit.sound, std::min(next, targets_.size() - 1)).foreign > 0;
}

void TakeReader::add(std::int32_t n, std::uint32_t unit, std::size_t target, std::uint32_t shift,
                     double nats) {
    add(unit, {nats, static_cast<int>(target), shift, n, unit, ReadAs::landing});
}

void TakeReader::stay(std::int32_t n, std::uint32_t unit, double nats, ReadAs how) {
    const PartialReading& before = beam_.node(n);
    add(unit, {before.nats + nats, before.chord, before.shift, n, unit, how});
}

void TakeReader::add(std::uint32_t unit, const PartialReading& node) {
    beam_.add(units_.units[unit].end, node);
}

}  // namespace compline::assess
