#include "hands.hpp"

#include "grips.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace compline::month {

namespace {

using time::Beats;
using time::eighth_note;
using time::quarter_note;
using time::Seconds;
using time::Ticks;

constexpr Seconds ahead{0.2};          // so late a bar is settled
constexpr Seconds beyond_doubt{0.06};  // behind what is in time
constexpr Seconds latest{0.2};
constexpr Seconds clear{0.02};        // of the next off-beat
constexpr double missed_part = 0.22;  // of the faults; the others are late
constexpr double most_faults = 0.95;
constexpr double twice_as_many = 0.12;  // faster by that
constexpr double learnt = 0.33;         // of the faults are left

std::string letters(const harmony::Chord& chord) {
    return chord.symbol(harmony::Accidentals::letters);
}

/// What a teacher lets pass: a tenth of the beat, 25 to 60 ms (common practice, no source).
Seconds let_pass(time::Bpm tempo) {
    return Seconds(std::clamp(tempo.beat().count() / 10, 0.025, 0.060));
}

/// A place is half as hard or half as hard again as the average, and stays so.
double hardness(std::uint64_t own, const MeantChange& change) {
    const auto place = static_cast<std::uint64_t>(change.bar) * 64 +
                       static_cast<std::uint64_t>(change.beat.number() * 4);
    simulate::Chance chance(own * 7919 + place);
    return 0.5 + chance.uniform();
}

/// Offsets from a chord's beginning.
std::vector<Ticks> strokes(Comping comping, Ticks length, simulate::Chance& chance) {
    std::vector<Ticks> all;
    const auto add = [&](Ticks at, double how_often) {
        if (at + eighth_note <= length && chance.uniform() < how_often) all.push_back(at);
    };
    switch (comping) {
        case Comping::four_to_the_bar:
            for (auto at = quarter_note; at < length; at += quarter_note) add(at, 1);
            break;
        case Comping::charleston:
            add(quarter_note + eighth_note, 0.75);
            add(quarter_note * 3, 0.15);
            break;
        case Comping::halves:
            add(quarter_note * 2, 0.8);
            break;
        case Comping::long_chords:
            add(quarter_note * 2, 0.25);
            break;
    }
    return all;
}

}  // namespace

bool Luck::strikes(double rate, const std::string& kind) {
    constexpr double drawn_back = 0.3;
    double& owed = owed_[kind];
    const bool befalls = chance_.uniform() < rate + drawn_back * owed;
    owed += rate - (befalls ? 1 : 0);
    return befalls;
}

practice::Played Hands::until(Seconds now, const roadmap::RoadMap& map) {
    const auto is_due = [&] {
        if (next_bar_ > map.bars().value_or(next_bar_)) return false;
        return map.tempi().time_of(Beats(map.bar(next_bar_).start)) <= now + ahead;
    };
    for (; is_due(); ++next_bar_) play(map.bar(next_bar_), map);
    if (next_bar_ > map.bars().value_or(next_bar_) && map.tempi().time_of(Beats(map.end())) <= now)
        strings_.damp(now);
    practice::Played news;
    news.messages = strings_.sent_until(now);
    return news;
}

void Hands::play(const roadmap::PlayedBar& bar, const roadmap::RoadMap& map) {
    if (bar.waits) {
        strings_.damp(map.time_of(bar.start));
        chord_.clear();
        return;
    }
    for (const auto& slot : bar.slots()) {
        const auto at = bar.start + slot.start;
        if (!slot.chord) {
            strings_.damp(map.time_of(at));
            chord_.clear();
        } else if (letters(*slot.chord) != chord_) {
            change(bar, slot, map);
        } else if (holds_it_) {
            strike(map.time_of(at) + in_time(let_pass(bar.tempo)), *grip_);
            strike_again(at, slot.length, map);
        } else {
            strings_.damp(map.time_of(at));
        }
    }
}

void Hands::change(const roadmap::PlayedBar& bar, const chart::Slot& slot,
                   const roadmap::RoadMap& map) {
    const auto at = bar.start + slot.start;
    const auto old = std::exchange(chord_, letters(*slot.chord));
    const auto grip = next_grip(*slot.chord, grip_);
    auto onset = map.time_of(at) + in_time(let_pass(bar.tempo));
    MeantChange meant{bar.time_through, bar.in_form(), time::BeatOfBar(slot.start), old, chord_};
    const bool is_first = meant_.empty();
    const bool struck = is_first || skill_.struck >= 1 || chance_.uniform() < skill_.struck;
    if (!struck || !grip) {
        meant.chance = 0;
        meant.fate = Fate::not_struck;
    } else if (!is_first) {
        const auto by = late(at, slot.length, map);
        const bool can_miss = !old.empty() && clashes(*grip_, *slot.chord);
        meant.fate = fate_of(meant, bar.tune_tempo, by.has_value(), can_miss);
        if (meant.fate == Fate::late) onset = map.time_of(at) + *by;
    }
    holds_it_ = meant.fate == Fate::in_time || meant.fate == Fate::late;
    if (holds_it_) grip_ = grip;
    const auto slip = holds_it_ ? slip_of(*slot.chord) : std::nullopt;
    meant.wrong = slip.has_value();
    meant_.push_back(meant);
    if (meant.fate == Fate::not_struck) {
        strings_.damp(map.time_of(at));
        return;
    }
    strike(onset, slip.value_or(*grip_));
    if (holds_it_) strike_again(at, slot.length, map);
}

/// And how likely it was to come in time.
Fate Hands::fate_of(MeantChange& meant, time::Bpm tempo, bool can_be_late, bool can_be_missed) {
    const auto* bad = stays_bad(meant);
    const double rate = can_be_late || can_be_missed ? fault_rate(meant, tempo, bad) : 0;
    meant.chance = 1 - rate;
    if (rate <= 0) return Fate::in_time;
    if (!luck_.strikes(rate, bad != nullptr ? bad->from + bad->to : "")) return Fate::in_time;
    const bool misses = can_be_missed && (!can_be_late || chance_.uniform() < missed_part);
    return misses ? Fate::missed : Fate::late;
}

void Hands::strike(Seconds at, const guitar::Shape& shape) {
    constexpr double soft = 68;
    constexpr double louder = 9;
    strings_.strike(at, shape, static_cast<int>(soft + louder * (1 + chance_.scatter() / 2)));
    struck_ = at;
}

std::optional<guitar::Shape> Hands::slip_of(const harmony::Chord& chord) {
    if (!luck_.strikes(skill_.wrong, "a fret off")) return std::nullopt;
    const auto slips = a_fret_off(chord, *grip_);
    if (slips.empty()) return std::nullopt;
    return slips[chance_.below(slips.size())];
}

/// A slip is mended by then; who came late lets the next stroke go.
void Hands::strike_again(Ticks from, Ticks length, const roadmap::RoadMap& map) {
    for (const auto after : strokes(skill_.comping, length, chance_)) {
        const auto tempo = map.tempo_at(from);
        const auto at = map.time_of(from + after) + in_time(let_pass(tempo));
        if (at - struck_ > tempo.beat() * 0.45) strike(at, *grip_);
    }
}

const StaysBad* Hands::stays_bad(const MeantChange& change) const {
    for (const auto& bad : skill_.stays_bad) {
        const bool here = bad.bar == 0 || bad.bar == change.bar;
        const bool these = bad.to.empty() || (bad.from == change.from && bad.to == change.to);
        if (here && these) return &bad;
    }
    return nullptr;
}

double Hands::fault_rate(const MeantChange& change, time::Bpm tempo, const StaysBad* bad) const {
    if (bad != nullptr) return 1 - bad->in_time;
    const double faster = tempo.count() / skill_.at.count() - 1;
    const double faults = (1 - skill_.in_time) * std::exp2(faster / twice_as_many) *
                          hardness(skill_.own, change) *
                          std::max(learnt, std::pow(skill_.learns, change.time_through - 1));
    return std::min(faults, most_faults);
}

Seconds Hands::in_time(Seconds tolerance) {
    const auto most = tolerance * 0.7;
    const auto off = skill_.scatter * chance_.scatter();
    return skill_.place + std::clamp(off, -most, most);
}

/// Behind the beat and behind doubt, but not where the next off-beat could be meant.
std::optional<Seconds> Hands::late(Ticks at, Ticks length, const roadmap::RoadMap& map) {
    const auto tempo = map.tempo_at(at);
    const auto tolerance = let_pass(tempo);
    const auto due = map.time_of(at);
    const auto off_beat = map.time_of(at + eighth_note) - due;
    const auto rest = map.time_of(at + length) - due - tempo.beat() * 0.4;
    const auto least = skill_.place + tolerance + beyond_doubt;
    const auto most = std::min(
        {skill_.place + tolerance + latest, off_beat + skill_.place - tolerance - clear, rest});
    if (most <= least) return std::nullopt;
    return least + (most - least) * chance_.uniform();
}

}  // namespace compline::month
