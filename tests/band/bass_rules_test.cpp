#include "support/bass_rules.hpp"

#include "support/catch.hpp"
#include "support/forms.hpp"

#include <algorithm>
#include <utility>

// The teacher itself, given lines with one mistake each.

using namespace compline;
using band::BassNote;
using chart::Bass;
using chart::Feel;
using time::eighth_note;
using time::Meter;
using time::Ticks;

namespace {

/// "on beat 2.5 note 41", beats from the first, counted from 1.
struct Written {
    double beat;
    int note;
};

struct Scene {
    Meter meter{4};
    std::vector<std::string> bars;
    Bass bass = Bass::walking;
    Feel feel = Feel::swing;
    std::vector<Ticks> kicks_in_bar_one = {};
    std::optional<int> home = {};
};

tests::Gig gig_of(const Scene& scene) {
    const auto form = tests::make_form(scene.meter, time::Bpm(140), scene.bars);
    auto bars = tests::bass_bars(form, form.whole(), scene.bass, scene.feel);
    bars[0].kicks = scene.kicks_in_bar_one;
    return tests::gig_of(scene.meter, bars, 1, scene.home);
}

/// The notes as they should sound, if they are the right ones.
std::vector<BassNote> line_of(const Scene& scene, const std::vector<Written>& written) {
    const auto gig = gig_of(scene);
    std::vector<BassNote> line;
    for (const auto& [beat, number] : written) {
        BassNote note;
        note.at = Ticks(static_cast<std::int64_t>((beat - 1) * 960));
        note.note = harmony::MidiNote(number);
        line.push_back(note);
    }
    const auto& kicks = scene.kicks_in_bar_one;
    for (std::size_t i = 0; i < line.size(); ++i) {
        auto& note = line[i];
        const auto bar = note.at / scene.meter.bar();
        const Ticks bar_end = scene.meter.bar() * (bar + 1);
        const Ticks until = i + 1 < line.size() ? std::min(line[i + 1].at, bar_end) : bar_end;
        const bool kick = std::find(kicks.begin(), kicks.end(), note.at) != kicks.end();
        note.length = Ticks((until - note.at).count() * (kick ? 75 : 90) / 100);
        const auto& chords = gig.bars[static_cast<std::size_t>(bar)].chords;
        const bool strong = std::any_of(chords.begin(), chords.end(), [&](const auto& slot) {
            return slot.start == note.at % scene.meter.bar();
        });
        note.velocity = (strong ? 88 : 80) + (kick ? 20 : 0);
    }
    return line;
}

bool is_right(const Scene& scene, const std::vector<Written>& written) {
    const auto faults = tests::BassTeacher(gig_of(scene)).faults_of(line_of(scene, written));
    CAPTURE(faults);
    CHECK(faults.empty());
    return faults.empty();
}

/// The teacher says these words, and nothing else.
bool hears(const tests::Gig& gig, const std::vector<BassNote>& line, const std::string& words) {
    const auto faults = tests::BassTeacher(gig).faults_of(line);
    CAPTURE(words, faults);
    const bool all =
        !faults.empty() && std::all_of(faults.begin(), faults.end(), [&](const std::string& fault) {
            return fault.find(words) != std::string::npos;
        });
    CHECK(all);
    return all;
}

/// A line with one note changed.
bool hears_at(const Scene& scene, std::vector<Written> written, std::size_t index, int note,
              const std::string& words) {
    written[index].note = note;
    return hears(gig_of(scene), line_of(scene, written), words);
}

const Scene two_chords{Meter(4), {"F7", "Bb7", "F7"}};
const std::vector<Written> walked = {{1, 41}, {2, 43}, {3, 45}, {4, 47},  {5, 46},  {6, 44},
                                     {7, 41}, {8, 40}, {9, 41}, {10, 39}, {11, 36}, {12, 41}};

}  // namespace

TEST_CASE("the teacher has nothing against a good walking line") { is_right(two_chords, walked); }

TEST_CASE("the teacher hears a wrong start of a chord") {
    hears_at(two_chords, walked, 0, 45, "not the root");  // nobody knows the chord yet
    hears_at(two_chords, walked, 4, 48, "no chord tone where a chord starts");
    const Scene slash{Meter(4), {"F7", "Bb7/D", "F7"}};
    auto line = walked;
    line[4].note = 50;
    line[3].note = 48;
    line[5].note = 46;
    is_right(slash, line);
    hears_at(slash, line, 4, 46, "not the root");
}

TEST_CASE("the teacher hears a last beat that leads nowhere") {
    for (const int note : {49, 43, 50}) hears_at(two_chords, walked, 3, note, "no approach");
    hears_at(two_chords, walked, 3, 46, "no approach");  // already there
    // Neither D half-diminished nor G with a flat ninth has an A.
    const Scene strange{Meter(4), {"Dm7b5", "G7b9"}};
    std::vector<Written> line = {{1, 38}, {2, 41}, {3, 44}, {4, 42},
                                 {5, 43}, {6, 47}, {7, 50}, {8, 43}};
    is_right(strange, line);
    hears_at(strange, line, 3, 45, "never played");
}

TEST_CASE("the teacher hears foreign notes that pass to nowhere") {
    hears_at(two_chords, walked, 1, 42, "leads nowhere");
    const Scene long_chord{Meter(4), {"F7", "F7"}};
    const std::vector<Written> line = {{1, 41}, {2, 43}, {3, 45}, {4, 46},
                                       {5, 48}, {6, 46}, {7, 45}, {8, 41}};
    is_right(long_chord, line);
    hears_at(long_chord, line, 4, 47, "no chord tone on a strong beat");
    hears_at(long_chord, line, 6, 47, "no chord tone on a strong beat");
}

TEST_CASE("the teacher hears what is wrong on its chord wherever it stands") {
    const Scene dominant{Meter(4), {"F7", "F7", "Bb7"}};
    const std::vector<Written> line = {{1, 41}, {2, 36}, {3, 45}, {4, 44},  {5, 45},  {6, 46},
                                       {7, 48}, {8, 47}, {9, 46}, {10, 53}, {11, 50}, {12, 46}};
    is_right(dominant, line);  // the A flat rises to the A
    hears_at(dominant, line, 4, 41, "the minor third of a dominant");
    hears_at(dominant, line, 3, 40, "contradicts");
    const Scene held{Meter(4), {"Fsus4", "Bb7"}};
    const std::vector<Written> suspended = {{1, 41}, {2, 48}, {3, 46}, {4, 48},
                                            {5, 46}, {6, 44}, {7, 41}, {8, 46}};
    is_right(held, suspended);
    hears_at(held, suspended, 3, 45, "never played");
}

TEST_CASE("the teacher hears a half note that is foreign to its chord") {
    const Scene two{Meter(4), {"F7", "Bb7"}, Bass::two_feel};
    const std::vector<Written> line = {{1, 41}, {3, 45}, {5, 46}, {7, 34}};
    is_right(two, line);
    for (const int note : {43, 47, 46}) hears_at(two, line, 1, note, "not the fifth");
    hears_at(two, line, 1, 44, "minor third");
}

TEST_CASE("the teacher hears short notes that are strange, lead nowhere or come before the end") {
    const Scene seasoned{Meter(4), {"F7", "Bb7", "F7"}};
    auto gig = gig_of(seasoned);
    const auto line = line_of(seasoned, walked);
    /// With a short note of this pitch between a beat, counted from 0, and the next one.
    const auto with = [&](std::size_t beat, int note, bool dead) {
        auto changed = line;
        auto& cut = changed[beat];
        cut.length = Ticks(432);
        const BassNote extra{cut.at + eighth_note, Ticks(dead ? 120 : 432), harmony::MidiNote(note),
                             dead ? 50 : 72, dead};
        changed.insert(changed.begin() + static_cast<std::ptrdiff_t>(beat) + 1, extra);
        return changed;
    };
    hears(gig, with(0, 41, false), "seasons a plain bar");
    for (auto& bar : gig.bars) bar.seasoning = band::Seasoning::skips_and_dead_notes;
    const auto fine = [&](const std::vector<BassNote>& notes) {
        return tests::BassTeacher(gig).faults_of(notes).empty();
    };
    CHECK(fine(line));
    CHECK(fine(with(0, 41, false)));
    CHECK(fine(with(0, 48, false)));
    CHECK(fine(with(0, 41, true)));
    hears(gig, with(0, 44, false), "a strange short note");
    hears(gig, with(0, 48, true), "a strange short note");
    hears(gig, with(10, 36, false), "leads nowhere");
    CHECK(fine(with(5, 44, true)));
    hears(gig, with(9, 36, false), "ahead of itself");
    for (auto& bar : gig.bars) bar.seasoning = band::Seasoning::dead_notes;
    CHECK(fine(with(0, 41, true)));
    hears(gig, with(0, 41, false), "no time for it");
}

TEST_CASE("the teacher hears leaps, stutters and notes that a bass does not have") {
    const Scene one_chord{Meter(4), {"F7", "F7"}};
    const auto hears_in = [&](const std::vector<int>& notes, const std::string& words) {
        std::vector<Written> written;
        for (const int note : notes) {
            written.push_back({1.0 + static_cast<double>(written.size()), note});
        }
        return hears(gig_of(one_chord), line_of(one_chord, written), words);
    };
    hears_in({41, 55, 53, 51, 48, 46, 45, 41}, "a leap over an octave");
    hears_in({41, 41, 41, 45, 48, 46, 45, 41}, "a third time running");
    hears_in({29, 27, 29, 31, 33, 36, 39, 41}, "note 27 is out of range");
    hears_in({53, 57, 53, 51, 48, 46, 45, 41}, "note 57 is out of range");
    hears_in({41, 43, 45, 46, 48, 46, 45, 43}, "the last note is not home");
}

TEST_CASE("the teacher hears a line that stands still") {
    const Scene one_chord{Meter(4), {"F7", "F7", "F7"}};
    const auto line = [&](const std::vector<int>& notes) {
        std::vector<Written> written;
        for (const int note : notes) {
            written.push_back({1.0 + static_cast<double>(written.size()), note});
        }
        return line_of(one_chord, written);
    };
    const auto gig = gig_of(one_chord);
    hears(gig, line({41, 45, 41, 48, 41, 48, 45, 41, 48, 51, 48, 41}), "of 3 pitches");
    hears(gig, line({41, 43, 45, 43, 41, 42, 41, 43, 45, 48, 45, 41}), "within 4 semitones");
    hears(gig, line({41, 45, 48, 51, 41, 45, 48, 51, 53, 51, 48, 41}), "the same bar again");

    // Given notes excuse it: the roots of two chords a bar, and a chord a beat.
    const Scene chords{Meter(4), {"F6 C7 F6 C7", "F6 C7 F6 C7"}, Bass::walking, Feel::swing, {}, 5};
    is_right(chords, {{1, 41}, {2, 36}, {3, 41}, {4, 36}, {5, 41}, {6, 36}, {7, 41}, {8, 41}});
}

TEST_CASE("the teacher hears notes that are missing, too many, too long or in a rest") {
    const auto gig = gig_of(two_chords);
    const auto good = line_of(two_chords, walked);
    const auto with = [&](auto change) {
        auto line = good;
        change(line);
        return line;
    };
    hears(gig, with([](auto& line) {
              line[4].at += time::quarter_note;
              line.erase(line.begin() + 5);
          }),
          "bar 2 beat 1");
    hears(gig, with([](auto& line) {
              line[4].length = Ticks(1296);
              line[5].at += eighth_note;
              line[5].length = Ticks(432);
          }),
          "bar 2 beat 2");
    hears(gig, with([](auto& line) { line[2].length = Ticks(1000); }), "has not ended");
    hears(gig, with([](auto& line) { std::swap(line[2], line[3]); }), "has not ended");
    hears(gig, with([](auto& line) { line[2].length = eighth_note; }), "hundredths");
    hears(gig, with([](auto& line) { line[2].length = Ticks(0); }), "without length");
    hears(gig, with([](auto& line) { line[2].velocity = 0; }), "too soft");
    hears(gig, with([](auto& line) { line[2].velocity = 100; }), "velocity 100");
    hears(gig, with([](auto& line) { line[0].velocity = 80; }), "velocity 80");
    hears(gig, with([](auto& line) { line.back().at += Ticks(960); }), "outside the passage");
    const Scene rest{Meter(4), {"F7", "N.C.", "F7"}};
    hears(gig_of(rest),
          line_of(
              rest,
              {{1, 41}, {2, 43}, {3, 45}, {4, 48}, {6, 41}, {9, 41}, {10, 45}, {11, 48}, {12, 41}}),
          "where none belongs");
}

TEST_CASE("the teacher hears kicks that are not marked") {
    const Scene kicked{
        Meter(4), {"F7", "Bb7"}, Bass::walking, Feel::swing, {Ticks(960), Ticks(3360)}};
    const std::vector<Written> good = {{1, 41}, {2, 41}, {3, 48}, {4, 45}, {4.5, 46},
                                       {5, 46}, {6, 50}, {7, 53}, {8, 46}};
    is_right(kicked, good);
    hears_at(kicked, good, 1, 45, "a kick off the root");
    hears_at(kicked, good, 4, 44, "a kick off the root");
    auto line = line_of(kicked, good);
    line[1].velocity = 80;
    hears(gig_of(kicked), line, "a kick that nobody hears");
    line = line_of(kicked, good);
    line[3].length = Ticks(864);
    line.erase(line.begin() + 4);
    hears(gig_of(kicked), line, "bar 1 beat 4.5 (F7): nothing is played");
}

TEST_CASE("the teacher hears a two-feel without its root, its own fifth or a lead") {
    const Scene two{Meter(4), {"Fm7b5", "Fm7b5", "Bb7"}, Bass::two_feel};
    const std::vector<Written> good = {{1, 41}, {3, 47}, {5, 41}, {7, 45},
                                       {8, 44}, {9, 46}, {11, 46}};
    hears(gig_of(two), line_of(two, good), "contradicts");  // an A leads no more: the G sharp does
    auto line = good;
    line[3].note = 47;
    is_right(two, line);
    hears_at(two, line, 1, 48, "never played");
    hears_at(two, line, 1, 44, "not the fifth");
    hears_at(two, line, 2, 44, "not the root");
    hears_at(two, line, 4, 43, "no approach");
    const Scene waltz{Meter(3), {"F7", "F7", "Bb7"}, Bass::two_feel};
    const std::vector<Written> in_one = {{1, 41}, {4, 48}, {7, 46}};
    is_right(waltz, in_one);
    hears_at(waltz, in_one, 1, 45, "neither root nor fifth");
    hears(gig_of(waltz), line_of(waltz, {{1, 41}, {3, 48}, {4, 48}, {7, 46}}),
          "where none belongs");
}

TEST_CASE("the teacher hears roots that are none and a bossa that is another dance") {
    const Scene roots{Meter(4), {"F7", "Bb7"}, Bass::roots};
    const std::vector<Written> held = {{1, 41}, {5, 46}};
    is_right(roots, held);
    hears_at(roots, held, 0, 48, "not the root");
    const Scene again{Meter(5), {"F7", "F7"}, Bass::roots};
    const std::vector<Written> three_and_two = {{1, 41}, {4, 41}, {6, 41}, {9, 41}};
    is_right(again, three_and_two);
    hears_at(again, three_and_two, 1, 48, "not the root");

    const Scene bossa{Meter(4), {"F7", "F7"}, Bass::two_feel, Feel::bossa};
    const std::vector<Written> good = {{1, 41}, {2.5, 36}, {3, 36}, {4.5, 41},
                                       {5, 41}, {6.5, 48}, {7, 48}, {8.5, 41}};
    is_right(bossa, good);
    hears_at(bossa, good, 1, 41, "neither the fifth");
    hears_at(bossa, good, 3, 45, "neither the fifth");
    hears_at(bossa, good, 4, 36, "not the root");
    hears(gig_of(bossa),
          line_of(bossa, {{1, 41}, {3, 36}, {4.5, 41}, {5, 41}, {6.5, 48}, {7, 48}, {8.5, 41}}),
          "nothing is played");
}

TEST_CASE("the teacher counts roots and the settled register") {
    tests::BassTeacher::Count count;
    tests::BassTeacher(gig_of(two_chords)).count(line_of(two_chords, walked), count);
    CHECK(count.notes == 12);
    CHECK(count.settled == 12);
    CHECK(count.starts == 3);
    CHECK(count.roots == 3);
    auto line = walked;
    line[4].note = 50;
    line[1].note = 31;
    count = {};
    tests::BassTeacher(gig_of(two_chords)).count(line_of(two_chords, line), count);
    CHECK(count.settled == 11);
    CHECK(count.roots == 2);
}
