#include "rhythm.hpp"

namespace compline::simulate {

namespace {

using time::eighth_note;
using time::Meter;
using time::Ticks;
using What = Beat::What;

/// A bar of a chord, or what it has of one.
struct ChordInBar {
    Ticks start;
    Ticks in_bar;
    Ticks length;
    bool first = true;

    [[nodiscard]] bool has(Ticks at) const { return at + eighth_note + Ticks(240) < length; }
};

using BeatList = std::vector<Beat>;

void put(BeatList& beats, const ChordInBar& piece, Ticks at, What what = What::grip) {
    if (at == Ticks(0) || piece.has(at)) beats.push_back({piece.start + at, what});
}

void four(BeatList& beats, const ChordInBar& piece) {
    for (Ticks at; at < piece.length; at += beat) beats.push_back({piece.start + at});
}

void charleston(BeatList& beats, const ChordInBar& piece) {
    put(beats, piece, Ticks(0));
    put(beats, piece, beat + eighth_note);
}

void pushes(BeatList& beats, const ChordInBar& piece) {
    beats.push_back({piece.start - eighth_note});
    put(beats, piece, beat + eighth_note);
}

/// 2 and 4; 2 and 3 in three, 2, 4 and 6 in six.
bool is_back_beat(Ticks in_bar, Meter meter) {
    const auto n = in_bar / beat;
    return n % 2 == 1 || (meter.beats() == 3 && n == 2);
}

void two_and_four(BeatList& beats, const ChordInBar& piece, Meter meter) {
    for (Ticks at = Ticks(0) - piece.in_bar % beat; at < piece.length; at += beat) {
        const bool sounds = at >= Ticks(0) && is_back_beat(piece.in_bar + at, meter);
        if (sounds) beats.push_back({piece.start + at});
    }
}

void off_beats(BeatList& beats, const ChordInBar& piece) {
    for (const Ticks at : {eighth_note, beat * 2 + eighth_note}) {
        if (piece.has(at)) beats.push_back({piece.start + at});
    }
}

void fills(BeatList& beats, const ChordInBar& piece, bool filled) {
    put(beats, piece, Ticks(0));
    if (!filled) return;
    for (const Ticks at : {beat + eighth_note, beat * 2, beat * 2 + eighth_note}) {
        if (piece.has(at)) beats.push_back({piece.start + at, What::fill});
    }
}

void chord_melody(BeatList& beats, const ChordInBar& piece, bool filled) {
    if (piece.first) put(beats, piece, Ticks(0));
    if (!filled) return;
    for (const Ticks at : {beat, beat * 2}) {
        if (piece.has(at)) beats.push_back({piece.start + at, What::melody});
    }
}

void bossa(BeatList& beats, const ChordInBar& piece) {
    put(beats, piece, Ticks(0));
    put(beats, piece, beat + eighth_note, What::upper_strings);
    put(beats, piece, beat * 2, What::fifth);
    put(beats, piece, beat * 3, What::upper_strings);
}

void play(Comping comping, Meter meter, const ChordInBar& piece, bool filled, BeatList& beats) {
    switch (comping) {
        case Comping::four_to_the_bar:
            return four(beats, piece);
        case Comping::charleston:
            return charleston(beats, piece);
        case Comping::pushes:
            return pushes(beats, piece);
        case Comping::two_and_four:
            return two_and_four(beats, piece, meter);
        case Comping::off_beats:
            return off_beats(beats, piece);
        case Comping::long_chords:
        case Comping::sparse:
            if (piece.first) put(beats, piece, Ticks(0));
            return;
        case Comping::fills:
            return fills(beats, piece, filled);
        case Comping::chord_melody:
            return chord_melody(beats, piece, filled);
        case Comping::bossa:
            return bossa(beats, piece);
    }
}

}  // namespace

std::vector<Beat> rhythm_of(Comping comping, Meter meter, const Area& area, bool filled) {
    BeatList beats;
    for (std::size_t i = 0; i < area.pieces.size(); ++i) {
        const auto start = area.pieces[i];
        const auto end = i + 1 < area.pieces.size() ? area.pieces[i + 1] : area.until;
        // A chord that comes from nowhere is not pushed: nobody played before it.
        const bool pushed = comping == Comping::pushes && !(i == 0 && area.after_nothing);
        const auto manner = comping == Comping::pushes && !pushed ? Comping::charleston : comping;
        const Ticks in_bar = i == 0 ? Ticks(static_cast<std::int64_t>(
                                          area.beat.from_bar_line().count() * double(beat.count())))
                                    : Ticks(0);
        play(manner, meter, {start, in_bar, end - start, i == 0}, filled, beats);
    }
    return beats;
}

std::optional<Ticks> entry_of(Comping comping, Meter meter, const Area& area) {
    const auto beats = rhythm_of(comping, meter, area, false);
    if (beats.empty()) return std::nullopt;
    return beats.front().at - area.start;
}

}  // namespace compline::simulate
