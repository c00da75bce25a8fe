#include <compline/harmony/chord.hpp>
#include <compline/harmony/quality.hpp>

#include <algorithm>
#include <array>

namespace compline::harmony {

namespace {

using Q = Quality;
using A = Alteration;

/// Two ways to write one chord: a quality with an alteration is another quality, which has the
/// alteration in it or leaves it standing.
struct Fold {
    Quality quality;
    Alteration alteration;
    Quality simpler;
    bool remains = false;
};
constexpr bool remains = true;

// clang-format off
constexpr std::array folds = {
    Fold{Q::major,      A::sharp_five,     Q::augmented},
    Fold{Q::minor,      A::flat_five,      Q::diminished},
    Fold{Q::major,      A::added_thirteen, Q::sixth},
    Fold{Q::major,      A::no_third,       Q::power},
    Fold{Q::minor,      A::added_thirteen, Q::minor_sixth},
    Fold{Q::sixth,      A::added_nine,     Q::six_nine},
    Fold{Q::minor_sixth, A::added_nine,    Q::minor_six_nine},
    Fold{Q::suspended_fourth, A::added_thirteen, Q::suspended_sixth},
    Fold{Q::minor_seventh,        A::flat_five, Q::half_diminished},
    Fold{Q::minor_ninth,          A::flat_five, Q::half_diminished_ninth},
    Fold{Q::minor_eleventh,       A::flat_five, Q::half_diminished_eleventh},
    Fold{Q::minor_major_seventh,  A::flat_five, Q::diminished_major_seventh},
    // A seventh and its ninth, a ninth and its thirteenth.
    Fold{Q::dominant_seventh,     A::added_nine,     Q::dominant_ninth},
    Fold{Q::dominant_ninth,       A::added_thirteen, Q::dominant_thirteenth},
    Fold{Q::major_seventh,        A::added_nine,     Q::major_ninth},
    Fold{Q::major_ninth,          A::added_thirteen, Q::major_thirteenth},
    Fold{Q::major_ninth,          A::added_eleven,   Q::major_eleventh},
    Fold{Q::minor_seventh,        A::added_nine,     Q::minor_ninth},
    Fold{Q::minor_ninth,          A::added_eleven,   Q::minor_eleventh},
    Fold{Q::minor_ninth,          A::added_thirteen, Q::minor_thirteenth},
    Fold{Q::minor_major_seventh,  A::added_nine,     Q::minor_major_ninth},
    Fold{Q::minor_major_ninth,    A::added_eleven,   Q::minor_major_eleventh},
    Fold{Q::minor_major_ninth,    A::added_thirteen, Q::minor_major_thirteenth},
    Fold{Q::half_diminished,      A::added_nine,     Q::half_diminished_ninth},
    Fold{Q::half_diminished_ninth, A::added_eleven,  Q::half_diminished_eleventh},
    Fold{Q::suspended_seventh,    A::added_nine,     Q::suspended_ninth},
    Fold{Q::suspended_ninth,      A::added_thirteen, Q::suspended_thirteenth},
    Fold{Q::suspended_major_seventh, A::added_nine,  Q::suspended_major_ninth},
    // The tension a chord is named for, altered: C9(b9) is C7b9, C13(b13) is C9(b13).
    Fold{Q::dominant_ninth,       A::flat_nine,      Q::dominant_seventh,  remains},
    Fold{Q::dominant_ninth,       A::sharp_nine,     Q::dominant_seventh,  remains},
    Fold{Q::dominant_eleventh,    A::sharp_eleven,   Q::dominant_ninth,    remains},
    Fold{Q::dominant_thirteenth,  A::flat_thirteen,  Q::dominant_ninth,    remains},
    Fold{Q::major_ninth,          A::flat_nine,      Q::major_seventh,     remains},
    Fold{Q::major_ninth,          A::sharp_nine,     Q::major_seventh,     remains},
    Fold{Q::major_eleventh,       A::sharp_eleven,   Q::major_ninth,       remains},
    Fold{Q::major_thirteenth,     A::flat_thirteen,  Q::major_ninth,       remains},
    Fold{Q::minor_ninth,          A::flat_nine,      Q::minor_seventh,     remains},
    Fold{Q::minor_eleventh,       A::sharp_eleven,   Q::minor_ninth,       remains},
    Fold{Q::minor_thirteenth,     A::flat_thirteen,  Q::minor_ninth,       remains},
    Fold{Q::suspended_ninth,      A::flat_nine,      Q::suspended_seventh, remains},
    Fold{Q::suspended_ninth,      A::sharp_nine,     Q::suspended_seventh, remains},
    Fold{Q::suspended_thirteenth, A::flat_thirteen,  Q::suspended_ninth,   remains},
    Fold{Q::six_nine,             A::flat_nine,      Q::sixth,             remains},
    Fold{Q::six_nine,             A::sharp_nine,     Q::sixth,             remains},
};
// clang-format on

/// Whether the chord has the tone that is added to it altered as well: C7(b9,add9) has both ninths
/// and is no C9(b9), which has one.
bool is_altered_too(const Chord& chord, A added) {
    struct Both {
        A added;
        A altered;
    };
    constexpr std::array known = {
        Both{A::added_nine, A::flat_nine}, Both{A::added_nine, A::sharp_nine},
        Both{A::added_eleven, A::sharp_eleven}, Both{A::added_thirteen, A::flat_six},
        Both{A::added_thirteen, A::flat_thirteen}};
    return std::any_of(known.begin(), known.end(), [&](const Both& both) {
        return both.added == added && chord.alterations.has(both.altered);
    });
}

bool fold_once(Chord& chord) {
    const auto* const fold = std::find_if(folds.begin(), folds.end(), [&](const Fold& f) {
        return f.quality == chord.quality && chord.alterations.has(f.alteration) &&
               !is_altered_too(chord, f.alteration);
    });
    if (fold == folds.end()) return false;
    chord.quality = fold->simpler;
    if (!fold->remains) chord.alterations.erase(fold->alteration);
    return true;
}

/// Whether the chord has this added tone anyway. The sixth of a C6b6 is its flat sixth.
bool stands_without(Chord chord, const AlterationRow& added) {
    chord.alterations.erase(added.alteration);
    const auto tone = read_degrees(added.tone).front();
    const auto tones = chord_tones(chord);
    return std::any_of(tones.begin(), tones.end(), [&](const Degree& degree) {
        return degree.pitch_class() == tone.pitch_class();
    });
}

/// An alteration that says what the quality has already: Csus2(add9), C7sus4(no3).
void drop_repetitions(Chord& chord) {
    const auto tones = read_degrees(row_of(chord.quality).tones);
    const auto has = [&](const Degree& said) {
        return std::any_of(tones.begin(), tones.end(), [&](const Degree& tone) {
            return tone.number % 7 == said.number % 7 && tone.alteration == said.alteration;
        });
    };
    for (const auto& row : alteration_table()) {
        if (!chord.alterations.has(row.alteration)) continue;
        const auto gone = read_degrees(row.replaces);
        const bool said = row.tone.empty() ? std::none_of(gone.begin(), gone.end(), has)
                                           : has(read_degrees(row.tone).front());
        const bool adds = row.replaces.empty();
        if (said && !(adds && !stands_without(chord, row))) chord.alterations.erase(row.alteration);
    }
}

bool has_sixth_or_seventh(Quality quality) {
    const auto tones = read_degrees(row_of(quality).tones);
    return std::any_of(tones.begin(), tones.end(),
                       [](const Degree& tone) { return tone.number >= 6; });
}

/// After a bare root a flat five would be the root's own flat, and a triad has no tensions, only
/// added tones.
std::string alteration_text(Quality quality, const AlterationRow& row) {
    std::string symbol(row.symbol);
    const bool fifth = row.replaces == "5";
    const bool accidental = symbol.front() == 'b' || symbol.front() == '#';
    if (!accidental || has_sixth_or_seventh(quality)) return symbol;
    if (!fifth) return "add" + symbol;
    return row_of(quality).symbol.empty() ? "(" + symbol + ")" : symbol;
}

/// A power chord whose fifth is altered or left out, as the major chord without its third that it
/// is: nobody writes C5b5.
Chord without_its_five(Chord chord) {
    const auto& all = chord.alterations;
    if (chord.quality == Q::power && (all.has(A::flat_five) || all.has(A::no_fifth))) {
        chord.quality = Q::major;
        chord.alterations.insert(A::no_third);
    }
    return chord;
}

std::string quality_text(const Chord& chord) {
    std::string text(row_of(chord.quality).symbol);
    for (const auto& row : alteration_table()) {
        if (chord.alterations.has(row.alteration)) text += alteration_text(chord.quality, row);
    }
    return text;
}

}  // namespace

std::string Chord::symbol(Accidentals style) const {
    std::string text = root.name(style);
    for (const char c : quality_text(without_its_five(*this))) {
        if (style == Accidentals::symbols && c == 'b') {
            text += "♭";
        } else if (style == Accidentals::symbols && c == '#') {
            text += "♯";
        } else {
            text += c;
        }
    }
    if (bass) text += "/" + bass->name(style);
    return text;
}

Chord simplest(Chord chord) {
    if (chord.alterations.none()) return chord;
    if (chord.quality == Quality::suspended_second &&
        chord.alterations.has(Alteration::added_eleven)) {
        chord.quality = Quality::suspended_fourth;
        chord.alterations.erase(Alteration::added_eleven);
        chord.alterations.insert(Alteration::added_nine);
    }
    // So that C5add13 is C6(no3), as C(add13,no3) is.
    if (chord.quality == Quality::power) {
        chord.quality = Quality::major;
        chord.alterations.insert(Alteration::no_third);
    }
    while (fold_once(chord)) {
    }
    drop_repetitions(chord);
    return chord;
}

}  // namespace compline::harmony
