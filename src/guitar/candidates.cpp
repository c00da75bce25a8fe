#include "candidates.hpp"

#include "chord_sound.hpp"
#include "guide_line.hpp"
#include "home.hpp"
#include "written_tones.hpp"

#include <compline/harmony/quality.hpp>

#include <algorithm>
#include <bit>
#include <cassert>
#include <numeric>
#include <optional>

namespace compline::guitar {

namespace {

using harmony::Palette;
using harmony::PitchClasses;

constexpr int different_tones = 4;  // of a four-note voicing
constexpr int triad = 3;
constexpr int octave = 12;

PitchClasses all_pitch_classes() { return PitchClasses().set(); }

bool has_right_tones(const Palette& palette, const PitchClasses& sounding) {
    return palette.foreign(sounding).none() && palette.missing(sounding).empty() &&
           sounding.count() >= 2 && (sounding & palette.telling()).any();
}

/// Root, slash bass, what defines the chord or stands in for it; a sixth chord's sixth, a triad's
/// fifth.
PitchClasses shell_tones(const harmony::Chord& chord) {
    PitchClasses tones;
    const auto add = [&](const harmony::Degree& degree) {
        tones.set(static_cast<std::size_t>((chord.root.pitch_class() + degree.pitch_class()) % 12));
    };
    add({1, 0});
    if (chord.bass) tones.set(static_cast<std::size_t>(chord.bass->pitch_class()));
    for (const auto& demand : harmony::defining_tones(chord)) {
        for (const auto& degree : demand) add(degree);
    }
    for (const auto& grant : harmony::grants(chord)) {
        if (grant.ground == harmony::Ground::substitutions) continue;
        for (const auto& option : grant.options) {
            if (option.instead_of) add(option.degree);
        }
    }
    const auto written = harmony::chord_tones(chord);
    if (written.size() <= std::size_t{triad}) {
        for (const auto& degree : written) add(degree);
    }
    return tones | WrittenTones(chord).sevenths;
}

Candidates::Frets frets_of(const Shape& shape) {
    Candidates::Frets frets{};
    std::transform(shape.frets.begin(), shape.frets.end(), frets.begin(),
                   [](const auto& fret) { return static_cast<std::int8_t>(fret.value_or(-1)); });
    return frets;
}

/// What a fret outside of home costs; nothing where other wishes say where the hand lies: a wish
/// for open strings is one for the first position.
Cost away_from_home(const VoicingWishes& wishes) {
    if (wishes.near_fret) return weight::away_from_wish;
    return wishes.position || wishes.open_strings ? 0 : weight::away_from_home;
}

/// Puts a shape among the candidates, in all its fingerings.
class Adding {
  public:
    Adding(const Fretboard& fretboard, const VoicingWishes& wishes, const Palette& palette,
           const InPlace& place, FingeringBook& book, Candidates& candidates)
        : capo_(fretboard.capo()),
          home_(home_of(fretboard, wishes.near_fret)),
          away_(away_from_home(wishes)),
          sound_(palette, place),
          book_(book),
          candidates_(candidates) {}

    void add(const Shape& shape, const Notes& notes, int lowest, int highest) {
        const auto& entry = book_.fingerings(shape, lowest);
        if (entry.all.empty()) return;
        const auto frets = frets_of(shape);
        const Cost cost = sound_cost(notes) + neck_cost(lowest, highest, capo_);
        ToneBits tones = 0;
        for (std::size_t i = 0; i < notes.count; ++i) {
            tones = static_cast<ToneBits>(tones | 1U << (notes.numbers[i] % octave));
        }
        for (const auto& fingered : entry.all) {
            auto packed = fingered.at(lowest - entry.lowest);
            packed.voices = voices_of(notes);
            candidates_.add(frets, fingered.fingers, tones, packed,
                            cost + fingered.form + away_cost(packed.hand));
        }
    }

  private:
    [[nodiscard]] Cost away_cost(int hand) const {
        return hand == 0 ? 0 : home_.frets_outside(hand) * away_;
    }

    /// Of tones it is asked once for each set of them.
    [[nodiscard]] Cost sound_cost(const Notes& notes) {
        const auto heard = sound_.heard(notes);
        auto& known = of_tones_[heard.to_ulong()];
        if (!known) known = sound_.cost_of_tones(heard);
        return *known + sound_.cost_of_lie(notes, heard);
    }

    int capo_;
    Home home_;
    Cost away_;
    ChordSound sound_;
    std::array<std::optional<Cost>, 1U << 12U> of_tones_{};
    FingeringBook& book_;
    Candidates& candidates_;
};

/// Asks each form at each fret whether it is the chord.
class Search {
  public:
    Search(const Fretboard& fretboard, const VoicingWishes& wishes, const Palette& palette,
           const InPlace& place, FingeringBook& book)
        : fretboard_(fretboard),
          wishes_(wishes),
          palette_(palette),
          found_(fretboard.strings()),
          adding_(fretboard, wishes, palette, place, book, found_) {
        auto allowed = palette.accepted(all_pitch_classes());
        if (wishes.style == VoicingStyle::shells) allowed &= shell_tones(palette.chord());
        if (wishes.style == VoicingStyle::one_colour) guides_ = guide_tones_of(palette.chord());
        if (wishes.style == VoicingStyle::rootless) {
            allowed.reset(static_cast<std::size_t>(palette.chord().root.pitch_class()));
        }
        not_allowed_ = static_cast<ToneBits>(~allowed.to_ulong() & 0xFFFU);
    }

    Candidates find(const MovableShapesByTones& forms) {
        for (const auto& group : forms.all_open()) {
            if (!may_be(group.open)) continue;
            for (const auto& form : group.shapes) consider(form, group.open, 0);
        }
        for (int lowest = 1; lowest <= octave; ++lowest) {
            for (const auto& group : forms.held()) {
                const ToneBits tones = group.tones(lowest);
                if (may_be(tones)) consider(group, tones, lowest);
            }
        }
        found_.sort();
        return std::move(found_);
    }

  private:
    /// The same tones come again an octave up the neck.
    void consider(const MovableShapesByTones::Group& group, ToneBits tones, int lowest) {
        for (; lowest <= fretboard_.frets(); lowest += octave) {
            const int span =
                std::min(fretboard_.frets() - lowest, widest_span(lowest, fretboard_.capo()));
            for (const auto& form : group.shapes) {
                if (form.span <= span) consider(form, tones, lowest);
            }
        }
    }

    void consider(const MovableShape& form, ToneBits tones, int lowest) {
        if (!is_of_style(form, tones)) return;
        Notes notes;
        for (int string = 1; string <= fretboard_.strings(); ++string) {
            const int fret = form.on(string);
            if (fret == MovableShape::muted) continue;
            notes.add(fretboard_.open(string).number() +
                      (fret == MovableShape::open ? 0 : lowest + fret));
        }
        if (!is_on_its_bass(notes)) return;
        adding_.add(form.shape(fretboard_.strings(), lowest), notes, lowest, lowest + form.span);
    }

    [[nodiscard]] bool is_of_style(const MovableShape& form, ToneBits sounding) const {
        switch (wishes_.style) {
            case VoicingStyle::shells:
                return std::popcount(sounding) == form.notes;
            case VoicingStyle::one_colour:
                return std::popcount(sounding) == triad && form.notes == triad &&
                       (sounding & guides_) == guides_;
            case VoicingStyle::four_note:
                return std::popcount(sounding) == different_tones && form.notes == different_tones;
            default:
                return true;
        }
    }

    /// The palette is asked once for each set of tones.
    [[nodiscard]] bool may_be(ToneBits sounding) {
        if ((sounding & not_allowed_) != 0) return false;
        auto& known = right_[sounding];
        if (known == Checked::no_idea) {
            known =
                has_right_tones(palette_, PitchClasses(sounding)) ? Checked::right : Checked::wrong;
        }
        return known == Checked::right;
    }

    [[nodiscard]] bool is_on_its_bass(const Notes& notes) const {
        auto bass = palette_.required_bass();
        if (wishes_.style == VoicingStyle::shells) {
            const auto& chord = palette_.chord();
            bass = chord.bass.value_or(chord.root).pitch_class();
        }
        return !bass || harmony::MidiNote(notes.lowest()).pitch_class() == *bass;
    }

    enum class Checked : char { no_idea, right, wrong };

    const Fretboard& fretboard_;
    const VoicingWishes& wishes_;
    const Palette& palette_;
    ToneBits not_allowed_ = 0;
    ToneBits guides_ = 0;
    std::array<Checked, 1U << 12U> right_{};
    Candidates found_;
    Adding adding_;
};

/// Finger by finger; the thumb and the open strings come last, by the shape.
std::uint64_t order_key(const PackedGrip& grip) {
    std::uint64_t key = 0;
    for (std::size_t finger = 0; finger < PackedGrip::thumb; ++finger) {
        key = key << 16U | grip.place[finger];
    }
    return key;
}

}  // namespace

void Candidates::add(const Frets& frets, const Fingers& fingers, ToneBits tones,
                     const PackedGrip& packed, Cost cost) {
    assert(grips_.use_count() == 1);
    grips_->packed.push_back(packed);
    grips_->tones.push_back(tones);
    grips_->written.push_back({frets, fingers});
    costs_.push_back(cost);
}

void Candidates::sort() {
    assert(grips_.use_count() == 1);
    auto& packed = grips_->packed;
    const auto& written = grips_->written;
    // By hand first: there are few, and short lists are sorted sooner than a long one.
    constexpr std::size_t most_hands = 128;
    std::array<std::size_t, most_hands + 1> begins{};
    const auto hand_of = [](const PackedGrip& grip) { return static_cast<std::size_t>(grip.hand); };
    for (const auto& grip : packed) ++begins[hand_of(grip) + 1];
    std::partial_sum(begins.begin(), begins.end(), begins.begin());
    struct Item {
        std::uint64_t key;
        std::uint32_t i;
    };
    std::vector<Item> items(size());
    auto next = begins;
    for (std::uint32_t i = 0; i < size(); ++i) {
        items[next[hand_of(packed[i])]++] = {order_key(packed[i]), i};
    }
    for (std::size_t hand = 0; hand < most_hands; ++hand) {
        std::sort(items.data() + begins[hand], items.data() + begins[hand + 1],
                  [&](const Item& a, const Item& b) {
                      return a.key != b.key ? a.key < b.key : written[a.i] < written[b.i];
                  });
    }
    const auto reorder = [&](auto& list) {
        auto sorted = list;
        for (std::size_t n = 0; n < items.size(); ++n) sorted[n] = list[items[n].i];
        list = std::move(sorted);
    };
    reorder(grips_->packed);
    reorder(grips_->tones);
    reorder(grips_->written);
    reorder(costs_);
}

Grip Candidates::grip(std::uint32_t i) const {
    const auto& written = grips_->written[i];
    Grip grip;
    grip.shape.strings = strings_;
    grip.fingers = written.fingers;
    for (std::size_t n = 0; n < written.frets.size(); ++n) {
        if (written.frets[n] >= 0) grip.shape.frets[n] = written.frets[n];
    }
    return grip;
}

std::uint64_t Candidates::shape_key(std::uint32_t i) const {
    return std::bit_cast<std::uint64_t>(grips_->written[i].frets);
}

GripFinder::GripFinder(const Fretboard& fretboard, const VoicingWishes& wishes)
    : fretboard_(fretboard),
      wishes_(wishes),
      book_(fretboard, {wishes.thumb, wishes.right_hand}),
      any_hands_(fretboard, {true, RightHand::fingers}),
      forms_(movable_shapes_on(fretboard, wishes)) {}

Candidates GripFinder::find(const Palette& palette, const InPlace& place) {
    return Search(fretboard_, wishes_, palette, place, book_).find(forms_);
}

Candidates GripFinder::fingerings(const Palette& palette, const InPlace& place,
                                  const Shape& shape) {
    Notes notes;
    int lowest = 0;
    int highest = 0;
    for (const auto& [string, fret] : shape.places()) {
        notes.add(fretboard_.note({string, fret}).number());
        if (fret == 0) continue;
        lowest = lowest == 0 ? fret : std::min(lowest, fret);
        highest = std::max(highest, fret);
    }
    Candidates candidates(fretboard_.strings());
    if (highest - lowest > widest_span(lowest, fretboard_.capo())) return candidates;
    // As the player's hands would do it, if they can.
    for (auto* book : {&book_, &any_hands_}) {
        Adding(fretboard_, wishes_, palette, place, *book, candidates)
            .add(shape, notes, lowest, highest);
        if (candidates.size() > 0) break;
    }
    candidates.sort();
    return candidates;
}

bool is_right(const Fretboard& fretboard, const Shape& shape, const Palette& palette) {
    PitchClasses sounding;
    for (const auto& place : shape.places()) {
        sounding.set(static_cast<std::size_t>(fretboard.note(place).pitch_class()));
    }
    const auto bass = palette.required_bass();
    const auto lowest = lowest_note(fretboard, shape);
    const bool on_bass = !bass || !lowest || lowest->pitch_class() == *bass;
    return on_bass && has_right_tones(palette, sounding);
}

}  // namespace compline::guitar
