#include "rough_file.hpp"

#include <compline/files/file_io.hpp>
#include <compline/practice/take.hpp>
#include <compline/text/bad_input.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <variant>

namespace compline::rough {

namespace {

using time::Seconds;

constexpr int finest_division = 32767;
constexpr std::int64_t last_tick = std::int64_t{1} << 40;

bool is_message(const midi::TrackEvent& event) {
    return std::holds_alternative<midi::Message>(event.event);
}

Seconds start_of(const midi::Recording& recording) {
    for (const auto& text : recording.texts) {
        if (text.type == midi::meta::marker && text.text == practice::start_marker) return text.at;
    }
    return {};
}

/// The same file with as many ticks a quarter as there may be, but so that no two events can be too
/// far apart for the format.
midi::File finer(midi::File file) {
    if (file.frames_per_second != 0) return file;
    std::int64_t length = 1;
    for (const auto& track : file.tracks) length = std::max(length, track.end);
    const auto most = std::max<std::int64_t>(1, midi::most_ticks_apart / 2 / length);
    const auto times =
        static_cast<int>(std::min<std::int64_t>(finest_division / file.division, most));
    file.division *= times;
    for (auto& track : file.tracks) {
        for (auto& event : track.events) event.tick *= times;
        track.end *= times;
    }
    return file;
}

/// The tick nearest to a time, none before 0.
std::int64_t tick_at(const midi::TempoTrack& map, Seconds at) {
    std::int64_t before = 0;
    std::int64_t after = last_tick;
    if (at <= map.time_of(0)) return 0;
    while (after - before > 1) {
        const std::int64_t middle = before + (after - before) / 2;
        (map.time_of(middle) <= at ? before : after) = middle;
    }
    return at - map.time_of(before) <= map.time_of(after) - at ? before : after;
}

/// Puts messages in place of those that are there, in the first track that has any.
void replace_messages(midi::File& file, const std::vector<midi::TimedMessage>& messages) {
    const midi::TempoTrack map(file);
    const auto home =
        std::find_if(file.tracks.begin(), file.tracks.end(), [](const midi::Track& track) {
            return std::any_of(track.events.begin(), track.events.end(), is_message);
        });
    for (auto& track : file.tracks) std::erase_if(track.events, is_message);
    for (const auto& timed : messages) {
        home->events.push_back({tick_at(map, timed.at), timed.message});
    }
    // What is no message stays before the messages of its moment.
    std::stable_sort(home->events.begin(), home->events.end(),
                     [](const auto& a, const auto& b) { return a.tick < b.tick; });
    home->end = std::max(home->end, home->events.back().tick);
}

}  // namespace

RoughFile roughen_file(const std::filesystem::path& path, const simulate::Roughness& roughness,
                       std::uint64_t seed) {
    RoughFile rough;
    rough.file = finer(midi::load_smf(path));
    text::read_at(files::name_of(path), [&] {
        auto recording = midi::flatten(rough.file);
        if (recording.messages.empty()) throw text::BadInput("there is nothing in it to play");
        const Seconds start = start_of(recording);
        for (auto& timed : recording.messages) timed.at = timed.at - start;
        rough.take = simulate::roughen(recording.messages, roughness, seed);
        auto messages = rough.take.messages;
        for (auto& timed : messages) timed.at = timed.at + start;
        replace_messages(rough.file, messages);
    });
    return rough;
}

}  // namespace compline::rough
