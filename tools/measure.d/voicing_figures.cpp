#include "measure.d/chord_spelling.hpp"
#include "measure.d/musicians.hpp"
#include "measure.d/voicing_place.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cstdlib>

namespace compline::measure {

namespace {

using guitar::PlannedVoicing;
using guitar::VoicingPlan;

/// A grip as one hears it: its notes, and what they are to the chord.
struct Heard {
    ChordSpelling chord;
    std::vector<int> notes;
    Semitones tones;

    explicit Heard(const PlannedVoicing& voicing)
        : chord(spell_out(voicing.change.to)), notes(notes_of(voicing.grip.shape)) {
        tones = above_root(notes, chord);
    }
    [[nodiscard]] bool sounds(int tone) const { return has(tones, tone); }
    [[nodiscard]] bool third() const { return !chord.third || sounds(*chord.third); }
    [[nodiscard]] bool seventh() const { return !chord.seventh || sounds(*chord.seventh); }
    /// 6 and 7 of a tonic stand in for each other; that is counted elsewhere.
    [[nodiscard]] bool swapped() const {
        if (chord.seventh == 11) return !sounds(11) && sounds(9);
        return chord.sixth && !sounds(9) && sounds(11);
    }
    [[nodiscard]] int tone_of(int note) const { return (note - chord.root + 120) % 12; }
    [[nodiscard]] Semitones unasked() const {
        auto rest = tones & ~chord.asked();
        if (swapped()) rest.reset(chord.sixth ? 11 : 9);
        return rest;
    }
};

/// maj7, 7, m7, m7b5, dim7, m(maj7), in semitones.
constexpr unsigned long long seventh_chords[] = {
    1ULL | 1 << 4 | 1 << 7 | 1 << 11, 1ULL | 1 << 4 | 1 << 7 | 1 << 10,
    1ULL | 1 << 3 | 1 << 7 | 1 << 10, 1ULL | 1 << 3 | 1 << 6 | 1 << 10,
    1ULL | 1 << 3 | 1 << 6 | 1 << 9,  1ULL | 1 << 3 | 1 << 7 | 1 << 11};

/// A complete seventh chord on another root, with or without tensions of its own, that the symbol
/// does not itself spell.
bool is_another_chord(const Heard& grip) {
    const auto& chord = grip.chord;
    const bool spells = chord.bass || chord.sus || !chord.third;
    for (int root = 1; root < 12; ++root) {
        for (const auto template_bits : seventh_chords) {
            const auto other = moved(Semitones(template_bits), root);
            const bool own = (other & ~chord.asked()).none() && (spells || chord.diminished);
            if ((grip.tones & other) == other && !own) return true;
        }
    }
    return false;
}

void count_spelling(MusicianFigures& figures, const Heard& grip, const std::string& place) {
    const bool another = is_another_chord(grip);
    const bool guided = grip.third() && grip.seventh();
    figures.note(Count::another_chord, another && !guided);
    figures.note(Count::rootless, another && guided && !grip.sounds(0));
    if (another && !guided) figures.offend(Count::another_chord, place);
    if (another && guided && !grip.sounds(0)) figures.offend(Count::rootless, place);
}

void count_colours(MusicianFigures& figures, const Heard& grip, const std::string& place) {
    for (const auto& colour : grip.chord.colours) {
        const bool sounds = (colour & grip.tones).any();
        figures.note(Count::colours, sounds);
        if (!sounds) figures.offend(Count::colours, place);
    }
}

void count_if(MusicianFigures& figures, Count count, bool is_case, const std::string& place) {
    figures.note(count, is_case);
    if (is_case) figures.offend(count, place);
}

void count_unasked(MusicianFigures& figures, const Heard& grip, const std::string& place) {
    const auto& chord = grip.chord;
    const auto unasked = grip.unasked();
    count_if(figures, Count::unasked, unasked.any(), place);
    if (chord.third == 4 && chord.seventh == 11) {
        count_if(figures, Count::six_for_seven, grip.swapped(), place);
    }
    if (chord.third == 4 && chord.sixth) {
        count_if(figures, Count::seven_for_six, grip.swapped(), place);
    }
    if (chord.minor_seventh()) count_if(figures, Count::unasked_eleven, has(unasked, 5), place);
}

bool rubs(const Heard& grip) {
    for (std::size_t i = 1; i < grip.notes.size(); ++i) {
        const int low = grip.tone_of(grip.notes[i - 1]);
        const int high = grip.tone_of(grip.notes[i]);
        const auto unasked = grip.unasked();
        if (grip.notes[i] - grip.notes[i - 1] == 1 && (has(unasked, low) || has(unasked, high)))
            return true;
    }
    return false;
}

/// Other than the written flat ninth over its root.
bool has_flat_ninth(const Heard& grip) {
    for (const int low : grip.notes) {
        for (const int high : grip.notes) {
            const bool ninth = high - low > 12 && (high - low) % 12 == 1;
            const bool written = grip.tone_of(low) == 0 && has(grip.chord.asked(), 1);
            if (ninth && !written) return true;
        }
    }
    return false;
}

bool has_low_colour(const Heard& grip) {
    constexpr int d3 = 50;
    const int tone = grip.tone_of(grip.notes.front());
    const auto& chord = grip.chord;
    const bool seventh = !chord.sixth && !chord.diminished && chord.seventh == tone;
    const bool ninth = tone == 1 || tone == 2 || (tone == 3 && chord.third != 3);
    return grip.notes.front() < d3 && (seventh || ninth) && chord.bass != tone;
}

/// Third, seventh or sixth, altered fifth, written tensions; the root of a diminished chord, which
/// is all that tells it from a dominant: what makes the chord what it is, each set by one of its
/// tones. Above C.
std::vector<Semitones> points(const ChordSpelling& chord) {
    std::vector<Semitones> all = chord.colours;
    const auto add = [&](int tone) { all.emplace_back(1ULL << tone); };
    if (chord.third && !(chord.sus && chord.third == 4)) add(*chord.third);
    if (chord.seventh) add(*chord.seventh);
    for (const int fifth : {6, 8}) {
        if (has(chord.fifths, fifth)) add(fifth);
    }
    if (chord.diminished) add(0);
    for (auto& point : all) point = moved(point, chord.root);
    return all;
}

bool hides(const Heard& before, const Heard& now) {
    const auto old = moved(before.chord.asked(), before.chord.root);
    const auto heard = moved(now.tones, now.chord.root);
    const auto all = points(now.chord);
    return std::any_of(all.begin(), all.end(), [&](const Semitones& point) {
        return (point & old).none() && (point & heard).none();
    });
}

std::optional<int> lowest_fret(const guitar::Shape& shape) {
    std::optional<int> lowest;
    for (const auto& fret : shape.frets) {
        if (fret && *fret > 0 && (!lowest || *fret < *lowest)) lowest = fret;
    }
    return lowest;
}

constexpr int wide = 4;

void count_move(MusicianFigures& figures, const chart::Form& form, const PlannedVoicing& before,
                const PlannedVoicing& now, const guitar::Move& move) {
    const auto place = fmt::format("{} after {} {}", where(form, now),
                                   before.change.to.symbol(harmony::Accidentals::letters),
                                   before.grip.shape.text());
    const bool held = before.grip.shape == now.grip.shape;
    count_if(figures, Count::hidden_change, held && hides(Heard(before), Heard(now)), place);
    const auto from = lowest_fret(before.grip.shape);
    const auto to = lowest_fret(now.grip.shape);
    count_if(figures, Count::jumps, from && to && std::abs(*to - *from) > wide, place);
    count_if(figures, Count::hand_jumps, std::abs(move.hand) > wide, place);
    const auto voices = static_cast<double>(move.voices.size());
    if (voices > 0) figures.semitones.add(move.semitones() / voices);
    figures.travel.add(move.travel());
}

void count_grip(MusicianFigures& figures, const chart::Form& form, const PlannedVoicing& voicing) {
    const Heard grip(voicing);
    const auto place = where(form, voicing);
    count_colours(figures, grip, place);
    count_spelling(figures, grip, place);
    count_unasked(figures, grip, place);
    if (grip.chord.seventh && !grip.chord.diminished) {
        const bool guided = grip.third() && (grip.seventh() || grip.swapped());
        count_if(figures, Count::no_guide, grip.notes.size() <= 3 && !guided, place);
    }
    count_if(figures, Count::flat_ninths, has_flat_ninth(grip), place);
    count_if(figures, Count::semitones, rubs(grip), place);
    count_if(figures, Count::low_colour, has_low_colour(grip), place);
    figures.notes.add(static_cast<double>(grip.notes.size()));
}

}  // namespace

void MusicianFigures::add(const chart::Form& form, const VoicingPlan& plan) {
    const auto& voicings = plan.voicings;
    for (std::size_t i = 0; i < voicings.size(); ++i) {
        count_grip(*this, form, voicings[i]);
        const auto& before = voicings[(i + voicings.size() - 1) % voicings.size()];
        count_move(*this, form, before, voicings[i], plan.moves[i]);
    }
    add_sections(form, plan);
}

}  // namespace compline::measure
