#include "fit.hpp"

#include <algorithm>

namespace compline::assess {

using harmony::Palette;
using harmony::PitchClasses;

namespace {

constexpr double defining_tone = 1;
constexpr double accepted_tone = 0.5;
constexpr double first_foreign = -3;
constexpr double further_foreign = -5;
constexpr double missing_tone = -3;
constexpr std::size_t most_missing = 2;
/// A finger that is off is off by a fret or two.
constexpr int slip = 2;

/// Tones that meet a demand of the chord, alone.
PitchClasses defining_tones(const Palette& palette) {
    PitchClasses defining;
    const auto all = palette.missing({}).size();
    for (int pitch_class = 0; pitch_class < 12; ++pitch_class) {
        PitchClasses one;
        one.set(static_cast<std::size_t>(pitch_class));
        if (palette.missing(one).size() < all) defining |= one;
    }
    return defining;
}

/// A foreign tone lies where a finger that slipped would have put the missing one.
bool is_slip(const Palette& palette, const harmony::Degree& missing, const PitchClasses& foreign) {
    const int wanted = (palette.chord().root.pitch_class() + missing.pitch_class()) % 12;
    for (int away = -slip; away <= slip; ++away) {
        if (has(foreign, (wanted + away + 12) % 12)) return true;
    }
    return false;
}

}  // namespace

FitTable::FitTable(const std::vector<SoundingStrum>& strums, const Targets& targets)
    : strums_(strums), targets_(targets), fits_(strums.size() * targets.palettes.size()) {
    for (const auto& palette : targets.palettes) {
        chords_.push_back({&palette, defining_tones(palette)});
    }
}

const Fit& FitTable::of(std::size_t strum, std::size_t target) const {
    const auto chord = targets_.palette_of[target];
    auto& fit = fits_[strum * chords_.size() + chord];
    if (!fit) fit = work_out(strums_[strum], chords_[chord]);
    return *fit;
}

bool FitTable::tells(std::size_t strum, std::size_t target) const {
    return (strums_[strum].struck & chords_[targets_.palette_of[target]].defining).any();
}

Fit FitTable::work_out(const SoundingStrum& strum, const PaletteTones& chord) const {
    const auto accepted = chord.palette->accepted(strum.pitch_classes);
    Fit fit;
    PitchClasses foreign;
    for (const auto& note : strum.strum.notes) {
        const int tone = note.note.pitch_class();
        if (!has(accepted, tone)) {
            fit.nats += fit.foreign == 0 ? first_foreign : further_foreign;
            ++fit.foreign;
            foreign.set(static_cast<std::size_t>(tone));
        } else {
            fit.nats += has(chord.defining, tone) ? defining_tone : accepted_tone;
        }
    }
    const auto missing = chord.palette->missing(strum.pitch_classes);
    auto lacking = chord.palette->short_of(strum.pitch_classes);
    fit.whole = fit.foreign == 0 && lacking == 0;
    const bool slipped =
        strum.moves_grip && std::any_of(missing.begin(), missing.end(), [&](const auto& degree) {
            return is_slip(*chord.palette, degree, foreign);
        });
    if (slipped) --lacking;
    fit.slip = fit.foreign == 1 && lacking == 0 && strum.moves_grip;
    fit.struck = fit.nats;
    fit.nats += missing_tone * static_cast<double>(std::min(lacking, most_missing));
    return fit;
}

}  // namespace compline::assess
