#include "ear.hpp"

#include <initializer_list>

namespace compline::simulate {

namespace {

using harmony::Alteration;
using Q = harmony::Quality;

Intervals set_of(std::initializer_list<int> semitones) {
    Intervals set;
    for (const int n : semitones) set.set(static_cast<std::size_t>(n));
    return set;
}

bool is_major_seventh(Q q) {
    return q == Q::major_seventh || q == Q::major_ninth || q == Q::major_eleventh ||
           q == Q::major_thirteenth;
}
bool is_minor_seventh(Q q) {
    return q == Q::minor_seventh || q == Q::minor_ninth || q == Q::minor_eleventh ||
           q == Q::minor_thirteenth;
}
bool is_minor_with_major_seventh(Q q) {
    return q == Q::minor_major_seventh || q == Q::minor_major_ninth ||
           q == Q::minor_major_eleventh || q == Q::minor_major_thirteenth;
}
bool is_half_diminished(Q q) {
    return q == Q::half_diminished || q == Q::half_diminished_ninth ||
           q == Q::half_diminished_eleventh;
}
bool is_dominant(Q q) {
    return q == Q::dominant_seventh || q == Q::dominant_ninth || q == Q::dominant_thirteenth ||
           q == Q::altered;
}

/// A fifth down, a semitone down, or staying, by way of its own ii too (F7 to Cm7): where a
/// dominant may take any colour.
bool resolves(const InContext& where) {
    if (!where.next) return true;
    const int down = (where.chord.root.pitch_class() - where.next->root.pitch_class() + 12) % 12;
    return down == 7 || down == 1 || down == 0 || down == 5;
}

Intervals wrong_on_dominant(const InContext& where) {
    auto wrong = set_of({11});
    const auto& altered = where.chord.alterations;
    if (where.chord.quality == Q::altered) return wrong | set_of({2, 7, 9});
    if (altered.has(Alteration::flat_nine) || altered.has(Alteration::sharp_nine)) wrong.set(2);
    if (altered.has(Alteration::sharp_five)) wrong |= set_of({7, 9});
    if (altered.has(Alteration::flat_thirteen)) wrong.set(9);
    if (altered.has(Alteration::flat_five)) wrong.set(7);
    if (altered.has(Alteration::sharp_eleven)) wrong.set(5);
    const bool plain = altered.none();
    if (plain && where.chord.quality == Q::dominant_ninth) wrong.set(1);
    if (plain && where.chord.quality == Q::dominant_thirteenth) wrong.set(8);
    if (plain && !resolves(where)) wrong |= set_of({1, 8});
    return wrong;
}

}  // namespace

Intervals plainly_wrong(const InContext& where) {
    const Q q = where.chord.quality;
    if (is_dominant(q)) return wrong_on_dominant(where);
    if (!where.chord.alterations.none()) {
        // Of altered majors and minors only what changes their third or their seventh.
        if (is_major_seventh(q)) return set_of({3, 10});
        if (is_minor_seventh(q)) return set_of({4, 11});
        return {};
    }
    if (is_major_seventh(q)) return set_of({1, 3, 8, 10});
    if (is_minor_seventh(q)) return set_of({1, 4, 6, 11});
    if (is_minor_with_major_seventh(q)) return set_of({1, 4, 6, 10});
    if (is_half_diminished(q)) return set_of({1, 4, 7, 11});
    switch (q) {
        case Q::sixth:
        case Q::six_nine:
            return set_of({1, 3, 8, 10});
        case Q::major:
            return set_of({1, 3, 8});
        case Q::minor:
        case Q::minor_sixth:
        case Q::minor_six_nine:
            return set_of({1, 4, 6});
        case Q::augmented:
            return set_of({1, 3, 7});
        case Q::diminished:
        case Q::diminished_seventh:
            return set_of({1, 4, 7, 10});
        case Q::suspended_fourth:
            return set_of({1, 3, 6});
        case Q::suspended_seventh:
        case Q::suspended_ninth:
        case Q::suspended_thirteenth:
            return set_of({1, 6, 11});
        default:
            return {};
    }
}

Frame frame_of(const harmony::Chord& chord) {
    const Q q = chord.quality;
    const auto& altered = chord.alterations;
    Frame frame{4, 7, std::nullopt, false};
    if (altered.has(Alteration::flat_five)) frame.fifth = 6;
    if (altered.has(Alteration::sharp_five) || q == Q::augmented) frame.fifth = 8;
    if (is_dominant(q)) return {4, frame.fifth, 10, true};
    if (is_major_seventh(q)) return {4, frame.fifth, 11, true};
    if (is_minor_seventh(q)) return {3, frame.fifth, 10, true};
    if (is_minor_with_major_seventh(q)) return {3, 7, 11, true};
    if (is_half_diminished(q)) return {3, 6, 10, true};
    if (q == Q::minor_sixth || q == Q::minor_six_nine) return {3, 7, 9, true};
    if (q == Q::minor) return {3, 7, std::nullopt, false};
    if (q == Q::sixth || q == Q::six_nine) return {4, 7, 9, false};
    if (q == Q::diminished || q == Q::diminished_seventh) return {3, 6, 9, false};
    if (q == Q::major || q == Q::augmented) return frame;
    if (q == Q::suspended_fourth) return {5, 7, std::nullopt, false};
    if (q == Q::suspended_second) return {2, 7, std::nullopt, false};
    if (q == Q::suspended_seventh || q == Q::suspended_ninth || q == Q::suspended_thirteenth)
        return {5, 7, 10, true};
    return {std::nullopt, 7, std::nullopt, false};
}

const guitar::Fretboard& board() {
    static const auto standard = guitar::Fretboard::standard();
    return standard;
}

int above(const harmony::Chord& chord, harmony::MidiNote note) {
    return (note.pitch_class() - chord.root.pitch_class() + 12) % 12;
}

Intervals intervals_of(const harmony::Chord& chord, const guitar::Shape& shape) {
    Intervals set;
    for (const auto& place : shape.places()) {
        set.set(static_cast<std::size_t>(above(chord, board().note(place))));
    }
    return set;
}

bool would_do(const guitar::Shape& shape, const harmony::Chord& chord) {
    const auto set = intervals_of(chord, shape);
    if ((set & ~sounds_of(chord)).none()) return true;
    const auto frame = frame_of(chord);
    const auto has = [&](std::optional<int> tone) {
        return tone && set.test(static_cast<std::size_t>(*tone));
    };
    const bool guided = has(frame.third) && (!frame.needs_seventh || has(frame.seventh));
    return guided && !clashes(shape, {chord, std::nullopt});
}

bool clashes(const guitar::Shape& shape, const InContext& where) {
    return (intervals_of(where.chord, shape) & plainly_wrong(where)).any();
}

}  // namespace compline::simulate
