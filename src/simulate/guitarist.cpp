#include <compline/simulate/guitarist.hpp>

#include <algorithm>

namespace compline::simulate {

using time::Seconds;

namespace {

struct StringNote {
    int string;
    int note;
    int velocity;
    Seconds on;
    Seconds off;
};

std::vector<StringNote> notes_of(const std::vector<ScriptedStrum>& script,
                                 const roadmap::RoadMap& map, const guitar::Fretboard& fretboard) {
    std::vector<StringNote> notes;
    for (const auto& strum : script) {
        Seconds on = map.time_of(strum.at) + strum.lateness;
        for (const auto& place : strum.shape.places()) {
            notes.push_back({place.string, fretboard.note(place).number(), strum.velocity, on,
                             on + strum.length});
            on += strum.per_string;
        }
    }
    std::stable_sort(notes.begin(), notes.end(),
                     [](const StringNote& a, const StringNote& b) { return a.on < b.on; });
    return notes;
}

}  // namespace

std::vector<midi::TimedMessage> perform(const std::vector<ScriptedStrum>& script,
                                        const roadmap::RoadMap& map,
                                        const guitar::Fretboard& fretboard) {
    auto notes = notes_of(script, map, fretboard);
    // A string struck again ends what it held.
    for (std::size_t i = 0; i < notes.size(); ++i) {
        for (std::size_t j = i + 1; j < notes.size() && notes[j].on < notes[i].off; ++j) {
            if (notes[j].string != notes[i].string) continue;
            notes[i].off = notes[j].on;
            break;
        }
    }
    std::vector<midi::TimedMessage> messages;
    for (const auto& note : notes) {
        messages.push_back({note.on, midi::note_on(note.string, note.note, note.velocity)});
        messages.push_back({note.off, midi::note_off(note.string, note.note)});
    }
    std::stable_sort(messages.begin(), messages.end(),
                     [](const midi::TimedMessage& a, const midi::TimedMessage& b) {
                         if (a.at != b.at) return a.at < b.at;
                         return a.message.ends_note() && !b.message.ends_note();
                     });
    return messages;
}

}  // namespace compline::simulate
