#include "chord_sound.hpp"

#include <compline/harmony/quality.hpp>

#include <algorithm>
#include <vector>

namespace compline::guitar {

namespace {

using harmony::Degree;

constexpr int octave = 12;
constexpr int c3 = 48;
constexpr std::size_t fifth = 7;
constexpr std::size_t flat_nine = 1;
constexpr std::size_t major_seventh = 11;
constexpr std::size_t triad = 3;
/// ♭9, ♯9, ♯11 (or ♭5) and ♭13 (or ♯5), where the chord itself has none.
constexpr std::bitset<12> alterations(0b000101001010);

bool has(const std::vector<Degree>& tones, const Degree& degree) {
    return std::find(tones.begin(), tones.end(), degree) != tones.end();
}

Cost size_cost(std::size_t notes) {
    switch (notes) {
        case 1:
        case 2:
            return weight::two_notes;
        case 3:
            return weight::three_notes;
        case 4:
            return 0;
        default:
            return weight::five_notes;
    }
}

}  // namespace

void Notes::add(int number) {
    std::size_t at = count++;
    for (; at > 0 && numbers[at - 1] > number; --at) numbers[at] = numbers[at - 1];
    numbers[at] = number;
}

ChordSound::ChordSound(const harmony::Palette& palette, LowRoot low_root)
    : root_(palette.chord().root.pitch_class()),
      bass_(palette.chord().bass.value_or(palette.chord().root).pitch_class()),
      low_root_(low_root) {
    const auto tones = harmony::chord_tones(palette.chord());
    const auto highest =
        std::max_element(tones.begin(), tones.end(),
                         [](const Degree& a, const Degree& b) { return a.number < b.number; });
    for (const auto& tone : tones) {
        const auto degree = static_cast<std::size_t>(tone.pitch_class());
        written_.set(degree);
        // A plain ninth beneath a written eleventh or thirteenth is there for the theory.
        const bool asked = tone.alteration != 0 || tone.number == highest->number;
        if (tone.number >= 9 && asked) tensions_.set(degree);
    }
    written_.set(above_root(bass_));
    // A triad needs its fifth to be more than a third.
    plain_fifth_ = tones.size() > triad && has(tones, {5, 0});
    flat_nine_ = has(tones, {9, -1});
    major_seventh_ = has(tones, {7, 0});
}

Cost ChordSound::cost(const Notes& notes) const {
    if (notes.count == 0) return 0;
    return size_cost(notes.count) + tone_cost(notes) + interval_cost(notes) + outer_cost(notes);
}

Cost ChordSound::tone_cost(const Notes& notes) const {
    Degrees heard;
    for (std::size_t i = 0; i < notes.count; ++i) heard.set(above_root(notes.numbers[i]));
    const auto doubled = static_cast<int>(notes.count - heard.count());
    const auto unwritten = static_cast<int>((heard & ~written_).count());
    const auto altered = static_cast<int>((heard & ~written_ & alterations).count());
    const auto left_out = static_cast<int>((tensions_ & ~heard).count());
    return doubled * weight::doubled + unwritten * weight::unwritten + altered * weight::altered +
           left_out * weight::left_out + (plain_fifth_ && heard[fifth] ? weight::plain_fifth : 0);
}

Cost ChordSound::interval_cost(const Notes& notes) const {
    constexpr int minor_second = 1;
    constexpr int major_third = 4;
    Cost cost = 0;
    for (std::size_t low = 0; low < notes.count; ++low) {
        const int below_c3 = c3 - notes.numbers[low];
        for (std::size_t high = low + 1; high < notes.count; ++high) {
            const int apart = notes.numbers[high] - notes.numbers[low];
            const bool ninth = apart > octave && apart % octave == minor_second;
            const bool written = flat_nine_ && above_root(notes.numbers[low]) == 0 &&
                                 above_root(notes.numbers[high]) == flat_nine;
            if (ninth && !written) cost += weight::minor_ninth;
            if (apart == minor_second) cost += weight::minor_second;
            if (apart >= minor_second && apart <= major_third && below_c3 > 0) {
                cost += weight::low_third + below_c3 * weight::low_third_semitone;
            }
        }
    }
    return cost;
}

Cost ChordSound::outer_cost(const Notes& notes) const {
    const bool lowest = notes.lowest() % octave == bass_;
    Cost cost = 0;
    if (low_root_ == (lowest ? LowRoot::disliked : LowRoot::liked)) cost += weight::low_root;
    if (!lowest && notes.lowest() < c3) cost += weight::low_stranger;
    const bool rubs = std::any_of(notes.numbers.begin(),
                                  notes.numbers.begin() + static_cast<std::ptrdiff_t>(notes.count),
                                  [&](int note) { return above_root(note) == major_seventh; });
    cost += std::max(0, notes.highest() - weight::highest_voice) * weight::high_voice;
    if (rubs && major_seventh_ && above_root(notes.highest()) == 0) cost += weight::root_over_maj7;
    return cost;
}

}  // namespace compline::guitar
