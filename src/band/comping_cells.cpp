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

}  // namespace

const std::vector<CompCell>& comp_cells(Feel feel, int beats) {
    if (feel == Feel::ballad) {
        return beats == 3 ? ballad_in_three : beats == 4 ? ballad_in_four : ballad_in_groups;
    }
    const bool bossa = feel == Feel::bossa;
    switch (beats) {
        case 3:
            return bossa ? bossa_in_three : in_three;
        case 5:
            return in_five;
        case 6:
            return in_six;
        default:
            return bossa ? bossa_in_four : in_four;
    }
}

const std::vector<CompCell>& half_bar_cells(Feel feel, int beats) {
    if (beats == 3) return none;
    if (feel == Feel::ballad) return beats == 4 ? starts_in_four : starts_in_groups;
    if (beats == 5) return halves_in_five;
    if (beats == 6) return halves_in_six;
    return feel == Feel::bossa ? bossa_halves_in_four : halves_in_four;
}

int middle_of(int beats) { return beats == 3 ? 0 : beats == 4 ? 2 : 3; }

}  // namespace compline::band
