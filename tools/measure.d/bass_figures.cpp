#include "measure.d/chord_spelling.hpp"
#include "measure.d/musicians.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <set>

namespace compline::measure {

namespace {

using band::BassNote;
using time::Ticks;

constexpr Ticks beat = time::quarter_note;

/// A chord as long as it sounds.
struct Sounding {
    Ticks start;
    Ticks end;
    std::optional<ChordSpelling> chord;  ///< none: N.C.
};

std::vector<Sounding> soundings_of(const chart::Form& form) {
    std::vector<Sounding> all;
    const std::optional<harmony::Chord>* last = nullptr;
    for (const auto& span : form.spans) {
        if (last != nullptr && *last == span.chord) {
            all.back().end = span.start + span.length;
            continue;
        }
        last = &span.chord;
        all.push_back({span.start, span.start + span.length, {}});
        if (span.chord) all.back().chord = spell_out(*span.chord);
    }
    return all;
}

/// Tones that a line may pass through: the chord's own scale, by its third and seventh, and what
/// the symbol alters.
Semitones scale_of(const ChordSpelling& chord) {
    Semitones scale;
    const auto all = [&](std::initializer_list<std::size_t> tones) {
        for (const auto tone : tones) scale.set(tone);
    };
    if (chord.diminished) {
        all({0, 2, 3, 5, 6, 8, 9, 11});
    } else if (chord.third == 3) {
        all({0, 2, 3, 5, 7, 8, 9, 10, 11});
    } else if (chord.seventh == std::optional<int>(10)) {
        all({0, 2, 4, 5, 7, 9, 10});
    } else {
        all({0, 2, 4, 5, 7, 9, 11});
    }
    return (scale & ~chord.forbidden) | chord.asked();
}

Semitones key_scale(const chart::Key& key) {
    Semitones scale;
    for (const auto tone : {0, 2, 4, 5, 7, 9, 11}) scale.set(static_cast<std::size_t>(tone));
    return moved(scale, key.tonic.pitch_class() + (key.minor ? 3 : 0));
}

/// A note of a line under the chord that it is heard with.
class Listener {
  public:
    Listener(MusicianFigures& figures, const chart::Form& form, std::string_view how)
        : figures_(figures), form_(form), how_(how), chords_(soundings_of(form)) {}

    void listen(const BassNote& note) {
        const auto at = note.at % form_.length();
        auto chord = std::find_if(chords_.begin(), chords_.end(),
                                  [&](const Sounding& it) { return at < it.end; });
        // Struck ahead of a chord and still there with it: it belongs to that one.
        const bool off_beat = at % beat != Ticks(0);
        if (off_beat && chord->end - at < beat && at + note.length > chord->end) {
            chord = chord + 1 == chords_.end() ? chords_.begin() : chord + 1;
            if (chord->chord) judge(note, *chord, false);
            return;
        }
        if (chord->chord) judge(note, *chord, chord->end - at <= beat);
    }

  private:
    void judge(const BassNote& note, const Sounding& it, bool last_quarter) {
        const auto& chord = *it.chord;
        const int tone = (note.note.number() - chord.root + 120) % 12;
        count(Count::below_f1, note.note.number() < 29, note, chord);
        count(Count::above_c3, note.note.number() > 48, note, chord);
        if (note.length > beat) {
            count(Count::long_outside, !has(chord.chord_tones(), tone), note, chord);
        }
        if (is_strong(note.at)) {
            count(Count::strong_forbidden, !last_quarter && has(chord.forbidden, tone), note,
                  chord);
        }
        const auto never = never_there(chord);
        if (never.any()) {
            count(Count::wrong_fifth, !last_quarter && has(never, tone), note, chord);
        }
        const bool outside = !has(scale_of(chord), tone) &&
                             !has(key_scale(form_.chart.key), note.note.pitch_class());
        count(Count::early_approach, outside && !last_quarter, note, chord);
    }

    void count(Count count, bool is_case, const BassNote& note, const ChordSpelling& chord) {
        figures_.note(count, is_case);
        if (!is_case) return;
        const auto at = note.at % form_.length();
        const auto in_bar = at % form_.chart.meter.bar();
        figures_.offend(
            count, fmt::format("{}, {}, time {} bar {} beat {:g}: {} note {}", form_.chart.title,
                               how_, note.at / form_.length() + 1, at / form_.chart.meter.bar() + 1,
                               1 + time::Beats(in_bar).count(), chord.symbol, note.note.number()));
    }

    /// The natural fifth over a flat one, thirds on a sus.
    static Semitones never_there(const ChordSpelling& chord) {
        Semitones never;
        if (chord.third == 3 && has(chord.fifths, 6)) never.set(7);
        if (chord.sus) never.set(3).set(4);
        return never & chord.forbidden;
    }

    [[nodiscard]] bool is_strong(Ticks at) const {
        const auto in_bar = at % form_.chart.meter.bar();
        const int beats = form_.chart.meter.beats();
        const int second = beats == 4 ? 2 : beats > 4 ? 3 : 0;
        return in_bar == Ticks(0) || in_bar == beat * second;
    }

    MusicianFigures& figures_;
    const chart::Form& form_;
    std::string_view how_;
    std::vector<Sounding> chords_;
};

/// Pitches of a line from one place of the form to another, the first time through.
std::vector<int> part_of(const std::vector<BassNote>& line, Ticks from, Ticks to) {
    std::vector<int> part;
    for (const auto& note : line) {
        if (note.at >= from && note.at < to) part.push_back(note.note.number());
    }
    return part;
}

int different(const std::vector<std::vector<BassNote>>& lines, Ticks from, Ticks to) {
    std::set<std::vector<int>> all;
    for (const auto& line : lines) all.insert(part_of(line, from, to));
    return static_cast<int>(all.size());
}

}  // namespace

void MusicianFigures::add(const chart::Form& form, const std::vector<BassNote>& line,
                          std::string_view how) {
    Listener listener(*this, form, how);
    for (const auto& note : line) listener.listen(note);
}

void MusicianFigures::add_lines(const chart::Form& form,
                                const std::vector<std::vector<BassNote>>& lines) {
    const auto bar = form.chart.meter.bar();
    const auto chords = soundings_of(form);
    for (std::size_t i = 0; i + 1 < chords.size(); ++i) {
        const auto& [start, turn, from] = chords[i];
        const auto& next = chords[i + 1];
        const bool long_enough = turn - start >= bar && next.end - turn >= bar;
        if (!from || !next.chord || !long_enough || turn % bar != Ticks(0)) continue;
        const auto where = fmt::format("{}, bar {}: {} to {}", form.chart.title, turn / bar + 1,
                                       from->symbol, next.chord->symbol);
        both_bars.add(different(lines, turn - bar, turn + bar), where);
        leading_bars.add(different(lines, turn - bar, turn + beat), where);
    }
}

}  // namespace compline::measure
