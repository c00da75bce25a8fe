// Notes that no guitarist can have played are judged too, and as soon as any others: were each
// looked at from each, these tests would take minutes and all memory.

#include "support/catch.hpp"
#include "support/comper.hpp"

#include <vector>

using namespace compline;
using listen::Note;
using tests::Comper;
using time::Seconds;

namespace {

constexpr int crowd = 100'000;
constexpr double bpm = 120;

Note note(Seconds on, Seconds off, int string, int fret) {
    Note note;
    note.on = on;
    note.off = off;
    note.string = string;
    note.fret = fret;
    note.note = guitar::Fretboard::standard().note({string, fret});
    return note;
}

assess::Assessment judged(const std::string& bars, const std::vector<Note>& notes) {
    assess::Performance heard;
    heard.notes = notes;
    return assess::assess(tests::map_of(tests::form_of(bars), bpm), heard, {});
}

}  // namespace

TEST_CASE("a crowd of notes on six strings at one moment is judged string by string") {
    std::vector<Note> notes;
    for (int string = 1; string <= 6; ++string) {
        for (int i = 0; i < crowd / 6; ++i) {
            notes.push_back(note(Seconds(0), Seconds(1), string, i % 2));
        }
    }
    const auto assessment = judged("C7 | F7", notes);
    REQUIRE(assessment.changes.size() == 2);
    CHECK(assessment.changes[0].wrong.size() <= 6);
}

TEST_CASE("a foreign chord struck a hundred thousand times in a bar counts each time") {
    // C7, and from the next bar on D flat 7.
    std::vector<Note> notes;
    const auto strike = [&](Seconds on, int up) {
        for (const int string : {4, 3, 2}) {
            notes.push_back(note(on, on + Seconds(0.5), string,
                                 (string == 4   ? 2
                                  : string == 3 ? 3
                                                : 1) +
                                     up));
        }
    };
    strike(Seconds(0), 0);
    for (int i = 0; i < crowd; ++i) strike(Seconds(2.0 + 0.5 * i / crowd), 1);
    const auto assessment = judged("C7 | %", notes);
    REQUIRE(assessment.changes.size() == 1);
    CHECK(assessment.changes[0].verdict == assess::Verdict::on_time);
    CHECK(assessment.changes[0].outside == crowd);
}

TEST_CASE("what a hundred keys held down on one channel add to a chord is the sixteen newest") {
    std::vector<Note> notes;
    for (int key = 0; key < 100; ++key) {
        Note held;
        held.on = Seconds(0.0001 * key);
        held.off = Seconds(10);
        held.note = harmony::MidiNote(key + 28);
        notes.push_back(held);
    }
    Note struck;
    struck.on = Seconds(2);
    struck.off = Seconds(3);
    struck.note = harmony::MidiNote(24);
    notes.push_back(struck);
    struck.note = harmony::MidiNote(16);  // the third
    notes.push_back(struck);
    const auto assessment = judged("N.C. | C7", notes);
    REQUIRE(assessment.changes.size() == 1);
    // Of sixteen semitones in a row, ten or so are foreign to C7, never all hundred's.
    CHECK(assessment.changes[0].wrong.size() < 16);
    CHECK_FALSE(assessment.changes[0].wrong.empty());
}

TEST_CASE("a string that joins a chord twice as it settles counts with its newest note") {
    // A slow strum; the last finger is put right at once.
    Comper comper("C7 | N.C.", bpm);
    comper.note(1, 1, 4, 2, 0, 1).note(1, 1, 5, 3, 50, 1).note(1, 1, 3, 3, 58, 1);
    comper.note(1, 1, 2, 0, 64, 0.03).note(1, 1, 2, 1, 80, 1);
    CHECK(comper.change(1).verdict == assess::Verdict::on_time);
    CHECK(comper.change(1).tones == assess::Tones::right);
}
