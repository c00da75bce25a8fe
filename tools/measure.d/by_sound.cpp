#include "measure.d/by_sound.hpp"

#include "measure.d/compare.hpp"

#include <algorithm>
#include <cmath>

namespace compline::measure {

namespace {

using simulate::Deed;
using simulate::PlayedChange;
using time::Seconds;

constexpr Seconds named_within{0.010};

bool is(const PlayedChange& done, Deed deed) { return done.deed == deed; }

/// How late the change is said to have come.
Seconds said_late(const PlayedChange& done, const assess::Change& said,
                  const roadmap::RoadMap& map) {
    const time::Ticks point(std::llround(said.beats_in.value_or(0) * 960));
    return map.time_of(done.at + point) + *said.lateness - map.time_of(done.at);
}

bool is_named_late(const PlayedChange& done, const assess::Change& said,
                   const roadmap::RoadMap& map) {
    if (verdict_of(said) != "late" || !done.landing) return false;
    const Seconds truly = *done.landing - map.time_of(done.at);
    return time::abs(said_late(done, said, map) - truly) <= named_within;
}

void count_clean(SoundFigures& figures, const PlayedChange& done, const assess::Change& said) {
    const auto verdict = verdict_of(said);
    ++figures.clean;
    figures.false_alarms += said.cost() > 0 ? 1 : 0;
    figures.called_late += verdict == "late" ? 1 : 0;
    figures.called_early += verdict == "early" ? 1 : 0;
    figures.missed += verdict == "missed" ? 1 : 0;
    if (!is(done, Deed::laid_out)) return;
    ++figures.laid_out;
    figures.not_struck += verdict == "laid_out" ? 1 : 0;
}

void count(SoundFigures& figures, const PlayedChange& done, const assess::Change& said,
           const roadmap::RoadMap& map) {
    const bool alarm = said.cost() > 0;
    if (is(done, Deed::late)) {
        ++figures.late;
        figures.late_found += alarm ? 1 : 0;
        figures.late_named += is_named_late(done, said, map) ? 1 : 0;
        figures.late_placed += verdict_of(said) == "placed" ? 1 : 0;
    } else if (is(done, Deed::early)) {
        ++figures.early;
        figures.early_found += alarm ? 1 : 0;
    } else if (!is(done, Deed::wait)) {
        count_clean(figures, done, said);
    }
}

}  // namespace

double SoundFigures::false_alarms_in_100() const {
    return clean == 0 ? 0 : 100.0 * false_alarms / clean;
}

void BySound::add(const Pupil& pupil, const simulate::PlayedTune& played,
                  const assess::Assessment& assessment) {
    ++takes;
    const std::array<SoundFigures*, 3> rows = {
        &all, &by_comping.at(static_cast<std::size_t>(pupil.habits.comping)),
        &by_tempo.at(tempo_band(pupil.map.tempo().count()))};
    const auto said = judged_of(played.changes, assessment, pupil.map);
    for (std::size_t i = 0; i < said.size(); ++i) {
        const auto& done = played.changes[i];
        if (said[i] == nullptr || is(done, Deed::lost)) continue;
        for (auto* row : rows) count(*row, done, *said[i], pupil.map);
        const bool wrong = is(done, Deed::late) || is(done, Deed::early);
        const bool agreed = is(done, Deed::wait) || (said[i]->cost() > 0) == wrong;
        auto& deed = done.deed ? deeds.at(static_cast<std::size_t>(*done.deed)) : simply_played;
        ++deed.done;
        deed.found += agreed ? 1 : 0;
        deed.named += compare(done, *said[i], pupil.map, false).strum ? 1 : 0;
        if (!agreed) disagreements.push_back(disagreement(pupil, done, *said[i]));
    }
}

assess::Assessment judged_by_sound(const Pupil& pupil, const simulate::PlayedTune& played) {
    assess::Performance performance;
    performance.heard_by = listen::HeardBy::sound;
    performance.end = pupil.map.time_of(pupil.map.end());
    for (const auto& strum : played.script) {
        const auto at = pupil.map.time_of(strum.at) + strum.lateness;
        auto& note = performance.notes.emplace_back();
        note.on = at;
        note.off = at + Seconds(0.030);
    }
    std::sort(performance.notes.begin(), performance.notes.end(),
              [](const auto& a, const auto& b) { return a.on < b.on; });
    return assess::assess(pupil.map, performance, {});
}

BySound by_sound(const std::vector<chart::Form>& forms, int takes, std::uint64_t seed) {
    return over_pupils<BySound>(forms, takes, seed, judged_by_sound);
}

}  // namespace compline::measure
