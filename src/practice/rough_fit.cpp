#include "rough_fit.hpp"

#include <compline/harmony/quality.hpp>
#include <compline/listen/strum.hpp>

#include <algorithm>
#include <bit>
#include <cmath>

namespace compline::practice {

namespace {

constexpr int pitch_classes = 12;
constexpr int all_pitch_classes = (1 << pitch_classes) - 1;

PitchClassBits bit(int pitch_class) { return static_cast<PitchClassBits>(1U << pitch_class); }

PitchClassBits tones_of(const harmony::Chord& chord) {
    unsigned bits = 0;
    for (const auto& degree : harmony::chord_tones(chord)) {
        bits |= bit((chord.root.pitch_class() + degree.pitch_class()) % pitch_classes);
    }
    return static_cast<PitchClassBits>(bits);
}

PitchClassBits lowered(PitchClassBits tones, int semitones) {
    const auto by =
        static_cast<unsigned>((semitones % pitch_classes + pitch_classes) % pitch_classes);
    const unsigned doubled = tones | static_cast<unsigned>(tones) << pitch_classes;
    return static_cast<PitchClassBits>(doubled >> by & all_pitch_classes);
}

}  // namespace

std::vector<RoughStrum> rough_strums(std::span<const listen::Note> notes) {
    std::vector<RoughStrum> strums;
    for (const auto& strum : listen::group_strums(notes)) {
        if (!strum.is_chord() || strum.is_chunk()) continue;
        unsigned tones = 0;
        for (const auto& note : strum.notes) tones |= bit(note.note.pitch_class());
        strums.push_back({strum.first(), static_cast<PitchClassBits>(tones)});
    }
    return strums;
}

RoughFit::RoughFit(const roadmap::RoadMap& map) : map_(map) {
    chords_.resize(static_cast<std::size_t>(map.end() / time::eighth_note) + 1);
    for (const auto& change : map.changes()) {
        const auto tones = tones_of(change.to);
        const auto end = (change.at + change.length) / time::eighth_note;
        for (auto eighth = change.at / time::eighth_note; eighth < end; ++eighth) {
            chords_[static_cast<std::size_t>(eighth)] = tones;
        }
    }
}

double RoughFit::written(const RoughStrum& strum, const Moved& moved) const {
    return map_.written_at((strum.at - moved.later) * moved.faster).count();
}

double RoughFit::of_tones(PitchClassBits tones, std::int64_t eighth) const {
    if (eighth < 0 || eighth >= static_cast<std::int64_t>(chords_.size())) return 0;
    const auto chord = chords_[static_cast<std::size_t>(eighth)];
    if (chord == 0) return 0;
    const auto common = std::popcount(static_cast<unsigned>(tones & chord));
    return 2.0 * common / std::popcount(static_cast<unsigned>(tones)) - 1;
}

double RoughFit::of_tones(std::span<const RoughStrum> strums, const Moved& moved) const {
    constexpr double by_hand = 0.25;  // eighths: who is early here is not early by an eighth
    double sum = 0;
    for (const auto& strum : strums) {
        const auto eighth =
            static_cast<std::int64_t>(std::floor(written(strum, moved) * 2 + by_hand));
        const auto tones = lowered(strum.tones, moved.semitones);
        sum += std::max(of_tones(tones, eighth), of_tones(tones, eighth + 1));
    }
    return strums.empty() ? 0 : sum / static_cast<double>(strums.size());
}

double RoughFit::of_time(std::span<const RoughStrum> strums, const Moved& moved,
                         OffBeats off_beats) const {
    constexpr double reach = 0.15;  // of a beat, written straight: 55 ms at 160 bpm
    const double off_beats_count = off_beats == OffBeats::count_less ? 0.8 : 1;
    double sum = 0;
    for (const auto& strum : strums) {
        const double eighths = written(strum, moved) * 2;
        const double nearest = std::round(eighths);
        const double near = std::max(0.0, 1 - std::fabs(eighths - nearest) / 2 / reach);
        const bool on_beat = std::fmod(std::fabs(nearest), 2) == 0;
        sum += near * (on_beat ? 1 : off_beats_count);
    }
    return strums.empty() ? 0 : sum / static_cast<double>(strums.size());
}

}  // namespace compline::practice
