#include "rough_pickup_parts.hpp"

#include <algorithm>
#include <cmath>

namespace compline::simulate {

namespace {

using time::from_milliseconds;
using time::Seconds;

bool is_free(const Sending& sending, int string, Seconds from, Seconds to) {
    return std::none_of(sending.sent.begin(), sending.sent.end(), [&](const SentNote& sent) {
        return sent.string == string && sent.on < to && from < sent.off;
    });
}

/// For each strum its notes, none of them dropped, in order.
std::vector<std::vector<std::size_t>> strums_of(const Sending& sending) {
    std::vector<std::vector<std::size_t>> strums;
    for (std::size_t i = 0; i < sending.played.size(); ++i) {
        const auto& note = sending.played[i];
        strums.resize(std::max(strums.size(), note.strum + 1));
        if (!note.dropped) strums[note.strum].push_back(i);
    }
    return strums;
}

int median_velocity(const Sending& sending, const std::vector<std::size_t>& strum) {
    std::vector<int> velocities;
    velocities.reserve(strum.size());
    for (const auto i : strum) velocities.push_back(sending.played[i].velocity);
    const auto middle = velocities.begin() + static_cast<std::ptrdiff_t>(velocities.size() / 2);
    std::nth_element(velocities.begin(), middle, velocities.end());
    return *middle;
}

/// The open string, or where a finger of the grip next to it would touch it.
int ghost_key(const Sending& sending, int string, const PlayedNote& neighbour, Chance& chance) {
    const auto& board = sending.rough.fretboard;
    const auto draw = chance.below(4);
    const auto fret = board.fret(neighbour.string, harmony::MidiNote(neighbour.key)).value_or(0);
    if (draw < 2) return board.open(string).number();
    const int near = std::clamp(fret + static_cast<int>(draw) - 2, 0, board.frets());
    return board.note({string, near}).number();
}

}  // namespace

void add_ghosts(Sending& sending) {
    Chance chance = sending.chance_for(Fault::ghost);
    for (const auto& strum : strums_of(sending)) {
        for (const auto i : strum) {
            const auto& note = sending.played[i];
            const bool happens = chance.uniform() < sending.rough.ghosts;
            const auto& first = sending.played[strum.front()];
            const auto& last = sending.played[strum.back()];
            const Seconds room = last.on - first.on + from_milliseconds(60);
            const Seconds on = first.on - from_milliseconds(30) + room * chance.uniform();
            const Seconds length = between_ms(chance, 15, 44);
            const double part = 0.08 + 0.25 * chance.uniform();
            const auto turn = chance.below(64);
            Chance keys(chance.next());
            if (!happens) continue;
            // The nearest string that is left alone, either way.
            const int strings = sending.rough.fretboard.strings();
            for (int n = 0; n < 2 * strings; ++n) {
                const int away = (n / 2 + 1) * ((n + static_cast<int>(turn)) % 2 == 0 ? 1 : -1);
                const int string = note.string + away;
                if (string < 1 || string > strings) continue;
                SentNote ghost;
                ghost.played = i;
                ghost.string = string;
                ghost.key = ghost_key(sending, string, note, keys);
                ghost.velocity = std::max(
                    1, static_cast<int>(std::floor(part * median_velocity(sending, strum))));
                ghost.on = on + sending.delay_of(ghost.string, ghost.key);
                ghost.off = ghost.on + length;
                const Seconds air = from_milliseconds(5);
                if (!is_free(sending, string, ghost.on - air, ghost.off + air)) continue;
                sending.done(Fault::ghost, ghost);
                sending.sent.push_back(ghost);
                break;
            }
        }
    }
}

}  // namespace compline::simulate
