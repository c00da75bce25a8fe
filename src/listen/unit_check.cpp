#include "channel.hpp"
#include "note_reader.hpp"

#include <compline/listen/unit_check.hpp>

#include <algorithm>
#include <map>

namespace compline::listen {

namespace {

using time::Seconds;

constexpr Seconds pull{0.1};
constexpr double cents_in_semitone = 100;
constexpr double bend_steps = 8192;

/// What is sent of one channel, as it goes on.
struct ChannelSeen {
    explicit ChannelSeen(double bend_range) : range(bend_range) {}

    BendRange range;
    double cents = 0;  ///< of the bend now
    Seconds since;     ///< when that was sent
    std::optional<std::size_t> sounding;
    double weighed = 0;  ///< cents times seconds, of the note that sounds
    Seconds weight{0};

    /// The bend of now has held until then.
    void hold_until(Seconds at, std::vector<NoteSeen>& notes) {
        if (sounding) {
            const auto from = std::max(since, notes[*sounding].at + pull);
            if (at > from) {
                weighed += cents * (at - from).count();
                weight += at - from;
            }
        }
        since = at;
    }

    void end_note(Seconds at, std::vector<NoteSeen>& notes) {
        if (!sounding) return;
        hold_until(at, notes);
        notes[*sounding].cents = weight > Seconds(0) ? weighed / weight.count() : cents;
        sounding.reset();
    }

    void begin_note(const midi::TimedMessage& timed, std::vector<NoteSeen>& notes) {
        end_note(timed.at, notes);
        weighed = 0;
        weight = Seconds(0);
        sounding = notes.size();
        since = timed.at;
        notes.push_back({timed.at, timed.message.channel(), harmony::MidiNote(timed.message.data1),
                         timed.message.data2, 0});
    }

    void take(const midi::TimedMessage& timed, std::vector<NoteSeen>& notes) {
        const auto& message = timed.message;
        if (message.starts_note()) {
            begin_note(timed, notes);
        } else if (message.ends_note()) {
            const bool is_it = sounding && notes[*sounding].key.number() == message.data1;
            if (is_it) end_note(timed.at, notes);
        } else if (message.kind() == midi::Message::Kind::pitch_bend) {
            hold_until(timed.at, notes);
            cents = message.bend() / bend_steps * range.semitones() * cents_in_semitone;
        } else if (message.kind() == midi::Message::Kind::control_change) {
            range.control(message.data1, message.data2);
        }
    }
};

}  // namespace

std::vector<NoteSeen> notes_seen(std::span<const midi::TimedMessage> messages, double bend_range,
                                 Seconds end) {
    std::map<int, ChannelSeen> channels;
    std::vector<NoteSeen> notes;
    for (const auto& timed : messages) {
        channels.try_emplace(timed.message.channel(), bend_range).first->second.take(timed, notes);
    }
    for (auto& [number, channel] : channels) channel.end_note(end, notes);
    return notes;
}

std::optional<double> bend_range_told(std::span<const midi::TimedMessage> messages) {
    constexpr double unknown = -1;
    std::map<int, BendRange> channels;
    std::optional<double> told;
    for (const auto& [at, message] : messages) {
        if (message.kind() != midi::Message::Kind::control_change) continue;
        auto& range = channels.try_emplace(message.channel(), unknown).first->second;
        range.control(message.data1, message.data2);
        const bool is_entry = message.data1 == 6 || message.data1 == 38;
        if (is_entry && range.semitones() >= 0) told = range.semitones();
    }
    return told;
}

std::optional<int> string_seen(const NoteSeen& note, const std::optional<Strings>& strings,
                               const guitar::Fretboard& fretboard) {
    if (strings) {
        const int string = string_of(*strings, note.channel, fretboard.strings());
        return string > 0 ? std::optional(string) : std::nullopt;
    }
    for (int string = 1; string <= fretboard.strings(); ++string) {
        if (fretboard.open(string) == note.key) return string;
    }
    return std::nullopt;
}

std::vector<int> velocities_by_string(std::span<const NoteSeen> strum,
                                      const std::optional<Strings>& strings,
                                      const guitar::Fretboard& fretboard) {
    std::vector<int> loudest(static_cast<std::size_t>(fretboard.strings()), 0);
    for (const auto& note : strum) {
        const auto string = string_seen(note, strings, fretboard);
        if (!string) continue;
        auto& loud = loudest[static_cast<std::size_t>(*string) - 1];
        loud = std::max(loud, note.velocity);
    }
    return loudest;
}

}  // namespace compline::listen
