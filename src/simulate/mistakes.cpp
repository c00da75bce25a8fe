#include "scene.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace compline::simulate {

using time::eighth_note;
using time::Seconds;
using time::Ticks;

namespace {

constexpr Seconds plainly{0.060};  // beyond what is in time
constexpr Seconds margin{0.015};
constexpr Seconds clear{0.035};
constexpr Seconds strum{0.025};  // from the first string to the last

/// Well away from every beat and off-beat, where it might be meant.
bool is_off_the_grid(const Scene& scene, Seconds at) {
    const auto away = scene.tolerance() + scene.habits.place + clear;
    for (Ticks grid = scene.now().area.start; grid <= scene.now().area.until; grid += eighth_note) {
        if (time::abs(scene.road.time_of(grid) - at) < away) return false;
        if (time::abs(scene.road.map.tempi().time_of(grid) - at) < away) return false;
    }
    return true;
}

}  // namespace

bool late(const Scene& scene) {
    auto& now = scene.now();
    const auto entry = std::max(*now.entry, Ticks(0));
    const auto base = scene.road.time_of(now.area.start + entry);
    const auto end = scene.road.time_of(now.area.until);
    const bool rings = scene.habits.staccato == 0 && clashes(*scene.before().grip, scene.here());
    const double least =
        (scene.tolerance() + scene.habits.place + plainly + Seconds(0.002)).count();
    const double quarter = std::max(least, scene.beat().count() / 4);
    for (int attempt = 0; attempt < 8; ++attempt) {
        const bool far = scene.chance.uniform() < 0.4;
        const double by = far ? between(scene.chance, quarter, quarter + 0.12)
                              : between(scene.chance, least, least + 0.06);
        const auto at = base + Seconds(by);
        if (at + scene.beat() * 0.45 > end) continue;
        if (!rings && !is_off_the_grid(scene, at)) continue;
        now.off = Seconds(by);
        now.old_rings_on = rings;
        now.entry = entry;
        return scene.done(Deed::late,
                          fmt::format("{} comes {:.0f} ms late{}", scene.symbol(), by * 1000,
                                      rings ? ", the old one rings on" : ""));
    }
    return false;
}

/// Between the beat and the off-beat before it, or before that; in time with neither.
bool early(const Scene& scene) {
    if (!scene.lands_on_it() || !scene.lasted(3)) return false;
    auto& now = scene.now();
    if (!clashes(*now.grip, spot_of(scene.chords, scene.i).before)) return false;
    const double tolerance = scene.tolerance().count();
    const double wide = tolerance + (strum + margin).count();
    const double short_note =
        (scene.due() - scene.road.time_of(now.area.start - eighth_note)).count();
    const double beat_s = scene.beat().count();
    double from = wide;
    double to = short_note - tolerance - scene.habits.place.count() - margin.count();
    if (to < from + 0.005) {
        from = beat_s / 2 + wide;
        to = beat_s - tolerance - 0.04;
    }
    if (to < from + 0.005) return false;
    const double by = between(scene.chance, from, to);
    now.off = Seconds(-by);
    return scene.done(Deed::early,
                      fmt::format("{} comes {:.0f} ms early", scene.symbol(), by * 1000));
}

bool slips(const Scene& scene, Deed deed, const std::vector<Slip>& ways, double mended) {
    if (ways.empty() || *scene.now().entry > beat) return false;
    scene.now().slip = ways[scene.chance.below(ways.size())];
    scene.now().mended = scene.chance.uniform() < mended;
    scene.now().filled = false;
    return scene.done(deed, scene.now().slip.words);
}

bool missed(const Scene& scene) {
    if (!clashes(*scene.before().grip, scene.here())) return false;
    auto& now = scene.now();
    now.slip.shape = *scene.before().grip;
    now.filled = false;
    now.entry = std::max(*now.entry, Ticks(0));
    return scene.done(Deed::missed,
                      fmt::format("{} is struck on through {}", scene.before().area.chord.symbol(),
                                  scene.symbol()));
}

}  // namespace compline::simulate
