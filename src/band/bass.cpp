#include "bass_stretch.hpp"

#include <compline/band/bass.hpp>

#include <algorithm>
#include <cassert>
#include <cstddef>

namespace compline::band {

namespace {

constexpr int most_rounds = 40;            // lines thrown away, at most
constexpr std::ptrdiff_t notes_back = 24;  // eight notes and the bar before are among them

std::vector<int> numbers(const std::vector<Choice>& line) {
    std::vector<int> result;
    result.reserve(line.size());
    for (const auto& choice : line) result.push_back(choice.note.number());
    return result;
}

}  // namespace

BassWriter::BassWriter(std::uint64_t seed) : seed_(seed) {}

std::vector<BassNote> BassWriter::next(const std::vector<BassBar>& bars,
                                       const std::vector<BassBar>& then, std::optional<int> home) {
    assert(!bars.empty());
    BassStretch stretch(bars, then, home, KeyedChance(seed_).of(stretches_), lead_);
    std::vector<Choice> best;
    std::vector<LineNote> best_heard;
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
            stretch.retry(heard[stall.from].bar - bars_, heard[stall.to].bar - bars_);
        }
        if (round == 0 || faults < fewest) {
            best = line;
            best_heard = std::move(heard);
            fewest = faults;
        }
        if (faults == 0) break;
    }
    auto notes = stretch.notes(best);
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
