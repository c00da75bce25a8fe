#include "comping_cells.hpp"

namespace compline::band {

namespace {

using chart::Feel;
using Cells = std::vector<CompCell>;

// In 4/4 the eighths are 1 = 0, 1& = 1, 2 = 2, 2& = 3, 3 = 4, 3& = 5, 4 = 6, 4& = 7.

const Cells in_three = {
    {{0, 3}, {0, 3}}, {{0}, {3}},    {{2, 4}, {2, 4}}, {{0, 4}, {2}},
    {{2}, {0, 3}},    {{3}, {2, 5}}, {{1, 4}, {1}},    {{0, 3}, {2, 5}},
};

const Cells in_four = {
    {{0, 3}, {0, 3}},  // the Charleston, and as it is displaced
    {{1, 4}, {1, 4}}, {{2, 5}, {2, 5}}, {{3, 6}, {0, 3}}, {{2, 6}, {2, 6}},  // with the hi-hat
    {{0}, {0, 5}},    {{0, 3}, {2, 7}}, {{3, 7}, {3, 7}},                    // all off the beat
    {{0, 5}, {3, 6}}, {{2, 5}, {0, 3}},
};

// Three and two.
const Cells in_five = {
    {{0, 3, 6}, {0, 3, 6}}, {{0, 6}, {0, 3, 6}}, {{2, 6}, {2, 6}},
    {{0, 6}, {3, 8}},       {{3, 6}, {0, 6}},    {{0, 5}, {6, 9}},
};

// Twice three.
const Cells in_six = {
    {{0, 3, 6}, {0, 6, 9}}, {{0, 6}, {3, 9}}, {{2, 8}, {2, 8}},
    {{0, 3}, {6, 9}},       {{3, 6}, {3, 9}}, {{0, 9}, {6, 11}},
};

const Cells bossa_in_three = {{{0, 3}, {0, 2}}, {{0, 3}, {2, 4}}, {{2}, {0, 3}}, {{0, 3}, {3, 5}}};

// The first is the cross-stick's own.
const Cells bossa_in_four = {
    {{0, 3, 6}, {2, 5}}, {{2, 5}, {0, 3, 6}}, {{0, 3, 6}, {2, 5, 7}},
    {{0, 3}, {2, 5}},    {{0, 3, 7}, {3, 6}},
};

Cells long_chords(int strong) {
    return {{{0}, {0}}, {{0, strong}, {0}}, {{0}, {0, strong}}, {{0, strong}, {0, strong}}};
}

const Cells ballad_in_three = {{{0}, {0}}};
const Cells ballad_in_four = long_chords(4);
const Cells ballad_in_groups = long_chords(6);

const Cells halves_in_four = {
    {{0, 4}, {0, 4}}, {{0, 5}, {0, 4}}, {{1, 4}, {1, 4}}, {{2, 4}, {2, 4}},
    {{2, 6}, {2, 6}}, {{0, 6}, {0, 4}}, {{1, 5}, {0, 5}},
};
const Cells halves_in_five = {
    {{0, 6}, {0, 6}}, {{0, 3, 6}, {0, 6}}, {{2, 6}, {2, 6}}, {{0, 8}, {0, 6}}, {{3, 6}, {3, 6}}};
const Cells halves_in_six = {
    {{0, 6}, {0, 6}}, {{0, 3, 6}, {0, 6}}, {{2, 8}, {2, 8}}, {{0, 9}, {0, 6}}, {{3, 9}, {3, 6}}};

const Cells bossa_halves_in_four = {
    {{0, 4}, {0, 5}}, {{0, 5}, {0, 4}}, {{2, 5}, {0, 4}}, {{0, 6}, {0, 5}}};

const Cells none;
const Cells starts_in_four = {{{0, 4}, {0, 4}}};
const Cells starts_in_groups = {{{0, 6}, {0, 6}}};

const Cells in_two = {{{0, 3}, {0}}, {{0}, {3}}, {{2}, {2}}, {{0, 3}, {0, 3}}, {{1}, {0, 3}}};
const Cells halves_in_two = {{{0, 2}, {0, 2}}, {{1, 2}, {0, 2}}, {{0, 3}, {0, 2}}};
const Cells starts_in_two = {{{0, 2}, {0, 2}}};

// Long on a beat, short before one.
const Cells in_six_eight = {{{0}, {0, 2}}, {{0, 3}, {0, 2}}, {{0, 2}, {3}}, {{0, 2}, {0, 5}}};
const Cells halves_in_six_eight = {{{0, 3}, {0, 3}}, {{0, 2, 3}, {0, 3}}, {{0, 3}, {0, 3, 5}}};
const Cells starts_in_six_eight = {{{0, 3}, {0, 3}}};
const Cells in_nine_eight = {{{0}, {0, 5}}, {{0, 5}, {0, 6}}, {{0, 3, 6}, {0}}, {{0, 2}, {3, 8}}};
const Cells in_twelve_eight = {
    {{0, 5}, {0, 5}}, {{0, 6}, {0, 5, 6}}, {{3, 9}, {3, 9}}, {{0, 2, 6}, {0, 6}}, {{0}, {3, 11}}};
const Cells halves_in_twelve_eight = {
    {{0, 6}, {0, 6}}, {{0, 5, 6}, {0, 6}}, {{3, 9}, {3, 9}}, {{0, 6}, {0, 6, 11}}};

int eighths_in(const time::Meter& meter) {
    return static_cast<int>(meter.bar() / time::eighth_note);
}

const Cells& compound_cells(const time::Meter& meter) {
    const int beats = meter.beats();
    return beats == 2 ? in_six_eight : beats == 3 ? in_nine_eight : in_twelve_eight;
}

}  // namespace

const std::vector<CompCell>& comp_cells(Feel feel, const time::Meter& meter) {
    const int eighths = eighths_in(meter);
    if (feel == Feel::ballad) {
        const bool short_bar = eighths < 8 || eighths == 9;
        return short_bar ? ballad_in_three : eighths == 8 ? ballad_in_four : ballad_in_groups;
    }
    if (meter.is_compound()) return compound_cells(meter);
    const bool bossa = feel == Feel::bossa;
    switch (eighths) {
        case 4:
            return in_two;
        case 6:
            return bossa ? bossa_in_three : in_three;
        case 10:
            return in_five;
        case 12:
            return in_six;
        default:
            return bossa ? bossa_in_four : in_four;
    }
}

const std::vector<CompCell>& half_bar_cells(Feel feel, const time::Meter& meter) {
    if (middle_of(meter) == 0) return none;
    const int eighths = eighths_in(meter);
    const bool ballad = feel == Feel::ballad;
    if (eighths == 4) return ballad ? starts_in_two : halves_in_two;
    if (eighths == 6) return ballad ? starts_in_six_eight : halves_in_six_eight;
    if (ballad) return eighths == 8 ? starts_in_four : starts_in_groups;
    if (meter.is_compound()) return halves_in_twelve_eight;
    if (eighths == 10) return halves_in_five;
    if (eighths == 12) return halves_in_six;
    return feel == Feel::bossa ? bossa_halves_in_four : halves_in_four;
}

int middle_of(const time::Meter& meter) {
    const int eighths = eighths_in(meter);
    if (meter.is_compound()) return eighths == 9 ? 0 : eighths / 2;
    return eighths == 6 ? 0 : eighths == 4 ? 2 : eighths == 8 ? 4 : 6;
}

}  // namespace compline::band
