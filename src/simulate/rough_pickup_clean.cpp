#include "rough_pickup_parts.hpp"

#include <compline/listen/strum.hpp>
#include <compline/text/bad_input.hpp>

#include <fmt/format.h>

#include <algorithm>

namespace compline::simulate {

namespace {

using time::Seconds;

[[noreturn]] void refuse(Seconds at, const std::string& found, const std::string& expected) {
    throw text::BadInput(
        fmt::format("at {:.3f} s: found {}, expected {}", at.count(), found, expected));
}

void check_message(const midi::TimedMessage& timed, const guitar::Fretboard& fretboard) {
    const auto& message = timed.message;
    if (!message.starts_note() && !message.ends_note()) {
        refuse(timed.at, fmt::format("a message of status 0x{:02X}", message.status),
               "a clean take: note-ons and note-offs only");
    }
    const int string = message.channel();
    if (string > fretboard.strings()) {
        refuse(timed.at, fmt::format("channel {}", string),
               fmt::format("a channel a string, 1 to {}", fretboard.strings()));
    }
    if (message.starts_note() && !fretboard.fret(string, harmony::MidiNote(message.data1))) {
        refuse(timed.at, fmt::format("note {} on string {}", message.data1, string),
               "a note that this string has");
    }
}

/// The strums of the notes: their numbers.
void number_strums(std::vector<PlayedNote>& played) {
    std::vector<listen::Note> notes;
    for (const auto& it : played) {
        listen::Note note;
        note.on = it.on;
        note.off = it.off;
        note.note = harmony::MidiNote(it.key);
        note.string = it.string;
        notes.push_back(note);
    }
    std::size_t i = 0;
    std::size_t number = 0;
    for (const auto& strum : listen::group_strums(notes)) {
        for (std::size_t n = 0; n < strum.notes.size(); ++n) played[i++].strum = number;
        ++number;
    }
}

}  // namespace

std::vector<PlayedNote> read_clean(std::span<const midi::TimedMessage> clean,
                                   const guitar::Fretboard& fretboard) {
    std::vector<PlayedNote> played;
    std::vector<std::optional<std::size_t>> last(static_cast<std::size_t>(fretboard.strings()) + 1);
    std::vector<bool> ringing(last.size(), false);
    Seconds now{-1e12};
    for (const auto& timed : clean) {
        check_message(timed, fretboard);
        if (timed.at < now) refuse(timed.at, "an earlier message", "messages in order of time");
        now = timed.at;
        const auto string = static_cast<std::size_t>(timed.message.channel());
        const auto on_string = last[string];
        const bool ends = timed.message.starts_note() ||
                          (on_string && played[*on_string].key == timed.message.data1);
        if (ringing[string] && ends) {
            played[*on_string].off = timed.at;
            ringing[string] = false;
        }
        if (!timed.message.starts_note()) continue;
        last[string] = played.size();
        ringing[string] = true;
        PlayedNote note;
        note.string = static_cast<int>(string);
        note.key = timed.message.data1;
        note.velocity = timed.message.data2;
        note.on = timed.at;
        note.off = timed.at;
        note.before = on_string;
        played.push_back(note);
    }
    for (std::size_t string = 0; string < last.size(); ++string) {
        if (ringing[string]) played[*last[string]].off = now;
    }
    number_strums(played);
    return played;
}

}  // namespace compline::simulate
