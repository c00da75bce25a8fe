#include <compline/band/melody.hpp>
#include <compline/text/bad_input.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <optional>
#include <string_view>
#include <variant>

namespace compline::band {

namespace {

constexpr int drum_channel = 10;
constexpr std::string_view start_marker = "compline:start";

bool is_melody(std::string_view name) {
    constexpr std::string_view wanted = "melody";
    return std::equal(name.begin(), name.end(), wanted.begin(), wanted.end(), [](char a, char b) {
        return (a >= 'A' && a <= 'Z' ? static_cast<char>(a - 'A' + 'a') : a) == b;
    });
}

bool is_named_melody(const midi::Track& track) {
    return std::any_of(track.events.begin(), track.events.end(), [](const midi::TrackEvent& e) {
        const auto* const meta = std::get_if<midi::MetaEvent>(&e.event);
        return meta != nullptr && meta->type == midi::meta::track_name && is_melody(meta->data);
    });
}

std::int64_t start_of(const midi::File& file) {
    for (const auto& track : file.tracks) {
        for (const auto& event : track.events) {
            const auto* const meta = std::get_if<midi::MetaEvent>(&event.event);
            if (meta != nullptr && meta->type == midi::meta::marker && meta->data == start_marker) {
                return event.tick;
            }
        }
    }
    return 0;
}

/// The notes of one track.
class MelodyReader {
  public:
    MelodyReader(int division, std::int64_t start) : division_(division), start_(start) {}

    std::vector<MelodyNote> read(const midi::Track& track) {
        for (const auto& event : track.events) {
            const auto* const message = std::get_if<midi::Message>(&event.event);
            if (message == nullptr || message->channel() == drum_channel) continue;
            if (message->starts_note() || message->ends_note()) end(message->data1, event.tick);
            if (message->starts_note()) begin(*message, event.tick);
        }
        for (int key = 0; key < 128; ++key) end(key, track.end);
        std::stable_sort(notes_.begin(), notes_.end(),
                         [](const MelodyNote& a, const MelodyNote& b) { return a.at < b.at; });
        return std::move(notes_);
    }

  private:
    [[nodiscard]] time::Beats beats(std::int64_t tick) const {
        return time::Beats(static_cast<double>(tick - start_) / division_);
    }

    void begin(const midi::Message& message, std::int64_t tick) {
        if (tick < start_) return;
        if (notes_.size() == most_melody_notes) {
            throw text::BadInput(
                fmt::format("more than {} notes: no melody has so many", most_melody_notes));
        }
        sounding_[static_cast<std::size_t>(message.data1)] = notes_.size();
        notes_.push_back(
            {beats(tick), time::Beats(0), harmony::MidiNote(message.data1), message.data2});
    }

    void end(int key, std::int64_t tick) {
        auto& sounding = sounding_[static_cast<std::size_t>(key)];
        if (!sounding) return;
        auto& note = notes_[*sounding];
        note.length = beats(tick) - note.at;
        sounding.reset();
    }

    int division_;
    std::int64_t start_;
    std::array<std::optional<std::size_t>, 128> sounding_{};
    std::vector<MelodyNote> notes_;
};

}  // namespace

std::vector<MelodyNote> read_melody(const midi::File& file) {
    if (file.frames_per_second != 0) {
        throw text::BadInput(
            "its ticks count by the frame (SMPTE): save it in ticks a quarter note");
    }
    MelodyReader reader(file.division, start_of(file));
    for (const auto& track : file.tracks) {
        if (!is_named_melody(track)) continue;
        if (auto notes = reader.read(track); !notes.empty()) return notes;
    }
    for (const auto& track : file.tracks) {
        if (auto notes = reader.read(track); !notes.empty()) return notes;
    }
    throw text::BadInput("there are no notes of a melody in it (channel 10 is the drums')");
}

}  // namespace compline::band
