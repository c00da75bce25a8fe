#include "rhythm.hpp"

namespace compline::simulate {

namespace {

using time::Meter;
using time::Ticks;
using What = Beat::What;

/// A bar of a chord, or what it has of one.
struct Piece {
    Ticks start;
    Ticks in_bar;
    Ticks length;
    bool first = true;

    [[nodiscard]] bool has(Ticks at) const { return at + half_beat + Ticks(240) < length; }
};

using Beats = std::vector<Beat>;

void put(Beats& beats, const Piece& piece, Ticks at, What what = What::grip) {
    if (at == Ticks(0) || piece.has(at)) beats.push_back({piece.start + at, what});
}

void four(Beats& beats, const Piece& piece) {
    for (Ticks at; at < piece.length; at += beat) beats.push_back({piece.start + at});
}

void charleston(Beats& beats, const Piece& piece) {
    put(beats, piece, Ticks(0));
    put(beats, piece, beat + half_beat);
}

void pushes(Beats& beats, const Piece& piece) {
    beats.push_back({piece.start - half_beat});
    put(beats, piece, beat + half_beat);
}

/// 2 and 4; 2 and 3 in three, 2, 4 and 6 in six.
bool is_back_beat(Ticks in_bar, Meter meter) {
    const auto n = in_bar / beat;
    return n % 2 == 1 || (meter.beats() == 3 && n == 2);
}

void two_and_four(Beats& beats, const Piece& piece, Meter meter) {
    for (Ticks at = Ticks(0) - piece.in_bar % beat; at < piece.length; at += beat) {
        const bool sounds = at >= Ticks(0) && is_back_beat(piece.in_bar + at, meter);
        if (sounds) beats.push_back({piece.start + at});
    }
}

void off_beats(Beats& beats, const Piece& piece) {
    for (const Ticks at : {half_beat, beat * 2 + half_beat}) {
        if (piece.has(at)) beats.push_back({piece.start + at});
    }
}

void fills(Beats& beats, const Piece& piece, bool filled) {
    put(beats, piece, Ticks(0));
    if (!filled) return;
    for (const Ticks at : {beat + half_beat, beat * 2, beat * 2 + half_beat}) {
        if (piece.has(at)) beats.push_back({piece.start + at, What::fill});
    }
}

void chord_melody(Beats& beats, const Piece& piece, bool filled) {
    if (piece.first) put(beats, piece, Ticks(0));
    if (!filled) return;
    for (const Ticks at : {beat, beat * 2}) {
        if (piece.has(at)) beats.push_back({piece.start + at, What::melody});
    }
}

void bossa(Beats& beats, const Piece& piece) {
    put(beats, piece, Ticks(0));
    put(beats, piece, beat + half_beat, What::upper_strings);
    put(beats, piece, beat * 2, What::fifth);
    put(beats, piece, beat * 3, What::upper_strings);
}

void play(Comping comping, Meter meter, const Piece& piece, bool filled, Beats& beats) {
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
    Beats beats;
    for (std::size_t i = 0; i < area.pieces.size(); ++i) {
        const auto start = area.pieces[i];
        const auto end = i + 1 < area.pieces.size() ? area.pieces[i + 1] : area.until;
        // A chord that comes from nowhere is not pushed: nobody played before it.
        const bool pushed = comping == Comping::pushes && !(i == 0 && area.after_nothing);
        const auto manner = comping == Comping::pushes && !pushed ? Comping::charleston : comping;
        const Ticks in_bar =
            i == 0 ? Ticks(static_cast<std::int64_t>((area.beat - 1) * double(beat.count())))
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
