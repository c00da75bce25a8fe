#include "bass_choices.hpp"
#include "bass_rhythm.hpp"

#include <compline/band/bass.hpp>

#include <algorithm>
#include <cassert>
#include <cstddef>

namespace compline::band {

namespace {

using chart::Bass;
using chart::Feel;
using time::Ticks;

constexpr std::size_t bars_ahead = 2;
constexpr int most_rounds = 40;            // lines thrown away, at most
constexpr std::ptrdiff_t notes_back = 24;  // eight notes and the bar before are among them
constexpr int usual_start = 40;            // E2

// Loudness, 1 to 127.
constexpr int plain = 80;
constexpr int at_starts = 88;
constexpr int short_note = 72;
constexpr int kick_more = 20;

bool walks(const BassBar& bar) { return bar.bass == Bass::walking && bar.feel != Feel::bossa; }

/// Style as the choices see it: a walk only where it walks.
Bass style_of(const BassBar& bar) {
    return bar.bass == Bass::walking && !walks(bar) ? Bass::two_feel : bar.bass;
}

/// Two chords are of one key when neither speaks twice against the other, as far as one can tell.
bool agree(const BassTones& one, const BassTones& other) {
    int against = 0;
    for (int tone = 0; tone < 12; ++tone) {
        against += one.contradicted.has(tone) && other.named.has(tone) ? 1 : 0;
    }
    return against < 2;
}

/// The chords of its key around a change, nearer ones counting double.
Surroundings around(const std::vector<Change>& changes, std::size_t here) {
    Surroundings heard{};
    const std::size_t first = here < 2 ? 0 : here - 2;
    for (std::size_t there = first; there < std::min(here + 3, changes.size()); ++there) {
        const auto& tones = changes[there].tones;
        if (there == here || !tones || !agree(*changes[here].tones, *tones)) continue;
        const bool next_door = there + 1 == here || there == here + 1;
        for (int tone = 0; tone < 12; ++tone) {
            if (!tones->named.has(tone)) continue;
            heard[static_cast<std::size_t>(tone)] += next_door ? 2 : 1;
        }
    }
    return heard;
}

/// A stretch and what is in view behind it, on its way to notes.
class Stretch {
  public:
    Stretch(const std::vector<BassBar>& bars, const std::vector<BassBar>& then,
            std::optional<int> home, time::Meter meter, Chance chance, const Lead& lead)
        : meter_(meter), chance_(chance), own_bars_(bars.size()), bars_(bars), lead_(lead) {
        bars_.insert(bars_.end(), then.begin(),
                     then.begin() + static_cast<std::ptrdiff_t>(std::min(then.size(), bars_ahead)));
        changes_ = changes_of(bars_, own_bars_, meter);
        for (std::size_t i = 0; i < changes_.size(); ++i) {
            if (!changes_[i].tones) continue;
            changes_[i].scale = changes_[i].tones->scale(around(changes_, i));
        }
        for (std::size_t i = 0; i < bars_.size(); ++i) chances_.push_back(chance.of(i + 1));
        places_ = places_of(bars_, changes_, chances_, meter, then.empty());
        const auto last = std::find_if(places_.begin(), places_.end(),
                                       [&](const Place& place) { return place.bar >= own_bars_; });
        own_places_ = static_cast<std::size_t>(last - places_.begin());
        stirred_.assign(bars_.size(), 0);
        home_ = home ? *home : last_root();
    }

    [[nodiscard]] std::vector<Choice> line() const {
        const int start = lead_.notes.empty() ? usual_start : lead_.notes.back().number();
        const Contour contour(chance_.of(0), start,
                              meter_.bar() * static_cast<std::int64_t>(bars_.size()));
        const Outlook outlook{changes_, meter_, home_};
        std::vector<Step> steps;
        steps.reserve(places_.size());
        for (const auto& place : places_) {
            const int stirred = stirred_[place.bar];
            const auto chance = chances_[place.bar].of(static_cast<std::uint64_t>(stirred));
            steps.push_back(step_of(place, outlook, style_of(bars_[place.bar]),
                                    contour.at(place.at), chance, stirred));
        }
        auto line = walk(steps, lead_);
        line.erase(line.begin() + static_cast<std::ptrdiff_t>(own_places_), line.end());
        return line;
    }

    /// Other wishes for some bars, in line() the next time; what is before the stretch stays.
    void stir(std::int64_t from, std::int64_t to) {
        for (auto bar = std::max<std::int64_t>(from, 0); bar <= to; ++bar) {
            ++stirred_[static_cast<std::size_t>(bar)];
        }
    }
    void stir_all() {
        for (int& times : stirred_) ++times;
    }

    /// joins: the first note comes right after the last one of the stretch before.
    [[nodiscard]] std::vector<Heard> heard(const std::vector<Choice>& line, std::int64_t first_bar,
                                           bool joins) const {
        std::vector<Heard> heard;
        heard.reserve(line.size());
        Ticks until = joins ? Ticks(0) : Ticks(-1);
        for (std::size_t i = 0; i < line.size(); ++i) {
            const auto& place = places_[i];
            heard.push_back({line[i].note.number(),
                             first_bar + static_cast<std::int64_t>(place.bar),
                             walks(bars_[place.bar]), place.is_given(), until == place.at});
            until = place.until;
        }
        return heard;
    }

    /// How many notes in view behind the stretch are given, up to the first that is not.
    [[nodiscard]] std::ptrdiff_t given_next() const {
        const auto first = places_.begin() + static_cast<std::ptrdiff_t>(own_places_);
        return std::find_if(first, places_.end(),
                            [](const Place& place) { return !place.is_given(); }) -
               first;
    }

    /// The last note lasts to the end.
    [[nodiscard]] bool runs_on() const {
        return own_places_ > 0 && places_[own_places_ - 1].until ==
                                      meter_.bar() * static_cast<std::int64_t>(own_bars_);
    }

    [[nodiscard]] BassNote note(std::size_t i, harmony::MidiNote pitch) const {
        const auto& place = places_[i];
        const Ticks written = place.until - place.at;
        const bool ballad = bars_[place.bar].feel == Feel::ballad;
        const int share = place.kick ? kick_share : ballad ? ballad_share : note_share;
        const bool short_one = place.at % time::quarter_note != Ticks(0);
        const bool strong =
            changes_[place.change].from == place.at || place.at % meter_.bar() == Ticks(0);
        const int velocity = (strong                     ? at_starts
                              : short_one && !place.kick ? short_note
                                                         : plain) +
                             (place.kick ? kick_more : 0);
        return {place.at, Ticks(written.count() * share / 100), pitch, velocity};
    }

    [[nodiscard]] bool is_free() const {
        return std::any_of(places_.begin(), places_.end(), [&](const Place& place) {
            return walks(bars_[place.bar]) && !place.is_given();
        });
    }

  private:
    [[nodiscard]] int last_root() const {
        for (auto change = changes_.rbegin(); change != changes_.rend(); ++change) {
            if (change->tones) return change->tones->root;
        }
        return 0;
    }

    time::Meter meter_;
    Chance chance_;
    std::size_t own_bars_;
    std::vector<BassBar> bars_;
    const Lead& lead_;
    std::vector<Change> changes_;
    std::vector<Chance> chances_;  // one a bar
    std::vector<Place> places_;
    std::size_t own_places_ = 0;
    std::vector<int> stirred_;
    int home_ = 0;
};

std::vector<int> numbers(const std::vector<Choice>& line) {
    std::vector<int> result;
    result.reserve(line.size());
    for (const auto& choice : line) result.push_back(choice.note.number());
    return result;
}

}  // namespace

BassWriter::BassWriter(time::Meter meter, std::uint64_t seed) : meter_(meter), seed_(seed) {}

std::vector<BassNote> BassWriter::next(const std::vector<BassBar>& bars,
                                       const std::vector<BassBar>& then, std::optional<int> home) {
    assert(!bars.empty());
    Stretch stretch(bars, then, home, meter_, Chance(seed_).of(stretches_), lead_);
    std::vector<Choice> best;
    std::vector<Heard> best_heard;
    std::size_t fewest = 0;
    for (int round = 0; round < most_rounds; ++round) {
        const auto line = stretch.line();
        auto heard = heard_;
        const auto now = stretch.heard(line, bars_, runs_on_);
        heard.insert(heard.end(), now.begin(), now.end());
        auto stalls = stalls_of(heard, stretch.given_next());
        const auto is_past = [&](const Stall& stall) { return stall.to < heard_.size(); };
        stalls.erase(std::remove_if(stalls.begin(), stalls.end(), is_past), stalls.end());
        const bool same = stretch.is_free() && numbers(line) == last_time_;
        const std::size_t faults = stalls.size() + (same ? 1 : 0);
        if (same) stretch.stir_all();
        for (const auto& stall : stalls) {
            stretch.stir(heard[stall.from].bar - bars_, heard[stall.to].bar - bars_);
        }
        if (round == 0 || faults < fewest) {
            best = line;
            best_heard = std::move(heard);
            fewest = faults;
        }
        if (faults == 0) break;
    }
    std::vector<BassNote> notes;
    notes.reserve(best.size());
    for (std::size_t i = 0; i < best.size(); ++i) notes.push_back(stretch.note(i, best[i].note));
    lead_ = lead_after(lead_, best);
    last_time_ = numbers(best);
    heard_ = std::move(best_heard);
    heard_.erase(heard_.begin(),
                 heard_.end() - std::min(notes_back, static_cast<std::ptrdiff_t>(heard_.size())));
    runs_on_ = stretch.runs_on();
    ++stretches_;
    bars_ += static_cast<std::int64_t>(bars.size());
    return notes;
}

}  // namespace compline::band
