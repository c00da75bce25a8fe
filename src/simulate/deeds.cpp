#include "scene.hpp"

namespace compline::simulate {

namespace {

/// Of slips those that spoil one string, where the player has a string of his own for that.
std::vector<Slip> on_string(std::vector<Slip> slips, const Spot& spot, std::optional<int> string) {
    if (!string) return slips;
    std::erase_if(
        slips, [&](const Slip& slip) { return slip.shape.on(*string) == spot.grip.on(*string); });
    return slips;
}

}  // namespace

bool commit(Deed deed, std::vector<Intent>& chords, std::size_t i, const Road& road,
            const Habits& habits, Chance& chance) {
    const Scene scene{chords, i, road, habits, chance};
    // Where the old grip is as good as the new one nobody can say what went wrong.
    if ((is_mistake(deed) || deed == Deed::wait) &&
        would_do(*scene.before().grip, scene.now().area.chord))
        return false;
    constexpr double some = 0.25;
    switch (deed) {
        case Deed::late:
            return late(scene);
        case Deed::early:
            return early(scene);
        case Deed::wrong_third:
            return slips(scene, deed, wrong_thirds(spot_of(chords, i)), some);
        case Deed::wrong_fret:
            return slips(
                scene, deed,
                on_string(wrong_frets(spot_of(chords, i)), spot_of(chords, i), habits.slips_on),
                some);
        case Deed::stuck_finger:
            return slips(scene, deed, stuck_fingers(spot_of(chords, i)), some);
        case Deed::missing_seventh:
            return slips(scene, deed, missing_sevenths(spot_of(chords, i)), 0);
        case Deed::missed:
            return missed(scene);
        case Deed::lost:
            return false;  // see stray_from()
        default:
            return take_liberty(scene, deed);
    }
}

}  // namespace compline::simulate
