#include "sounding.hpp"

#include <algorithm>

namespace compline::assess {

using listen::Note;
using time::Seconds;

namespace {

/// Fingers that lift as the next chord is struck may sound this long into it; also how long a
/// string may take to join its strum's chord.
constexpr Seconds settling{0.030};

/// No note of a guitar rings longer than this; bounds how far back to look.
constexpr Seconds longest_ring{30.0};

bool on_string_of(const listen::Strum& strum, const Note& note) {
    return std::any_of(strum.notes.begin(), strum.notes.end(), [&](const Note& n) {
        return n.string && note.string ? n.string == note.string : n.note == note.note;
    });
}

}  // namespace

std::vector<SoundingStrum> sounding_strums(const std::vector<Note>& notes) {
    std::vector<SoundingStrum> strums;
    std::vector<Note> ringing;
    std::size_t next = 0;
    for (auto& strum : listen::group_strums(notes)) {
        SoundingStrum item;
        const Seconds settled = strum.last() + settling;
        std::erase_if(ringing, [&](const Note& note) { return note.off <= strum.first(); });
        item.sounding = strum.notes;
        for (const Note& note : ringing) {
            if (note.off > settled && !on_string_of(strum, note)) item.sounding.push_back(note);
        }
        next += strum.notes.size();
        ringing.insert(ringing.end(), strum.notes.begin(), strum.notes.end());
        for (std::size_t i = next; i < notes.size() && notes[i].on <= settled; ++i) {
            if (!on_string_of(strum, notes[i])) item.sounding.push_back(notes[i]);
        }
        item.strum = std::move(strum);
        item.pitch_classes = pitch_classes_of(item.sounding);
        strums.push_back(std::move(item));
    }
    return strums;
}

std::vector<Note> ringing_at(const std::vector<Note>& notes, Seconds t, Seconds before) {
    const auto end = std::lower_bound(notes.begin(), notes.end(), std::min(before, t),
                                      [](const Note& note, Seconds at) { return note.on < at; });
    std::vector<Note> ringing;
    for (auto it = end; it != notes.begin();) {
        --it;
        if (t - it->on > longest_ring) break;
        if (it->off > t) ringing.push_back(*it);
    }
    return ringing;
}

harmony::PitchClasses pitch_classes_of(const std::vector<Note>& notes) {
    harmony::PitchClasses set;
    for (const Note& note : notes) set.set(static_cast<std::size_t>(note.note.pitch_class()));
    return set;
}

int fit(const harmony::Palette& palette, const std::vector<Note>& sounding) {
    const auto accepted = palette.accepted(pitch_classes_of(sounding));
    int sum = 0;
    for (const Note& note : sounding) {
        sum += accepted[static_cast<std::size_t>(note.note.pitch_class())] ? 1 : -1;
    }
    return sum;
}

}  // namespace compline::assess
