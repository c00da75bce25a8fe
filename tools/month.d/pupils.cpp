#include "pupils.hpp"

#include <algorithm>
#include <cmath>

namespace compline::month {

namespace {

constexpr double best = 0.97;
constexpr double worst = 0.35;
constexpr double ten_points_in_eight = 0.10 / 8;

Pupil gets_better() {
    Work minor;
    minor.chart = "the-ferryman-counts-to-nine.yaml";
    minor.in_time = 0.64;
    minor.an_evening = ten_points_in_eight;
    minor.tempo = 88;
    minor.faster = 1.2;
    minor.fastest = 112;
    minor.loops = {{5, 8}, {13, 16}};
    minor.how_often = 2;
    minor.times = 3;
    Work major;
    major.chart = "three-lamps-on-weir-lane.yaml";
    major.in_time = 0.60;
    major.an_evening = ten_points_in_eight;
    major.tempo = 112;
    major.faster = 1.6;
    major.fastest = 160;
    major.loops = {{17, 24}, {5, 8}};
    Pupil pupil;
    pupil.name = "Wenna";
    pupil.words = "gets better by ten points in eight evenings, and faster";
    pupil.works = {minor, major};
    pupil.noise = 0.025;
    pupil.wrong = 0.04;
    pupil.place = time::Seconds(0.008);
    pupil.drill = "Dm7b5 | G7b9 | Cm6 | %";
    pupil.drill_key = "C minor";
    return pupil;
}

Pupil does_not_change() {
    Work blues;
    blues.chart = "blue-kettle-on-the-back-stairs.yaml";
    blues.in_time = 0.76;
    blues.tempo = 132;
    blues.comping = Comping::four_to_the_bar;
    blues.loops = {{9, 12}, {1, 4}};
    blues.how_often = 2;
    blues.times = 4;
    Work ballad;
    ballad.chart = "a-coat-for-the-lighthouse-cat.yaml";
    ballad.in_time = 0.84;
    ballad.tempo = 66;
    ballad.comping = Comping::halves;
    ballad.loops = {{17, 24}};
    Pupil pupil;
    pupil.name = "Jory";
    pupil.words = "does not change, with good evenings and bad ones";
    pupil.works = {blues, ballad};
    pupil.noise = 0.05;
    pupil.wrong = 0.03;
    pupil.place = time::Seconds(0.014);
    pupil.scatter = time::Seconds(0.015);
    pupil.drill = "Gm7 | C7 | F6 | D7";
    pupil.drill_key = "F";
    return pupil;
}

Pupil is_uneven() {
    Work blues;
    blues.chart = "blue-kettle-on-the-back-stairs.yaml";
    blues.in_time = 0.86;
    blues.tempo = 116;
    blues.loops = {{7, 10}, {1, 4}};
    blues.how_often = 1.5;
    blues.times = 4;
    Work bossa;
    bossa.chart = "salt-on-the-harbour-steps.yaml";
    bossa.in_time = 0.88;
    bossa.an_evening = -0.008;
    bossa.tempo = 126;
    bossa.comping = Comping::halves;
    bossa.loops = {{17, 20}};
    bossa.how_often = 1.6;
    Work waltz;
    waltz.chart = "waltz-for-a-leaning-chimney.yaml";
    waltz.in_time = 0.95;
    waltz.tempo = 150;
    waltz.comping = Comping::long_chords;
    waltz.loops = {{9, 16}};
    waltz.how_often = 0.8;
    Work left;
    left.chart = "three-lamps-on-weir-lane.yaml";
    left.in_time = 0.82;
    left.tempo = 138;
    left.loops = {{25, 32}};
    left.how_often = 2.5;
    left.left_for_weeks = true;
    Pupil pupil;
    pupil.name = "Pell";
    pupil.words =
        "uneven: a waltz that is good, bar 8 of the blues and Cm7 to F7 that stay bad, a bossa "
        "that gets worse, a tune that is left for three weeks";
    pupil.works = {blues, bossa, waltz, left};
    pupil.noise = 0.03;
    pupil.wrong = 0.025;
    pupil.place = time::Seconds(0.004);
    pupil.scatter = time::Seconds(0.012);
    pupil.stays_bad = {{8, "", "", 0.25}, {0, "Cm7", "F7", 0.30}};
    pupil.drill = "Em7b5 | A7b9 | Dm9 | %";
    pupil.drill_key = "D minor";
    pupil.once_hardly_plays = true;
    return pupil;
}

}  // namespace

const std::vector<Pupil>& pupils() {
    static const std::vector<Pupil> all = {gets_better(), does_not_change(), is_uneven()};
    return all;
}

double true_share(const Work& work, int evening) {
    return std::clamp(work.in_time + work.an_evening * evening, worst, best);
}

double true_tempo(const Work& work, int evening) {
    return std::round(std::min(work.tempo + work.faster * evening, work.fastest));
}

}  // namespace compline::month
