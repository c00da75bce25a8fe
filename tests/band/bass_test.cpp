#include "support/bass_rules.hpp"
#include "support/catch.hpp"
#include "support/forms.hpp"

#include <compline/band/bass.hpp>

#include <algorithm>

using namespace compline;
using tests::faults_of;
using tests::make_form;
using time::Bpm;
using time::Meter;

namespace {

using Bars = std::vector<std::string>;

struct Tune {
    std::string name;
    Meter meter;
    Bars bars;
};

const std::vector<Tune>& tunes() {
    static const std::vector<Tune> all = {
        {"a blues",
         Meter(4),
         {"F7", "Bb7", "F7", "Cm7 F7", "Bb7", "Bdim7", "F7", "Am7b5 D7b9", "Gm7", "C7", "F7 D7",
          "Gm7 C7"}},
        {"a chord for four bars",
         Meter(4),
         {"Dm7", "Dm7", "Dm7", "Dm7", "Em7", "Em7", "Dm7", "Dm7"}},
        {"two chords a bar",
         Meter(4),
         {"C6 Am7", "Dm7 G7", "Em7 A7", "Dm7 G7", "C6 C7/E", "F6 Fm6"}},
        {"a chord a beat", Meter(4), {"C6 Am7 Dm7 G7", "Em7 A7 Dm7 G7#5"}},
        {"a waltz",
         Meter(3),
         {"Fmaj7", "Fmaj7", "Gm7", "C7sus4", "Am7", "D7", "Gm7", "C7/E", "Bbm6", "Am7 D7 Gm7",
          "F69", "Faug"}},
        {"bars without chords", Meter(4), {"N.C.", "G7", "N.C. G7", "Cm7 N.C.", "Cm7", "N.C."}},
        {"nothing but rests", Meter(4), {"N.C.", "N.C."}},
        {"slash chords", Meter(4), {"C/E", "F/A", "G7/B", "C/E", "Am7/G", "D9/F#", "F/G", "C/Bb"}},
        {"changes over one root", Meter(4), {"Cmaj7", "C7", "Cm7 C7", "Csus4 C", "Cdim7"}},
        {"one bar", Meter(4), {"Ab13"}},
    };
    return all;
}

Bars line_of(const std::vector<band::BassNote>& line) {
    Bars names;
    for (const auto& note : line) names.push_back(std::to_string(note.note.number()));
    return names;
}

}  // namespace

TEST_CASE("the bass walks by the rules through every tune in every key") {
    for (const auto& tune : tunes()) {
        const auto form = make_form(tune.meter, Bpm(140), tune.bars);
        for (int key = 0; key < 12; ++key) {
            const auto moved = tests::transposed(form, key);
            for (const int times : {1, 3}) {
                const auto line = band::bass_line(moved, moved.whole(), times);
                const auto faults = faults_of(line, moved, moved.whole(), times);
                CAPTURE(tune.name, key, times, faults);
                CHECK(faults.empty());
            }
        }
    }
}

TEST_CASE("a passage is walked by itself, its seam leading back to its own first root") {
    const auto form = make_form(Meter(4), Bpm(140), tunes()[0].bars);
    for (const chart::Passage passage : {chart::Passage{4, 4}, {9, 12}, {2, 7}}) {
        const auto line = band::bass_line(form, passage, 4);
        CHECK(line.size() == static_cast<std::size_t>(passage.bars()) * 16);
        CHECK(faults_of(line, form, passage, 4).empty());
    }
}

TEST_CASE("the bass settles between A1 and D3") {
    for (const auto& tune : tunes()) {
        for (int key = 0; key < 12; ++key) {
            const auto form = tests::transposed(make_form(tune.meter, Bpm(140), tune.bars), key);
            const auto line = band::bass_line(form, form.whole(), 2);
            const auto settled = std::count_if(line.begin(), line.end(), [](const auto& note) {
                return note.note.number() >= 33 && note.note.number() <= 50;
            });
            CAPTURE(tune.name, key, line_of(line));
            CHECK(static_cast<double>(settled) >= 0.9 * static_cast<double>(line.size()));
        }
    }
}

TEST_CASE("the same form gives the same line") {
    const auto form = make_form(Meter(4), Bpm(140), tunes()[0].bars);
    CHECK(band::bass_line(form, form.whole(), 3) == band::bass_line(form, form.whole(), 3));
}

TEST_CASE("the last time through ends on the root, the others lead back") {
    const auto form = make_form(Meter(4), Bpm(140), {"F7", "C7"});
    const auto line = band::bass_line(form, form.whole(), 2);
    REQUIRE(line.size() == 16);
    CHECK(std::abs(line[7].note.number() - line[8].note.number()) <= 2);
    CHECK(line[15].note.pitch_class() == 0);
}

TEST_CASE("bass notes sound for nine tenths of their beat") {
    const auto form = make_form(Meter(3), Bpm(140), {"F7"});
    for (const auto& note : band::bass_line(form, form.whole(), 1)) {
        CHECK(note.length == time::Ticks(864));
    }
}

TEST_CASE("the teacher hears each kind of fault") {
    const auto form = make_form(Meter(4), Bpm(140), {"F7", "Bb7", "N.C.", "F7"});
    const auto good = band::bass_line(form, form.whole(), 1);
    REQUIRE(faults_of(good, form, form.whole(), 1).empty());
    REQUIRE(good.size() == 12);
    const auto hears = [&](std::size_t index, int note, const std::string& words) {
        auto line = good;
        line[index].note = harmony::MidiNote(note);
        const auto faults = faults_of(line, form, form.whole(), 1);
        CAPTURE(words, faults);
        return std::any_of(faults.begin(), faults.end(), [&](const std::string& fault) {
            return fault.find(words) != std::string::npos;
        });
    };
    CHECK(hears(0, 42, "not the root"));
    CHECK(hears(2, 42, "neither third nor fifth"));
    CHECK(hears(3, good[4].note.number() + 3, "no approach"));
    CHECK(hears(1, 57, "out of range"));
    CHECK(hears(1, good[0].note.number() + 13, "leap over an octave"));
    CHECK(hears(1, good[0].note.number(), "stands still"));

    auto missing = good;
    missing.pop_back();
    CHECK(faults_of(missing, form, form.whole(), 1).size() == 1);
    auto overlong = good;
    overlong[0].length = time::Ticks(1000);
    CHECK_FALSE(faults_of(overlong, form, form.whole(), 1).empty());
    auto backwards = good;
    std::swap(backwards[0], backwards[1]);
    CHECK_FALSE(faults_of(backwards, form, form.whole(), 1).empty());
    auto in_the_rest = good;
    in_the_rest[8].at -= time::quarter_note;
    CHECK_FALSE(faults_of(in_the_rest, form, form.whole(), 1).empty());
}
