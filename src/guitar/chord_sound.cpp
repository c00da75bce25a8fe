#include "chord_sound.hpp"

#include "seventh_chords.hpp"
#include "written_tones.hpp"

#include <compline/harmony/quality.hpp>

#include <algorithm>
#include <vector>

namespace compline::guitar {

namespace {

using harmony::Degree;

constexpr int pitch_classes = 12;
constexpr int c3 = 48;
constexpr std::size_t root = 0;
constexpr std::size_t flat_nine = 1;
constexpr std::size_t ninth = 2;
constexpr std::size_t fifth = 7;
constexpr std::size_t sixth = 9;
constexpr std::size_t minor_seventh = 10;
constexpr std::size_t major_seventh = 11;
constexpr std::size_t notes_of_triad = 3;
constexpr std::size_t four_notes = 4;
/// ♭9, ♯9, ♯11 (or ♭5) and ♭13 (or ♯5), where the chord itself has none.
constexpr std::bitset<12> alterations(0b000101001010);

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

/// A close voicing with one of its voices, or two, an octave down.
bool is_dropped(const Notes& notes) {
    const auto& n = notes.numbers;
    if (n[3] - n[0] < pitch_classes) return false;  // close
    const auto is_close = [](int a, int b, int c, int d) {
        return a < b && b < c && c < d && d - a < pitch_classes;
    };
    const bool second = is_close(n[1], n[2], n[0] + pitch_classes, n[3]);
    const bool third = is_close(n[1], n[0] + pitch_classes, n[2], n[3]);
    const bool second_and_fourth = is_close(n[0] + pitch_classes, n[2], n[1] + pitch_classes, n[3]);
    return second || third || second_and_fourth;
}

}  // namespace

void Notes::add(int number) {
    std::size_t at = count++;
    for (; at > 0 && numbers[at - 1] > number; --at) numbers[at] = numbers[at - 1];
    numbers[at] = number;
}

ChordSound::ChordSound(const harmony::Palette& palette, const InPlace& place)
    : root_(palette.chord().root.pitch_class()),
      bass_(palette.chord().bass.value_or(palette.chord().root).pitch_class()),
      place_(place),
      key_(above_root(place.key)),
      point_(above_root(place.point)) {
    const auto& chord = palette.chord();
    const auto tones = harmony::chord_tones(chord);
    const WrittenTones asked(chord);
    for (const auto& tone : tones) written_.set(static_cast<std::size_t>(tone.pitch_class()));
    written_.set(above_root(bass_));
    tensions_ = above_root(asked.tensions);
    thirds_ = above_root(asked.thirds);
    sevenths_ = above_root(asked.sevenths);
    any_tension_ = chord.quality == harmony::Quality::altered;
    // A triad needs its fifth to be more than a third.
    plain_fifth_ = tones.size() > notes_of_triad && written_[fifth];
    const auto has = [&](const Degree& degree) {
        return std::find(tones.begin(), tones.end(), degree) != tones.end();
    };
    flat_nine_ = has({9, -1}) || place.into_minor;
    major_seventh_ = has({7, 0});
    sixth_ = has({6, 0}) && !major_seventh_ && !written_[minor_seventh];
    diminished_ = has({7, -2});
    for (std::size_t tone = 0; tone < unwritten_.size(); ++tone) {
        if (written_[tone]) continue;
        unwritten_[tone] = place.unwritten + (alterations[tone] ? weight::altered : 0) +
                           (key_.any() && !key_[tone] ? weight::outside_key : 0);
        if (tone == flat_nine && place.into_minor) unwritten_[tone] = weight::flat_nine_into_minor;
    }
}

ChordSound::Degrees ChordSound::above_root(const harmony::PitchClasses& tones) const {
    Degrees degrees;
    for (std::size_t tone = 0; tone < tones.size(); ++tone) {
        if (tones[tone]) degrees.set(above_root(static_cast<int>(tone)));
    }
    return degrees;
}

bool ChordSound::is_alteration(int note) const {
    return (tensions_ & alterations)[above_root(note)];
}

Cost ChordSound::cost(const Notes& notes) const {
    if (notes.count == 0) return 0;
    const auto tones = heard(notes);
    return cost_of_tones(tones) + cost_of_lie(notes, tones);
}

ChordSound::Degrees ChordSound::heard(const Notes& notes) const {
    Degrees heard;
    for (std::size_t i = 0; i < notes.count; ++i) heard.set(above_root(notes.numbers[i]));
    return heard;
}

Cost ChordSound::cost_of_tones(const Degrees& heard) const {
    return tone_cost(heard) + name_cost(heard);
}

Cost ChordSound::cost_of_lie(const Notes& notes, const Degrees& heard) const {
    return size_cost(notes.count) + spread_cost(notes, heard) + interval_cost(notes) +
           outer_cost(notes);
}

Cost ChordSound::tone_cost(const Degrees& heard) const {
    const auto absent = static_cast<int>((tensions_ & ~heard).count());
    const int left_out = any_tension_ ? ((tensions_ & heard).none() ? 1 : 0) : absent;
    Cost cost = left_out * weight::left_out + unwritten_cost(heard);
    if (plain_fifth_ && heard[fifth]) cost += weight::plain_fifth;
    const bool has_colour = (heard & ~written_).any() || (heard & tensions_).any();
    if (place_.unwritten == 0 && !has_colour) cost += weight::unwritten;
    return cost;
}

Cost ChordSound::unwritten_cost(const Degrees& heard) const {
    Cost cost = 0;
    const auto foreign = heard & ~written_;
    for (std::size_t tone = 0; tone < unwritten_.size(); ++tone) {
        if (foreign[tone]) cost += unwritten_[tone];
    }
    if (major_seventh_ && foreign[sixth] && !heard[major_seventh]) {
        cost += weight::six_for_seven - unwritten_[sixth];
    }
    if (sixth_ && foreign[major_seventh]) cost += weight::seven_on_six;
    return cost;
}

/// Whether it says which chord it is.
Cost ChordSound::name_cost(const Degrees& heard) const {
    Cost cost = 0;
    if (point_.any() && (heard & point_).none()) cost += weight::hidden;
    // For a major seventh a sixth will do, which costs what it costs.
    const auto sevenths = major_seventh_ ? sevenths_ | Degrees(1U << sixth) : sevenths_;
    const bool guides = (heard & thirds_).any() && (heard & sevenths).any();
    if (sevenths_.any() && !guides && !diminished_ && heard.count() <= notes_of_triad) {
        cost += weight::no_guide_tone;
    }
    if (heard.count() == four_notes && heard != written_ &&
        is_seventh_chord(static_cast<std::uint16_t>(heard.to_ulong()))) {
        if (!guides) cost += weight::another_chord;
        if (guides && !heard[root]) cost += weight::rootless_ninth;
    }
    return cost;
}

Cost ChordSound::spread_cost(const Notes& notes, const Degrees& heard) const {
    const auto doubled = static_cast<int>(notes.count - heard.count());
    const bool odd = notes.count == four_notes && doubled == 0 && !is_dropped(notes);
    return doubled * weight::doubled + (odd ? weight::odd_spacing : 0);
}

Cost ChordSound::interval_cost(const Notes& notes) const {
    constexpr int minor_second = 1;
    constexpr int major_third = 4;
    Cost cost = 0;
    for (std::size_t low = 0; low < notes.count; ++low) {
        const int below_c3 = c3 - notes.numbers[low];
        for (std::size_t high = low + 1; high < notes.count; ++high) {
            const int apart = notes.numbers[high] - notes.numbers[low];
            const bool ninth_apart = apart > pitch_classes && apart % pitch_classes == minor_second;
            const bool written = flat_nine_ && above_root(notes.numbers[low]) == root &&
                                 above_root(notes.numbers[high]) == flat_nine;
            if (ninth_apart && !written) cost += weight::minor_ninth;
            if (apart == minor_second) {
                const bool asked =
                    is_alteration(notes.numbers[low]) || is_alteration(notes.numbers[high]);
                cost += asked ? weight::minor_second_asked : weight::minor_second;
            }
            if (apart >= minor_second && apart <= major_third && below_c3 > 0) {
                cost += weight::low_third + below_c3 * weight::low_third_semitone;
            }
        }
    }
    return cost;
}

Cost ChordSound::outer_cost(const Notes& notes) const {
    const bool lowest = notes.lowest() % pitch_classes == bass_;
    Cost cost = 0;
    if (place_.low_root == (lowest ? LowRoot::disliked : LowRoot::liked)) cost += weight::low_root;
    if (!lowest && notes.lowest() < c3) cost += weight::low_stranger;
    const auto low = above_root(notes.lowest());
    const bool colour = low == flat_nine || low == ninth || low >= minor_seventh;
    if (!lowest && colour && notes.lowest() < weight::low_colour_below) cost += weight::low_colour;
    const bool rubs = std::any_of(notes.numbers.begin(),
                                  notes.numbers.begin() + static_cast<std::ptrdiff_t>(notes.count),
                                  [&](int note) { return above_root(note) == major_seventh; });
    cost += std::max(0, notes.highest() - weight::highest_voice) * weight::high_voice;
    if (rubs && major_seventh_ && above_root(notes.highest()) == root) {
        cost += weight::root_over_maj7;
    }
    return cost;
}

}  // namespace compline::guitar
