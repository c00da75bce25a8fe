#include "transposed_pins.hpp"
#include "values.hpp"

#include <compline/chart/transpose.hpp>
#include <compline/text/printable.hpp>

#include <fmt/format.h>

#include <cassert>
#include <cstdlib>
#include <utility>

namespace compline::chart {

namespace {

constexpr int octave_in_fifths = 12;  // as in semitones
constexpr int most_sharps = 6;        // or flats
constexpr int minor_is_right = 3;     // A minor, with C's signature, is three fifths from it

Key moved(Key key, int fifths) {
    key.tonic = harmony::spelling_at(harmony::place_in_fifths(key.tonic) + fifths);
    return key;
}

int fifths_between(const Key& from, const Key& to) {
    return harmony::place_in_fifths(to.tonic) - harmony::place_in_fifths(from.tonic);
}

/// Of a section with a key of its own, which may get another name than the interval would give.
KeyMove move_of(const Key& key, int fifths) {
    const auto into = readable(moved(key, fifths));
    return {fifths_between(key, into), sharps_of(into)};
}

void move_slots(std::vector<Slot>& slots, const KeyMove& move) {
    std::vector<Slot> moved;
    for (auto& slot : slots) {
        if (slot.chord) slot.chord = move.of(*slot.chord);
        // What was written by two names may have one now.
        if (!moved.empty() && moved.back().chord == slot.chord) {
            moved.back().length += slot.length;
        } else {
            moved.push_back(slot);
        }
    }
    slots = std::move(moved);
}

void move_bars(std::vector<WrittenBar>& bars, const KeyMove& move) {
    for (auto& bar : bars) move_slots(bar.slots, move);
}

void move_section(Section& section, const KeyMove& chart_move, int fifths) {
    const auto move = section.key ? move_of(*section.key, fifths) : chart_move;
    move_bars(section.bars, move);
    for (auto& ending : section.endings) move_bars(ending.bars, move);
    if (section.key) section.key = moved(*section.key, move.fifths);
}

/// All the ways in which chords of this chart are moved.
std::vector<KeyMove> moves_of(const Chart& chart, const KeyMove& chart_move, int fifths) {
    std::vector<KeyMove> moves = {chart_move};
    for (const auto& section : chart.sections) {
        if (section.key) moves.push_back(move_of(*section.key, fifths));
    }
    return moves;
}

}  // namespace

int sharps_of(const Key& key) {
    return harmony::place_in_fifths(key.tonic) - (key.minor ? minor_is_right : 0);
}

Key readable(Key key) {
    while (sharps_of(key) > most_sharps) key = moved(key, -octave_in_fifths);
    while (sharps_of(key) < -most_sharps) key = moved(key, octave_in_fifths);
    return key;
}

Key read_key_for(const Key& tune, std::string_view text) {
    auto key = read_key(text);
    const bool says_major = !key.minor && text.find("major") != std::string_view::npos;
    if (tune.minor ? says_major : key.minor) {
        const auto* const mode = tune.minor ? "minor" : "major";
        throw text::BadInput(fmt::format(
            "{} is no key for a tune in {} {}, which stays in {} when it is moved: write a key "
            "such as {}",
            text::quoted(text), tune.tonic.name(), mode, mode, tune.minor ? "Gm" : "G"));
    }
    key.minor = tune.minor;
    return readable(key);
}

Key key_apart(const Key& key, int semitones) {
    // Seven fifths are a semitone, whatever the letter.
    const auto one = readable(moved(key, 7 * semitones));
    if (std::abs(sharps_of(one)) < most_sharps) return one;
    const auto other = moved(one, sharps_of(one) > 0 ? -octave_in_fifths : octave_in_fifths);
    const auto& flats = sharps_of(one) < 0 ? one : other;
    const auto& sharps = sharps_of(one) < 0 ? other : one;
    const bool nearer =
        std::abs(fifths_between(key, sharps)) < std::abs(fifths_between(key, flats));
    return nearer ? sharps : flats;
}

harmony::Chord shape_of(const harmony::Chord& chord, const Key& key, int capo) {
    const auto thought_in = key_apart(key, -capo);
    return harmony::transposed(chord, fifths_between(key, thought_in), sharps_of(thought_in));
}

Transposed transposed(Chart chart, const Key& into, int last_fret) {
    assert(chart.key.minor == into.minor);
    if (into == chart.key) return {std::move(chart), {}};
    const int fifths = fifths_between(chart.key, into);
    const KeyMove move{fifths, sharps_of(into)};
    const int semitones = harmony::interval_between(chart.key.tonic, into.tonic).semitones;
    Transposed result;
    chart.voicings = transposed_pins(chart.voicings, moves_of(chart, move, fifths), semitones,
                                     last_fret, result.left_out);
    for (auto& section : chart.sections) move_section(section, move, fifths);
    if (chart.lead_in) move_slots(chart.lead_in->slots, move);
    const auto written_in = chart.written_in.value_or(chart.key);
    chart.key = into;
    chart.written_in = written_in == into ? std::nullopt : std::optional(written_in);
    result.chart = std::move(chart);
    return result;
}

}  // namespace compline::chart
