#include "support/real_takes.hpp"

#include "support/comper.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>
#include <fstream>

namespace compline::tests {

using time::Seconds;

std::vector<listen::Note> annotated_notes(const std::string& path) {
    std::ifstream file(path);
    const auto json = nlohmann::json::parse(file);
    const auto board = guitar::Fretboard::standard();
    std::vector<listen::Note> notes;
    for (const auto& item : json["notes"]) {
        listen::Note note;
        note.on = Seconds(item["onset_s"].get<double>());
        note.off = note.on + Seconds(item["duration_s"].get<double>());
        note.note = harmony::MidiNote(static_cast<int>(std::lround(item["pitch"].get<double>())));
        note.string = item["string"].get<int>();
        note.fret = board.fret(*note.string, note.note);
        notes.push_back(note);
    }
    std::stable_sort(notes.begin(), notes.end(),
                     [](const auto& a, const auto& b) { return a.on < b.on; });
    return notes;
}

namespace {

assess::Assessment judge(const std::vector<listen::Note>& notes, const chart::Form& form,
                         double tempo) {
    assess::Performance heard;
    heard.notes = notes;
    return assess::assess(map_of(form, tempo), heard, {});
}

}  // namespace

assess::Assessment judge_single_strings(const std::vector<listen::Note>& notes) {
    return judge(notes, form_of("Eb | % | % | % | Ab | % | Eb | % | Bb | Ab | Eb | %", "Eb"), 129);
}

assess::Assessment judge_voicings(const std::vector<listen::Note>& notes) {
    const auto form = form_of(
        "Gmaj7 | D9 | Em7 | Bm7 | Cmaj7 | Gmaj7 | Cmaj7 | D9 | "
        "Gmaj7 | D9 | Em7 | Bm7 | Cmaj7 | Gmaj7 | Cmaj7 | D9",
        "G");
    return judge(notes, form, 119);
}

}  // namespace compline::tests
