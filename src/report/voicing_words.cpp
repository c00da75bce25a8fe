#include "voicing_words.hpp"

#include "words.hpp"

#include <compline/chart/transpose.hpp>
#include <compline/harmony/quality.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cstdlib>
#include <optional>

namespace compline::report {

namespace {

using guitar::Act;
using guitar::FingerMove;
using harmony::Accidentals;
using harmony::Degree;

std::optional<Degree> written_degree(const harmony::Chord& chord, int above_root) {
    for (const auto& tone : harmony::chord_tones(chord)) {
        if (tone.pitch_class() == above_root) return tone;
    }
    for (const auto& grant : harmony::grants(chord)) {
        for (const auto& option : grant.options) {
            if (option.degree.pitch_class() == above_root) return option.degree;
        }
    }
    return std::nullopt;
}

Degree spelled_degree(const harmony::Spelling& root, const harmony::Spelling& tone) {
    const int steps = (static_cast<int>(tone.letter) - static_cast<int>(root.letter) + 7) % 7;
    Degree degree{steps + 1, 0};
    int alteration = (tone.pitch_class() - root.pitch_class() - degree.pitch_class() + 24) % 12;
    if (alteration > 6) alteration -= 12;
    degree.alteration = alteration;
    return degree;
}

std::string frets_words(int frets) {
    return fmt::format("{} {}", frets > 0 ? "up" : "down", std::abs(frets));
}

/// Moves that can be said in one breath: "1 and 2 lift".
bool alike(const FingerMove& a, const FingerMove& b) {
    if (a.act != b.act) return false;
    if (a.act == Act::slides) return a.frets == b.frets;
    return a.act == Act::stays || a.act == Act::lifts;
}

std::string names_of(const std::vector<FingerMove>& moves) {
    std::string text;
    for (std::size_t i = 0; i < moves.size(); ++i) {
        text += i == 0 ? "" : i + 1 == moves.size() ? " and " : ", ";
        text += name_of(moves[i].finger);
    }
    return text;
}

std::string say(const std::vector<FingerMove>& moves) {
    const auto& first = moves.front();
    const bool one = moves.size() == 1;
    const auto names = names_of(moves);
    switch (first.act) {
        case Act::stays:
            return one ? fmt::format("{} stays on string {}", names, first.to_string)
                       : names + " stay";
        case Act::slides:
            return one ? fmt::format("{} slides {} on string {}", names, frets_words(first.frets),
                                     first.to_string)
                       : fmt::format("{} slide {}", names, frets_words(first.frets));
        case Act::moves:
            return fmt::format("{} moves to string {}{}", names, first.to_string,
                               first.frets == 0 ? "" : ", " + frets_words(first.frets));
        case Act::lands:
            return fmt::format("{} lands on string {}", names, first.to_string);
        case Act::lifts:
            return names + (one ? " lifts" : " lift");
    }
    return "";
}

bool nothing_moves(const guitar::Move& move) {
    const auto stays = [](const FingerMove& finger) { return finger.act == Act::stays; };
    return std::all_of(move.fingers.begin(), move.fingers.end(), stays) &&
           std::all_of(move.voices.begin(), move.voices.end(),
                       [](const guitar::VoiceMove& voice) { return voice.semitones() == 0; });
}

/// Whether such a guitar is rather named with flats: E♭ A♭ D♭ ..., but C♯ F♯ B ...
bool tuned_in_flats(int lowest_pitch_class) {
    constexpr std::array<int, 3> flats = {3, 8, 10};
    return std::find(flats.begin(), flats.end(), lowest_pitch_class) != flats.end();
}

harmony::Spelling plain_name(int pitch_class, bool flats) {
    constexpr std::array<int, 7> naturals = {0, 2, 4, 5, 7, 9, 11};
    const auto* const found = std::find(naturals.begin(), naturals.end(), pitch_class);
    if (found != naturals.end()) {
        return {static_cast<harmony::Letter>(found - naturals.begin()), 0};
    }
    auto name = plain_name(pitch_class + (flats ? 1 : -1), flats);
    name.accidental = flats ? -1 : 1;
    return name;
}

}  // namespace

Degree degree_in(const harmony::Palette& palette, int pitch_class) {
    const auto& chord = palette.chord();
    const int above_root = (pitch_class - chord.root.pitch_class() + 12) % 12;
    if (const auto written = written_degree(chord, above_root)) return *written;
    return spelled_degree(chord.root, palette.name(pitch_class));
}

std::string roles(const guitar::Fretboard& fretboard, const guitar::PlannedVoicing& voicing) {
    std::string text;
    for (const auto& place : voicing.grip.shape.places()) {
        const auto degree = degree_in(voicing.palette, fretboard.note(place).pitch_class());
        if (!text.empty()) text += ' ';
        text += degree == Degree{} ? "R" : degree.name(Accidentals::symbols);
    }
    return text;
}

std::vector<std::string> finger_words(const guitar::Move& move) {
    if (nothing_moves(move)) return {"the same grip"};
    if (move.whole_grip && move.fingers.size() > 1) {
        return {"all slide " + frets_words(move.fingers.front().frets)};
    }
    std::vector<std::string> words;
    for (const auto act : {Act::stays, Act::slides, Act::moves, Act::lands, Act::lifts}) {
        std::vector<FingerMove> left;
        std::copy_if(move.fingers.begin(), move.fingers.end(), std::back_inserter(left),
                     [&](const FingerMove& finger) { return finger.act == act; });
        while (!left.empty()) {
            std::vector<FingerMove> said;
            std::vector<FingerMove> later;
            for (const auto& finger : left) {
                const bool now = said.empty() || alike(said.front(), finger);
                (now ? said : later).push_back(finger);
            }
            words.push_back(say(said));
            left = later;
        }
    }
    return words;
}

std::string top_voice_words(const guitar::Move& move, const harmony::Palette& from,
                            const harmony::Palette& to) {
    const auto before = from.name(move.top.from.pitch_class()).name();
    const auto after = to.name(move.top.to.pitch_class()).name();
    if (move.top.from == move.top.to) {
        return "top voice stays on " + after;
    }
    return fmt::format("top voice {} → {}", before, after);
}

std::string place_words(const roadmap::DueChange& change) {
    if (change.beat == time::BeatOfBar(1)) return fmt::format("bar {}", change.bar);
    return fmt::format("bar {} beat {}", change.bar, plain(change.beat.number()));
}

std::vector<std::string> tuning_names(const guitar::Fretboard& fretboard, Accidentals accidentals) {
    std::vector<std::string> names;
    const auto note = [&](int string) {
        return harmony::MidiNote(fretboard.open(string).number() - fretboard.capo());
    };
    const bool flats = tuned_in_flats(note(fretboard.strings()).pitch_class());
    for (int string = fretboard.strings(); string >= 1; --string) {
        const auto name = plain_name(note(string).pitch_class(), flats);
        names.push_back(harmony::note_name(note(string), name, accidentals));
    }
    return names;
}

std::optional<harmony::Chord> shape_behind_capo(const harmony::Chord& chord,
                                                const chart::FormBar& bar,
                                                const guitar::Fretboard& fretboard) {
    if (fretboard.capo() == 0) return std::nullopt;
    return chart::shape_of(chord, bar.key, fretboard.capo());
}

std::string symbol_and_shape(const harmony::Chord& chord, const chart::FormBar& bar,
                             const guitar::Fretboard& fretboard) {
    const auto shape = shape_behind_capo(chord, bar, fretboard);
    return shape ? fmt::format("{} [{}]", chord.symbol(), shape->symbol()) : chord.symbol();
}

std::string guitar_words(const guitar::Fretboard& fretboard) {
    const auto names = tuning_names(fretboard, Accidentals::symbols);
    std::string text;
    if (names != tuning_names(guitar::Fretboard::standard(), Accidentals::symbols)) {
        text = "tuning";
        for (const auto& name : names) text += " " + name;
    }
    if (fretboard.capo() == 0) return text;
    return text + fmt::format("{}capo {}", text.empty() ? "" : ", ", fretboard.capo());
}

}  // namespace compline::report
