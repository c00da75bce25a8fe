#include "scene.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace compline::simulate {

namespace {

using time::eighth_note;
using time::Seconds;
using time::Ticks;

bool wait(const Scene& scene) {
    if (!scene.lands_on_it() || !scene.lasts(2)) return false;
    scene.now().entry = beat;
    return scene.done(Deed::wait, fmt::format("{} comes in a beat later", scene.symbol()));
}

bool push(const Scene& scene) {
    if (!scene.lands_on_it() || !scene.lasted(2)) return false;
    scene.now().entry = Ticks(0) - eighth_note;
    return scene.done(Deed::push, fmt::format("{} is pushed", scene.symbol()));
}

bool later_entry(const Scene& scene) {
    if (!scene.lands_on_it() || !scene.lasts(4)) return false;
    constexpr std::array<Ticks, 3> entries = {eighth_note, beat, beat + eighth_note};
    const auto in = entries[scene.chance.below(entries.size())];
    scene.now().entry = in;
    return scene.done(Deed::later_entry, fmt::format("{} comes in {:g} beats later", scene.symbol(),
                                                     time::Beats(in).count()));
}

bool laid_out(const Scene& scene) {
    scene.now().entry.reset();
    return scene.done(Deed::laid_out, scene.symbol() + " is laid out");
}

bool broken(const Scene& scene) {
    if (!scene.lands_on_it() || !scene.lasts(3)) return false;
    const auto gaps = static_cast<double>(scene.now().grip->places().size() - 1);
    const double beat_s = scene.beat().count();
    const double room = std::min(2.0, time::Beats(scene.now().area.length()).count() / 2) * beat_s;
    const double most = std::min(beat_s * 0.5, (room - 0.05) / gaps);
    const double least = std::max(0.09, beat_s * 0.15);
    if (most < least) return false;
    scene.now().apart = Seconds(between(scene.chance, least, most));
    scene.now().filled = false;
    return scene.done(Deed::broken, fmt::format("{} string by string, {:.0f} ms apart",
                                                scene.symbol(), scene.now().apart.milliseconds()));
}

bool up_stroke(const Scene& scene) {
    if (!scene.lands_on_it() || !scene.lasted(2)) return false;
    const double most = std::min(0.140, scene.beat().count() * 0.45);
    scene.now().apart = Seconds(between(scene.chance, 0.070, most));
    return scene.done(Deed::up_stroke,
                      fmt::format("a stroke up {:.0f} ms before {}",
                                  scene.now().apart.milliseconds(), scene.symbol()));
}

bool approach(const Scene& scene) {
    if (!scene.lands_on_it() || !scene.lasted(3)) return false;
    const int by = scene.chance.below(2) == 0 ? -1 : 1;
    const auto near = moved_along(*scene.now().grip, by);
    if (!near) return false;
    const auto spot = spot_of(scene.chords, scene.i);
    if (!clashes(*near, spot.now) || !clashes(*near, spot.before)) return false;
    scene.now().slip.shape = *near;
    return scene.done(Deed::approach, fmt::format("{} is approached from a fret {}", scene.symbol(),
                                                  by > 0 ? "above" : "below"));
}

bool lead_in(const Scene& scene) {
    if (!scene.lands_on_it() || !scene.lasted(2)) return false;
    return scene.done(Deed::lead_in, "a bass note leads into " + scene.symbol());
}

bool passing(const Scene& scene) {
    const bool room =
        scene.lands_on_it() && scene.lasts(4) && scene.now().area.beat == time::BeatOfBar(1);
    if (!room) return false;
    const auto near = moved_along(*scene.now().grip, scene.chance.below(2) == 0 ? -1 : 1);
    if (!near || !clashes(*near, scene.here())) return false;
    scene.now().slip.shape = *near;
    scene.now().filled = false;
    return scene.done(Deed::passing, "a passing chord in " + scene.symbol());
}

bool dead_strum(const Scene& scene) {
    if (!scene.lasts(3) || *scene.now().entry > Ticks(0)) return false;
    return scene.done(Deed::dead_strum, "a dead strum in " + scene.symbol());
}

struct Liberty {
    Deed deed;
    bool (*take)(const Scene&);
};
constexpr std::array<Liberty, 10> liberties{{
    {Deed::wait, wait},
    {Deed::push, push},
    {Deed::later_entry, later_entry},
    {Deed::laid_out, laid_out},
    {Deed::broken, broken},
    {Deed::up_stroke, up_stroke},
    {Deed::lead_in, lead_in},
    {Deed::approach, approach},
    {Deed::passing, passing},
    {Deed::dead_strum, dead_strum},
}};

}  // namespace

bool take_liberty(const Scene& scene, Deed deed) {
    return std::any_of(liberties.begin(), liberties.end(), [&](const Liberty& liberty) {
        return liberty.deed == deed && liberty.take(scene);
    });
}

}  // namespace compline::simulate
