#include "bass_stretch.hpp"

#include "bar_grid.hpp"
#include "bass_contour.hpp"
#include "bass_seasoning.hpp"
#include "bass_step.hpp"

#include <compline/band/bass.hpp>

#include <algorithm>

namespace compline::band {

namespace {

using chart::Feel;
using time::Ticks;

constexpr std::size_t bars_ahead = 2;
constexpr int usual_start = 38;  // D2

// Loudness, 1 to 127.
constexpr int plain = 80;
constexpr int at_starts = 88;
constexpr int short_note = 72;
constexpr int dead_stroke = 50;
constexpr int kick_more = 20;

Ticks share_of(Ticks written, int share) { return Ticks(written.count() * share / 100); }

}  // namespace

BassStretch::BassStretch(const std::vector<BassBar>& bars, const std::vector<BassBar>& then,
                         std::optional<int> home, KeyedChance chance, const LineSoFar& lead)
    : chance_(chance), own_bars_(bars.size()), bars_(bars), lead_(lead) {
    bars_.insert(bars_.end(), then.begin(),
                 then.begin() + static_cast<std::ptrdiff_t>(std::min(then.size(), bars_ahead)));
    lines_ = lines_of(bars_);
    changes_ = changes_of(bars_, own_bars_);
    for (std::size_t i = 0; i < bars_.size(); ++i) chances_.push_back(chance.of(i + 1));
    places_ = places_of(bars_, changes_, chances_, then.empty());
    const auto last = std::find_if(places_.begin(), places_.end(),
                                   [&](const BassPlace& place) { return place.bar >= own_bars_; });
    own_places_ = static_cast<std::size_t>(last - places_.begin());
    retries_.assign(bars_.size(), 0);
    home_ = home ? *home : last_root();
}

std::vector<Choice> BassStretch::line() const {
    const int start = lead_.notes.empty() ? usual_start : lead_.notes.back().number();
    const Contour contour(chance_.of(0), start, lines_.back(), BarGrid(bars_.front().meter).pulse);
    const LineContext outlook{changes_, lines_[own_bars_], home_};
    std::vector<Step> steps;
    steps.reserve(places_.size());
    for (const auto& place : places_) {
        const int retries = retries_[place.bar];
        const auto chance = chances_[place.bar].of(static_cast<std::uint64_t>(retries));
        steps.push_back(
            step_of(place, outlook, bars_[place.bar], contour.at(place.at), chance, retries));
    }
    auto line = walk(steps, lead_);
    line.erase(line.begin() + static_cast<std::ptrdiff_t>(own_places_), line.end());
    return line;
}

void BassStretch::retry(std::int64_t from, std::int64_t to) {
    for (auto bar = std::max<std::int64_t>(from, 0); bar <= to; ++bar) {
        ++retries_[static_cast<std::size_t>(bar)];
    }
}

void BassStretch::stir_all() {
    for (int& times : retries_) ++times;
}

std::vector<LineNote> BassStretch::heard(const std::vector<Choice>& line, std::int64_t first_bar,
                                         bool joins) const {
    std::vector<LineNote> heard;
    heard.reserve(line.size());
    Ticks until = joins ? Ticks(0) : Ticks(-1);
    for (std::size_t i = 0; i < line.size(); ++i) {
        const auto& place = places_[i];
        heard.push_back({line[i].note.number(), first_bar + static_cast<std::int64_t>(place.bar),
                         walks(bars_[place.bar]), place.is_given(), until == place.at});
        until = place.until;
    }
    return heard;
}

std::ptrdiff_t BassStretch::given_next() const {
    const auto first = places_.begin() + static_cast<std::ptrdiff_t>(own_places_);
    return std::find_if(first, places_.end(),
                        [](const BassPlace& place) { return !place.is_given(); }) -
           first;
}

bool BassStretch::runs_on() const {
    return own_places_ > 0 && places_[own_places_ - 1].until == lines_[own_bars_];
}

std::vector<BassNote> BassStretch::notes(const std::vector<Choice>& line) const {
    const auto seasoned = season(bars_, changes_, places_, line, chances_);
    auto next = seasoned.begin();
    std::vector<BassNote> notes;
    notes.reserve(line.size() + seasoned.size());
    for (std::size_t i = 0; i < line.size(); ++i) {
        const bool cut = next != seasoned.end() && next->before == i + 1;
        const Ticks skip = BarGrid(bars_[places_[i].bar].meter).short_note;
        const Ticks until = cut ? places_[i + 1].at - skip : places_[i].until;
        notes.push_back(note(places_[i], until, line[i].note));
        if (!cut) continue;
        notes.push_back({until, share_of(skip, next->dead ? dead_share : note_share), next->note,
                         next->dead ? dead_stroke : short_note, next->dead});
        ++next;
    }
    return notes;
}

bool BassStretch::is_free() const {
    return std::any_of(places_.begin(), places_.end(), [&](const BassPlace& place) {
        return walks(bars_[place.bar]) && !place.is_given();
    });
}

BassNote BassStretch::note(const BassPlace& place, Ticks until, harmony::MidiNote pitch) const {
    const bool ballad = bars_[place.bar].feel == Feel::ballad;
    const int share = place.kick ? kick_share : ballad ? ballad_share : note_share;
    const bool short_one = !place.on_beat;
    const bool strong = changes_[place.change].from == place.at || place.in_bar == Ticks(0);
    const int velocity = (strong                     ? at_starts
                          : short_one && !place.kick ? short_note
                                                     : plain) +
                         (place.kick ? kick_more : 0);
    return {place.at, share_of(until - place.at, share), pitch, velocity};
}

int BassStretch::last_root() const {
    int root = 0;
    for (const auto& change : changes_) {
        if (change.tones) root = change.tones->root;
    }
    return root;
}

}  // namespace compline::band
