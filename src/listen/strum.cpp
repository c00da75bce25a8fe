#include "together.hpp"

#include <compline/listen/strum.hpp>

#include <algorithm>

namespace compline::listen {

namespace {

constexpr time::Seconds rake{0.120};
// An arpeggio: a chord spread over time, string by string, at an even pace, all of it ringing on.
constexpr time::Seconds longest_step{0.250};
constexpr double evenness = 2;
constexpr std::size_t fewest_strings = 3;
constexpr time::Seconds chunk_spread{0.040};
constexpr time::Seconds chunk_length{0.060};
constexpr int open_fourth_string = 50;  // D3

/// From low to high; by pitch where strings are not known.
int rank(const Note& note) { return note.string ? -*note.string : note.note.number(); }

/// They go one way only.
bool in_string_order(const std::vector<Note>& notes, const Note& next) {
    int up = 0;
    int down = 0;
    for (std::size_t i = 0; i < notes.size(); ++i) {
        const Note& after = i + 1 < notes.size() ? notes[i + 1] : next;
        (rank(after) > rank(notes[i]) ? up : down)++;
    }
    return up == 0 || down == 0;
}

bool belongs(const Strum& strum, const Note& note) {
    const bool taken = std::any_of(strum.notes.begin(), strum.notes.end(), [&](const Note& n) {
        return n.string && note.string ? n.string == note.string : n.note == note.note;
    });
    if (taken) return false;
    const time::Seconds since_first = note.on - strum.first();
    if (since_first <= together) return true;
    return since_first <= rake && note.on - strum.last() <= together &&
           in_string_order(strum.notes, note);
}

/// Goes on with an arpeggio, if it is one.
bool continues(const std::vector<Note>& notes, const Strum& next) {
    if (next.notes.size() != 1) return false;
    const Note& note = next.notes.front();
    const time::Seconds step = note.on - notes.back().on;
    if (note.slid || step <= together || step > longest_step) return false;
    if (rank(note) == rank(notes.back()) || !in_string_order(notes, note)) return false;
    if (notes.size() == 1) return true;
    const time::Seconds before = notes[1].on - notes[0].on;
    return step <= before * evenness && before <= step * evenness;
}

bool rings_on(const std::vector<Note>& notes) {
    return std::all_of(notes.begin(), notes.end(),
                       [&](const Note& n) { return n.off > notes.back().on + together; });
}

/// The arpeggio that begins with this strum; nothing where none does.
std::vector<Note> arpeggio_from(const std::vector<Strum>& strums, std::size_t i) {
    if (strums[i].notes.size() != 1 || strums[i].notes.front().slid) return {};
    std::vector<Note> notes = strums[i].notes;
    while (++i < strums.size() && continues(notes, strums[i])) {
        notes.push_back(strums[i].notes.front());
    }
    if (notes.size() < fewest_strings || !rings_on(notes)) return {};
    return notes;
}

/// The strums with each arpeggio as one.
std::vector<Strum> join_arpeggios(std::vector<Strum> strums) {
    std::vector<Strum> joined;
    joined.reserve(strums.size());
    for (std::size_t i = 0; i < strums.size(); ++i) {
        auto notes = arpeggio_from(strums, i);
        if (notes.empty()) {
            joined.push_back(std::move(strums[i]));
        } else {
            i += notes.size() - 1;
            joined.push_back({std::move(notes)});
        }
    }
    return joined;
}

}  // namespace

bool Strum::is_chunk() const {
    return is_chord() && spread() <= chunk_spread &&
           std::all_of(notes.begin(), notes.end(),
                       [](const Note& n) { return n.length() < chunk_length; });
}

bool Strum::is_bass() const {
    if (notes.size() != 1) return false;
    const Note& note = notes.front();
    return note.string ? *note.string >= 5 : note.note.number() < open_fourth_string;
}

bool Strum::is_slide() const {
    return std::all_of(notes.begin(), notes.end(), [](const Note& n) { return n.slid; });
}

std::vector<Strum> group_strums(std::span<const Note> notes) {
    std::vector<Strum> strums;
    for (const Note& note : notes) {
        if (strums.empty() || !belongs(strums.back(), note)) strums.emplace_back();
        strums.back().notes.push_back(note);
    }
    return join_arpeggios(std::move(strums));
}

}  // namespace compline::listen
