#include "cleaning.hpp"
#include "note_reader.hpp"

#include <compline/listen/listener.hpp>

#include <algorithm>

namespace compline::listen {

namespace {

/// How long it took to find a note's pitch.
time::Seconds delay_of_note(const Note& note, const Delay& delay) {
    const auto late = delay.constant + time::Seconds(delay.cycles / note.note.hz());
    const auto place = static_cast<std::size_t>(note.string.value_or(0));
    if (place < 1 || place > delay.by_string.size()) return late;
    return late + delay.by_string[place - 1];
}

/// The pick was there before its pitch was found; a note keeps its length.
void correct(std::vector<Note>& notes, const DelayOf& delay_of) {
    for (Note& note : notes) {
        const auto late = delay_of(note);
        note.on = note.on - late;
        note.off = note.off - late;
    }
    sort_by_onset(notes);
}

std::optional<Strings> strings_for(std::span<const midi::TimedMessage> messages,
                                   const PickupSettings& settings) {
    if (settings.one_channel) return std::nullopt;
    return settings.strings ? settings.strings : find_strings(messages, settings.fretboard);
}

}  // namespace

Heard hear(std::span<const midi::TimedMessage> messages, const PickupSettings& settings,
           time::Seconds end) {
    Heard heard;
    heard.strings = strings_for(messages, settings);
    NoteReader reader(settings, heard.strings);
    for (const auto& timed : messages) reader.take(timed);
    heard.notes = reader.finish(end);
    heard.cleaned = reader.cleaned();
    sort_by_onset(heard.notes);
    const DelayOf delay_of = [&](const Note& note) { return delay_of_note(note, settings.delay); };
    mend_strings(heard.notes, settings.cleaning, delay_of, heard.cleaned);
    correct(heard.notes, delay_of);
    drop_ghosts(heard.notes, settings.cleaning, heard.cleaned);
    return heard;
}

}  // namespace compline::listen
