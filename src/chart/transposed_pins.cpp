#include "transposed_pins.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <optional>

namespace compline::chart {

namespace {

using PinnedFrets = std::vector<std::optional<int>>;

constexpr int octave_of_frets = 12;

/// An open string stays open by another name of the same key, and in no other key.
bool has_open_string(const PinnedFrets& frets) {
    return std::any_of(frets.begin(), frets.end(), [](const auto& fret) { return fret == 0; });
}

/// Nothing where a fret would not be on the neck.
std::optional<PinnedFrets> moved(PinnedFrets frets, int by, int last_fret) {
    if (by == 0) return frets;
    for (auto& fret : frets) {
        if (!fret) continue;
        *fret += by;
        if (*fret < 1 || *fret > last_fret) return std::nullopt;
    }
    return frets;
}

std::optional<PinnedFrets> moved_or_an_octave_off(const PinnedFrets& frets, int semitones,
                                                  int last_fret) {
    if (auto near = moved(frets, semitones, last_fret)) return near;
    return moved(frets, semitones > 0 ? semitones - octave_of_frets : semitones + octave_of_frets,
                 last_fret);
}

/// The same chord by all the names that it has now.
std::vector<Pin> by_every_name(const Pin& pin, const std::vector<KeyMove>& moves) {
    if (!pin.chord) return {pin};
    std::vector<Pin> pins;
    for (const auto& move : moves) {
        auto one = pin;
        one.chord = move.of(*pin.chord);
        if (std::find(pins.begin(), pins.end(), one) == pins.end()) pins.push_back(one);
    }
    return pins;
}

}  // namespace

std::vector<Pin> transposed_pins(const std::vector<Pin>& pins, const std::vector<KeyMove>& moves,
                                 int semitones, int last_fret, std::vector<std::string>& left_out) {
    std::vector<Pin> result;
    for (std::size_t i = 0; i < pins.size(); ++i) {
        const auto leave_out = [&](const char* why) {
            left_out.push_back(
                fmt::format("voicing {} of {} is left out: {}", i + 1, pins.size(), why));
        };
        if (semitones != 0 && has_open_string(pins[i].frets)) {
            leave_out("it has an open string, which does not move");
            continue;
        }
        auto pin = pins[i];
        const auto frets = moved_or_an_octave_off(pin.frets, semitones, last_fret);
        if (!frets) {
            leave_out("the neck has no room for it in this key");
            continue;
        }
        pin.frets = *frets;
        for (auto& one : by_every_name(pin, moves)) result.push_back(std::move(one));
    }
    return result;
}

}  // namespace compline::chart
