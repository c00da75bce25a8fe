#include "support/catch.hpp"
#include "support/comper.hpp"
#include "support/outside_data.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>
#include <fstream>

using namespace compline;
using time::Seconds;

namespace {

struct RealTake {
    std::vector<listen::Note> notes;
    std::vector<double> onsets_s;
};

/// Notes of a take through a six-way pickup, as annotated (GuitarSet, Xi et al., ISMIR 2018).
RealTake read_take(const std::string& path) {
    std::ifstream file(path);
    const auto json = nlohmann::json::parse(file);
    RealTake take;
    const auto board = guitar::Fretboard::standard();
    for (const auto& item : json["notes"]) {
        listen::Note note;
        note.on = Seconds(item["onset_s"].get<double>());
        note.off = note.on + Seconds(item["duration_s"].get<double>());
        note.note = harmony::MidiNote(static_cast<int>(std::lround(item["pitch"].get<double>())));
        note.string = item["string"].get<int>();
        note.fret = board.fret(*note.string, note.note);
        take.notes.push_back(note);
        take.onsets_s.push_back(note.on.count());
    }
    return take;
}

assess::Assessment judge(const RealTake& take, const chart::Form& form, double tempo) {
    const time::Groove groove{time::Timeline(time::Bpm(tempo)), time::Swing::straight()};
    assess::Performance performance;
    performance.route = chart::Route::of(form.whole(), 1);
    return assess::assess(form, performance, groove, take.notes, guitar::Fretboard::standard(), {});
}

}  // namespace

TEST_CASE(
    "a real take of four-string voicings: all 16 changes found, tones right, lateness exact") {
    const auto path = tests::outside_data("hexaphonic-takes/03_BN3-119-G_comp.json");
    if (!path) return;
    const auto take = read_take(*path);
    const auto form = tests::form_of(
        "Gmaj7 | D9 | Em7 | Bm7 | Cmaj7 | Gmaj7 | Cmaj7 | D9 | "
        "Gmaj7 | D9 | Em7 | Bm7 | Cmaj7 | Gmaj7 | Cmaj7 | D9",
        "G");
    const auto assessment = judge(take, form, 119);
    REQUIRE(assessment.totals.changes == 16);
    CHECK(assessment.totals.count(assess::Verdict::missed) == 0);
    CHECK(assessment.totals.right_tones >= 15);
    for (const auto& change : assessment.changes) {
        // The nearest strum's first note: of the notes within 60 ms of the beat, the first
        // (every landing lies between -14 and +36 ms, data/README.md).
        double first = 1e9;
        for (const double onset : take.onsets_s) {
            if (std::fabs(onset - change.at.count()) < 0.060) first = std::min(first, onset);
        }
        REQUIRE(change.lateness.has_value());
        INFO("bar " << change.bar);
        CHECK(change.lateness->count() == Approx(first - change.at.count()).margin(0.003));
        CHECK(change.lateness->milliseconds() > -14.5);
        CHECK(change.lateness->milliseconds() < 36.5);
        CHECK(change.beats_in == 0);
    }
}

TEST_CASE("a real take of single strings and double stops: every change lands") {
    const auto path = tests::outside_data("hexaphonic-takes/00_BN1-129-Eb_comp.json");
    if (!path) return;
    const auto take = read_take(*path);
    const auto form = tests::form_of("Eb | % | % | % | Ab | % | Eb | % | Bb | Ab | Eb | %", "Eb");
    const auto assessment = judge(take, form, 129);
    REQUIRE(assessment.totals.changes == 6);
    CHECK(assessment.totals.count(assess::Verdict::missed) == 0);
    // The player opens on E flat, F and D and brings the third only in the second half of the bar.
    CHECK(assessment.changes[0].tones == assess::Tones::incomplete);
    CHECK(assessment.totals.right_tones == 5);
    // Over ringing G a single B flat before bar 9 is still E flat's fifth; the bass has B flat and
    // E flat, and what makes it B flat is the D on beat 3.
    const auto& b_flat = assessment.changes[3];
    CHECK(b_flat.verdict == assess::Verdict::on_time);
    CHECK(b_flat.beats_in == 2);
    CHECK(b_flat.lateness->milliseconds() == Approx(12.5).margin(0.5));
}
