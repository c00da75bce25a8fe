#include "together.hpp"

#include <compline/listen/strum.hpp>

#include <algorithm>

namespace compline::listen {

namespace {

constexpr time::Seconds rake{0.120};
// An arpeggio: a chord spread over time, string by string, at an even pace, all of it ringing on.
constexpr time::Seconds longest_rake_step{0.250};
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

/// The strum `next` goes on with the arpeggio that begins with `first`, if it is one.
bool continues(const std::vector<Strum>& strums, std::size_t first, std::size_t next) {
    if (strums[next].notes.size() != 1) return false;
    const auto note = [&](std::size_t i) -> const Note& { return strums[i].notes.front(); };
    const auto step = [&](std::size_t to) { return note(to).on - note(to - 1).on; };
    const auto rises = [&](std::size_t to) { return rank(note(to)) > rank(note(to - 1)); };
    if (note(next).slid || step(next) <= together || step(next) > longest_rake_step) return false;
    if (rank(note(next)) == rank(note(next - 1)) || rises(next) != rises(first + 1)) return false;
    return step(next) <= step(first + 1) * evenness && step(first + 1) <= step(next) * evenness;
}

/// How many strums, from this one on, are an arpeggio; 0 where none begins.
std::size_t arpeggio_from(const std::vector<Strum>& strums, std::size_t first) {
    if (strums[first].notes.size() != 1 || strums[first].notes.front().slid) return 0;
    auto first_off = strums[first].notes.front().off;
    std::size_t next = first + 1;
    for (; next < strums.size() && continues(strums, first, next); ++next) {
        const Note& note = strums[next].notes.front();
        first_off = std::min(first_off, note.off);
        const bool rings_on = first_off > note.on + together;
        if (!rings_on) return 0;
    }
    const std::size_t count = next - first;
    return count >= fewest_strings ? count : 0;
}

/// The strums with each arpeggio as one.
std::vector<Strum> join_arpeggios(std::vector<Strum> strums) {
    std::vector<Strum> joined;
    joined.reserve(strums.size());
    for (std::size_t i = 0; i < strums.size();) {
        const std::size_t end = i + std::max(arpeggio_from(strums, i), std::size_t{1});
        joined.push_back(std::move(strums[i]));
        for (++i; i < end; ++i) joined.back().notes.push_back(strums[i].notes.front());
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
