#include "support/catch.hpp"
#include "support/comper.hpp"

#include <compline/harmony/quality.hpp>
#include <compline/simulate/chance.hpp>

#include <algorithm>
#include <array>
#include <string>
#include <vector>

using namespace compline;
using harmony::Palette;
using harmony::PitchClasses;

// Voicings by the hundred, made from what the table says and judged by the whole judge: not the
// shapes that somebody thought of. The chord stands second in its form, after a bar of rest, so
// that nothing rings into it.

namespace {

/// Qualities as they stand, and altered in the ways that charts alter dominants.
std::vector<harmony::Chord> chords_on(const harmony::Spelling& root) {
    std::vector<harmony::Chord> chords;
    for (const auto& row : harmony::quality_table()) {
        chords.push_back({root, row.quality, {}, {}});
    }
    for (const char* rest : {"7b9", "7#9", "7#5", "7b5", "7#11", "13b9", "7b9b13", "7#5#9",
                             "maj7#11", "maj7#5", "7sus4b9", "m(b6)", "add9", "madd9", "7(no3)"}) {
        auto chord = harmony::read_chord(std::string("C") + rest);
        chord.root = root;
        chords.push_back(chord);
    }
    return chords;
}

struct Voicing {
    std::vector<listen::Note> notes;
    PitchClasses pitch_classes;
};

/// One note a string for each pitch class, low strings first, anywhere up to fret 14: the judge
/// does not ask whether a hand can hold it.
Voicing voicing_of(const std::vector<int>& pitch_classes, time::Seconds at,
                   simulate::Chance& chance) {
    const auto board = guitar::Fretboard::standard();
    Voicing voicing;
    int string = 6 - static_cast<int>(chance.below(7 - pitch_classes.size()));
    for (const int pitch_class : pitch_classes) {
        const int open = board.note({string, 0}).pitch_class();
        const int fret = (pitch_class - open + 12) % 12;
        listen::Note note;
        note.note = board.note({string, fret});
        note.string = string;
        note.fret = fret;
        note.velocity = 80;
        note.on = at;
        note.off = at + time::Seconds(0.6);
        voicing.notes.push_back(note);
        voicing.pitch_classes.set(static_cast<std::size_t>(pitch_class));
        --string;
        at += time::Seconds(0.002);
    }
    return voicing;
}

assess::Change judge(const chart::Form& form, const Voicing& voicing) {
    assess::Performance heard;
    heard.notes = voicing.notes;
    return assess::assess(tests::map_of(form, 120), heard, {}).changes.at(0);
}

/// Some accepted tones, the defining ones among them: 2 to 5 in any order.
std::vector<int> accepted_tones(const Palette& palette, simulate::Chance& chance) {
    while (true) {
        std::vector<int> tones;
        PitchClasses set;
        for (int tone = 0; tone < 12; ++tone) {
            if (chance.below(3) == 0) tones.push_back(tone);
        }
        for (const int tone : tones) set.set(static_cast<std::size_t>(tone));
        const bool right = palette.foreign(set).none() && palette.missing(set).empty();
        if (!right || tones.size() < 2 || tones.size() > 5) continue;
        for (std::size_t i = tones.size(); i > 1; --i) {
            std::swap(tones[i - 1], tones[chance.below(i)]);
        }
        return tones;
    }
}

constexpr time::Seconds second_bar{2.0};

}  // namespace

TEST_CASE(
    "every voicing of accepted tones with the defining ones is right; one foreign tone more "
    "is wrong, and named") {
    simulate::Chance chance(4);
    int right = 0;
    int wrong = 0;
    for (int root = 0; root < 12; ++root) {
        constexpr std::array<harmony::Spelling, 12> roots = {{{harmony::Letter::C, 0},
                                                              {harmony::Letter::D, -1},
                                                              {harmony::Letter::D, 0},
                                                              {harmony::Letter::E, -1},
                                                              {harmony::Letter::E, 0},
                                                              {harmony::Letter::F, 0},
                                                              {harmony::Letter::F, 1},
                                                              {harmony::Letter::G, 0},
                                                              {harmony::Letter::A, -1},
                                                              {harmony::Letter::A, 0},
                                                              {harmony::Letter::B, -1},
                                                              {harmony::Letter::B, 0}}};
        for (const auto& chord : chords_on(roots.at(static_cast<std::size_t>(root)))) {
            // In a minor key on another root nothing of this is a tonic, a blues or falls.
            const auto form = tests::form_of(
                "N.C. | " + chord.symbol(harmony::Accidentals::letters) + " / N.C. /",
                root == 0 ? "F#m" : "Cm");
            const Palette palette(chord, {.two_beats = true}, harmony::Strictness::working);
            for (int n = 0; n < 4; ++n) {
                auto tones = accepted_tones(palette, chance);
                const auto voicing = voicing_of(tones, second_bar, chance);
                const auto good = judge(form, voicing);
                INFO(chord.symbol() << " " << voicing.pitch_classes.to_string());
                CHECK(good.verdict == assess::Verdict::on_time);
                CHECK(good.tones == assess::Tones::right);
                right += good.tones == assess::Tones::right;

                const int foreign = static_cast<int>(chance.below(12));
                auto with = voicing.pitch_classes;
                with.set(static_cast<std::size_t>(foreign));
                const auto out = palette.foreign(with);
                const auto accepted = palette.accepted(with);
                const bool lands = accepted.count() > out.count() && accepted.count() >= 2 &&
                                   (accepted & palette.telling()).any();
                if (out.count() != 1 || !out[static_cast<std::size_t>(foreign)] || !lands) continue;
                tones.push_back(foreign);
                const auto bad = judge(form, voicing_of(tones, second_bar, chance));
                CHECK(bad.tones == assess::Tones::wrong);
                REQUIRE(bad.wrong.size() == 1);
                CHECK(bad.wrong[0].note.pitch_class() == foreign);
                CHECK(bad.wrong[0].spelling == palette.name(foreign));
                CHECK(!bad.wrong[0].stuck_finger);
                wrong += bad.tones == assess::Tones::wrong;
            }
        }
    }
    CHECK(right == 12 * 55 * 4);
    CHECK(wrong > 1000);
}
