#include <compline/listen/strum.hpp>

#include <algorithm>

namespace compline::listen {

namespace {

constexpr time::Seconds together{0.060};
constexpr time::Seconds rake{0.120};
constexpr time::Seconds chunk_spread{0.040};
constexpr time::Seconds chunk_length{0.060};
constexpr int open_fourth_string = 50;  // D3

/// Strings (or pitches, where strings are not known) go one way only.
bool in_string_order(const std::vector<Note>& notes, const Note& next) {
    const auto rank = [](const Note& n) { return n.string ? -*n.string : n.note.number(); };
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
    if (taken || note.slid != strum.notes.front().slid) return false;
    const time::Seconds since_first = note.on - strum.first();
    if (since_first <= together) return true;
    return since_first <= rake && note.on - strum.last() <= together &&
           in_string_order(strum.notes, note);
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
    return strums;
}

}  // namespace compline::listen
