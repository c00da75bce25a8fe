#include "cleaning.hpp"

#include <compline/listen/listener.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <set>

namespace compline::listen {

namespace {

using time::Seconds;

constexpr int string_count = 6;
constexpr int no_parameter = 0x3FFF;  // RPN null

int string_of(const Strings& strings, int channel) {
    const int offset = channel - strings.first_channel;
    if (offset < 0 || offset >= string_count) return 0;
    return strings.low_string_first ? string_count - offset : offset + 1;
}

/// One channel's state: what it holds, its bend, and the parameter that data entry would set.
struct Channel {
    struct Ringing {
        int key = 0;            ///< the note number that was struck
        std::size_t index = 0;  ///< its place in the list of notes
    };
    std::vector<Ringing> ringing;
    int bend = 0;
    double bend_range = 2;
    int parameter = no_parameter;
};

class Reader {
  public:
    Reader(const Settings& settings, std::optional<Strings> strings)
        : settings_(settings), strings_(strings) {
        for (auto& channel : channels_) channel.bend_range = settings.bend_range;
    }

    void take(const midi::TimedMessage& timed) {
        const auto& message = timed.message;
        Channel& channel = channels_[static_cast<std::size_t>(message.channel() - 1)];
        using Kind = midi::Message::Kind;
        if (message.starts_note()) {
            start(channel, timed);
        } else if (message.ends_note()) {
            stop(channel, message.data1, timed.at);
        } else if (message.kind() == Kind::pitch_bend) {
            channel.bend = message.bend();
            follow_bend(channel, timed.at);
        } else if (message.kind() == Kind::control_change) {
            control(channel, message.data1, message.data2, timed.at);
        }
    }

    std::vector<Note> finish(Seconds end) {
        for (auto& channel : channels_) stop_all(channel, end);
        for (Note& note : notes_) correct(note);
        std::stable_sort(notes_.begin(), notes_.end(), [](const Note& a, const Note& b) {
            return a.on != b.on ? a.on < b.on : a.string < b.string;
        });
        return std::move(notes_);
    }

  private:
    static int semitones(const Channel& channel) {
        return static_cast<int>(std::lround(channel.bend / 8192.0 * channel.bend_range));
    }

    void start(Channel& channel, const midi::TimedMessage& timed) {
        const int key = timed.message.data1;
        // A string plays one note at a time; on one channel for all, one of each pitch.
        if (strings_) {
            stop_all(channel, timed.at);
        } else {
            stop(channel, key, timed.at);
        }
        add(channel, timed.message.channel(), key, timed.message.data2, timed.at, false);
    }

    void add(Channel& channel, int number, int key, int velocity, Seconds at, bool slid) {
        Note note;
        note.on = at;
        note.off = at;
        note.note = harmony::MidiNote(key + semitones(channel));
        note.velocity = velocity;
        note.slid = slid;
        if (const int string = strings_ ? string_of(*strings_, number) : 0; string > 0) {
            note.string = string;
            note.fret = settings_.fretboard.fret(string, note.note);
        }
        channel.ringing.push_back({key, notes_.size()});
        notes_.push_back(note);
    }

    void stop(Channel& channel, int key, Seconds at) {
        std::erase_if(channel.ringing, [&](const Channel::Ringing& ringing) {
            if (ringing.key != key) return false;
            notes_[ringing.index].off = at;
            return true;
        });
    }

    void stop_all(Channel& channel, Seconds at) {
        for (const auto& ringing : channel.ringing) {
            Note& note = notes_[ringing.index];
            note.off = std::max(at, note.on);
        }
        channel.ringing.clear();
    }

    /// A bend that has moved the sounding pitch to another fret is a new note, slid into.
    void follow_bend(Channel& channel, Seconds at) {
        const auto held = channel.ringing;
        for (const auto& ringing : held) {
            const Note was = notes_[ringing.index];
            if (was.note.number() == ringing.key + semitones(channel)) continue;
            stop(channel, ringing.key, at);
            const auto number = static_cast<int>(&channel - channels_.data()) + 1;
            add(channel, number, ringing.key, was.velocity, at, true);
        }
    }

    void control(Channel& channel, int controller, int value, Seconds at) {
        constexpr int data_entry = 6;
        constexpr int data_entry_fine = 38;
        constexpr int parameter_fine = 100;
        constexpr int parameter_coarse = 101;
        switch (controller) {
            case parameter_coarse:
                channel.parameter = (channel.parameter & 0x7F) | value << 7;
                break;
            case parameter_fine:
                channel.parameter = (channel.parameter & ~0x7F) | value;
                break;
            case data_entry:
                if (channel.parameter == 0) channel.bend_range = value;
                break;
            case data_entry_fine:
                if (channel.parameter == 0) {
                    channel.bend_range = std::floor(channel.bend_range) + value / 100.0;
                }
                break;
            case 98:
            case 99:
                channel.parameter = no_parameter;
                break;  // NRPN: not ours
            case 121:
                channel.bend = 0;
                break;  // reset all controllers
            case 120:
            case 123:
                stop_all(channel, at);
                break;  // all sound off, all notes off
            default:
                break;
        }
    }

    void correct(Note& note) const {
        const Seconds delay =
            settings_.delay.constant + Seconds(settings_.delay.cycles / note.note.hz());
        note.on = note.on - delay;
    }

    const Settings& settings_;
    std::optional<Strings> strings_;
    std::array<Channel, 16> channels_;
    std::vector<Note> notes_;
};

bool playable(std::span<const midi::TimedMessage> messages, const Strings& strings,
              const guitar::Fretboard& fretboard) {
    return std::all_of(messages.begin(), messages.end(), [&](const midi::TimedMessage& timed) {
        if (!timed.message.starts_note()) return true;
        const int string = string_of(strings, timed.message.channel());
        const harmony::MidiNote note(timed.message.data1);
        return string > 0 && fretboard.fret(string, note).has_value();
    });
}

}  // namespace

std::optional<Strings> find_strings(std::span<const midi::TimedMessage> messages,
                                    const guitar::Fretboard& fretboard) {
    std::set<int> used;
    for (const auto& timed : messages) {
        if (timed.message.starts_note()) used.insert(timed.message.channel());
    }
    if (used.size() < 2 || *used.rbegin() - *used.begin() >= string_count) return std::nullopt;
    // Units count their channels from 1, or end at 16; else the lowest used is taken as the first.
    const int first = *used.rbegin() <= string_count ? 1 : std::min(*used.begin(), 11);
    for (const bool low_string_first : {false, true}) {
        const Strings strings{first, low_string_first};
        if (playable(messages, strings, fretboard)) return strings;
    }
    return std::nullopt;
}

Heard hear(std::span<const midi::TimedMessage> messages, const Settings& settings, Seconds end) {
    Heard heard;
    heard.strings =
        settings.strings ? settings.strings : find_strings(messages, settings.fretboard);
    Reader reader(settings, heard.strings);
    for (const auto& timed : messages) reader.take(timed);
    heard.notes = reader.finish(end);
    heard.cleaned = clean(heard.notes, settings);
    return heard;
}

}  // namespace compline::listen
