#include "note_reader.hpp"

#include <algorithm>

namespace compline::listen {

namespace {

using time::Seconds;
using Kind = midi::Message::Kind;

constexpr int channel_count = 16;
constexpr int highest_note = 127;

/// A bend this soon after a note-on says where the note is, not that it moves: no hand slides so
/// soon after it has struck.
constexpr Seconds attack{0.030};
/// A key struck twice is let go twice; the note-off that comes this soon after the second note-on
/// is the first one's.
constexpr Seconds overlap{0.100};
/// From the note that is struck to the end of what is hammered on it.
constexpr Seconds longest_hammer_on{1.0};
constexpr int widest_hammer_on = 5;  // frets

/// Control changes that end all notes: all sound off, all notes off, and changes of mode
/// (MIDI 1.0).
bool ends_all(int controller) {
    return controller == 120 || (controller >= 123 && controller <= 127);
}

}  // namespace

int string_of(const Strings& strings, int channel, int count) {
    const int offset = channel - strings.first_channel;
    if (offset < 0 || offset >= count) return 0;
    return strings.low_string_first ? count - offset : offset + 1;
}

NoteReader::NoteReader(const PickupSettings& settings, const std::optional<Strings>& strings)
    : settings_(settings), strings_(strings) {
    for (int number = 1; number <= channel_count; ++number) {
        channels_.push_back({number, {}, BendRange(settings.bend_range), {}});
    }
}

void NoteReader::take(const midi::TimedMessage& timed) {
    const auto& message = timed.message;
    Channel& channel = channels_[static_cast<std::size_t>(message.channel() - 1)];
    if (message.starts_note()) {
        start(channel, timed);
    } else if (message.ends_note()) {
        stop(channel, message.data1, timed.at);
    } else if (message.kind() == Kind::pitch_bend) {
        bend(channel, message.bend() / 8192.0 * channel.range.semitones(), timed.at);
    } else if (message.kind() == Kind::control_change) {
        control(channel, message.data1, message.data2, timed.at);
        control_all(channel.number, message, timed.at);
    }
}

/// In mono mode the channel below the first string's is the global one: what is said there is said
/// to all strings (MIDI 1.0, mode 4; from memory).
void NoteReader::control_all(int number, const midi::Message& message, Seconds at) {
    if (!strings_) return;
    const int global = strings_->first_channel > 1 ? strings_->first_channel - 1 : channel_count;
    if (number != global) return;
    for (auto& channel : channels_) {
        if (string_of(channel) > 0) control(channel, message.data1, message.data2, at);
    }
}

void NoteReader::start(Channel& channel, const midi::TimedMessage& timed) {
    follow_slide(channel, timed.at);
    if (strings_) take_over(channel, timed.at);
    KeyDown key;
    key.number = timed.message.data1;
    key.struck = timed.at;
    key.bent = channel.path.nearest();
    const auto same = std::find_if(channel.keys.begin(), channel.keys.end(),
                                   [&](const KeyDown& k) { return k.number == key.number; });
    if (same != channel.keys.end()) {
        sound_until(*same, timed.at);
        key.before = same->note;
        channel.keys.erase(same);
    }
    auto note = sounding(channel, key, timed.at);
    if (!note) return;
    note->velocity = timed.message.data2;
    key.note = report(*note);
    channel.keys.push_back(key);
}

/// A string has one note: a new one ends what it sounded.
void NoteReader::take_over(Channel& channel, Seconds at) {
    for (auto& key : channel.keys) {
        if (!key.sounds) continue;
        sound_until(key, at);
        key.sounds = false;
    }
}

/// What a key sounds; nothing, and counted, where MIDI knows no such note.
std::optional<Note> NoteReader::sounding(const Channel& channel, const KeyDown& key, Seconds at) {
    const int number = key.number + key.bent;
    if (number < 0 || number > highest_note) {
        ++cleaned_.impossible;
        return std::nullopt;
    }
    Note note;
    note.on = at;
    note.off = at;
    note.note = harmony::MidiNote(number);
    if (const int string = string_of(channel); string > 0) {
        note.string = string;
        note.fret = settings_.fretboard.fret(string, note.note);
    }
    return note;
}

/// 0: none, or not known.
int NoteReader::string_of(const Channel& channel) const {
    if (!strings_) return 0;
    return listen::string_of(*strings_, channel.number, settings_.fretboard.strings());
}

std::size_t NoteReader::report(const Note& note) {
    reported_.push_back({note, false});
    return reported_.size() - 1;
}

void NoteReader::sound_until(const KeyDown& key, Seconds at) {
    Note& note = reported_[key.note].note;
    if (key.sounds) note.off = std::max(at, note.on);
}

void NoteReader::stop(Channel& channel, int number, Seconds at) {
    const auto key = std::find_if(channel.keys.begin(), channel.keys.end(),
                                  [&](const KeyDown& k) { return k.number == number; });
    if (key == channel.keys.end()) return;
    follow_slide(channel, at);
    if (key->before && at - reported_[key->note].note.on <= overlap) {
        reported_[*key->before].ended = true;
        key->before.reset();
        return;
    }
    sound_until(*key, at);
    reported_[key->note].ended = true;
    const bool sounded = key->sounds;
    const Note left = reported_[key->note].note;
    channel.keys.erase(key);
    if (strings_ && sounded) give_back(channel, left, at);
}

/// A pull-off: the finger has left, and the lower note that it was hammered on is held still. A key
/// that no hand can have held meanwhile is down because its note-off was lost.
void NoteReader::give_back(Channel& channel, const Note& left, Seconds at) {
    if (channel.keys.empty()) return;
    KeyDown& key = channel.keys.back();
    const int down = left.note.number() - (key.number + key.bent);
    if (down < 1 || down > widest_hammer_on || at - key.struck > longest_hammer_on) return;
    auto note = sounding(channel, key, at);
    if (!note) return;
    note->velocity = left.velocity;
    reported_[key.note].ended = true;
    key.note = report(*note);
    key.sounds = true;
}

void NoteReader::stop_all(Channel& channel, Seconds at) {
    follow_slide(channel, at);
    for (const auto& key : channel.keys) {
        sound_until(key, at);
        reported_[key.note].ended = true;
    }
    channel.keys.clear();
}

void NoteReader::bend(Channel& channel, double semitones, Seconds at) {
    follow_slide(channel, at);
    channel.path.move(semitones, at);
}

/// No more notes slide than a guitar has strings, the newest: keys whose note-off was lost do not.
void NoteReader::follow_slide(Channel& channel, Seconds at) {
    if (channel.keys.empty()) return;
    const auto arrival = channel.path.arrived(at);
    if (!arrival) return;
    auto lost = std::count_if(channel.keys.begin(), channel.keys.end(),
                              [](const KeyDown& key) { return key.sounds; }) -
                settings_.fretboard.strings();
    for (auto& key : channel.keys) {
        if (!key.sounds || lost-- > 0 || key.bent == arrival->semitones) continue;
        slide(channel, key, *arrival);
    }
}

void NoteReader::slide(Channel& channel, KeyDown& key, const BendPath::Arrival& arrival) {
    key.bent = arrival.semitones;
    const Note was = reported_[key.note].note;
    const bool is_attack = arrival.when - was.on < attack;
    auto note = sounding(channel, key, is_attack ? was.on : arrival.when);
    if (!note) return;
    note->velocity = was.velocity;
    note->slid = is_attack ? was.slid : true;
    if (is_attack) {
        reported_[key.note].note = *note;
        return;
    }
    sound_until(key, arrival.when);
    reported_[key.note].ended = true;
    key.note = report(*note);
}

void NoteReader::control(Channel& channel, int controller, int value, Seconds at) {
    constexpr int reset_all_controllers = 121;
    channel.range.control(controller, value);
    if (controller == reset_all_controllers) bend(channel, 0, at);
    if (ends_all(controller)) stop_all(channel, at);
}

std::vector<Note> NoteReader::finish(Seconds end) {
    for (auto& channel : channels_) {
        follow_slide(channel, end);
        for (const auto& key : channel.keys) sound_until(key, end);
    }
    std::stable_sort(
        reported_.begin(), reported_.end(),
        [](const ReportedNote& a, const ReportedNote& b) { return a.note.on < b.note.on; });
    cleaned_.unended += end_the_unended(reported_, end);
    std::vector<Note> notes;
    notes.reserve(reported_.size());
    for (const ReportedNote& reported : reported_) notes.push_back(reported.note);
    return notes;
}

}  // namespace compline::listen
