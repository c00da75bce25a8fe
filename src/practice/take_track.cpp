#include "take_track.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <string>

namespace compline::practice {

using time::Seconds;

namespace {

midi::Event text_event(const std::string& text) { return midi::text_event(midi::meta::text, text); }

/// Collects what happened in a take; in order of time, and at one time in the order given.
class Happenings {
  public:
    explicit Happenings(const TakeTicks& ticks) : ticks_(ticks) {}

    void add(Seconds at, midi::Event event) { events_.push_back({ticks_(at), std::move(event)}); }

    midi::Track track(std::int64_t end) {
        std::stable_sort(events_.begin(), events_.end(),
                         [](const auto& a, const auto& b) { return a.tick < b.tick; });
        midi::Track track;
        const auto put = [&](std::int64_t at, midi::Event e) { track.add(at, std::move(e)); };
        for (auto& event : events_) {
            bridge(track.end, event.tick, put);
            put(event.tick, std::move(event.event));
        }
        bridge(track.end, std::max(track.end, end), put);
        track.end = std::max(track.end, end);
        return track;
    }

  private:
    const TakeTicks& ticks_;
    std::vector<midi::TrackEvent> events_;
};

midi::Track notes_of(const Take& take, const TakeTicks& ticks) {
    Happenings happenings(ticks);
    for (const auto at : take.interruptions) happenings.add(at, text_event(interruption_text));
    for (const auto& event : take.cable) happenings.add(event.at, cable_event(event));
    for (const auto& timed : take.pedal) happenings.add(timed.at, pedal_event(timed.message));
    if (take.info) {
        for (const auto& decided : take.info->decided) {
            happenings.add(decided.at, text_event(to_text(decided.decision)));
        }
    }
    for (const auto& timed : take.messages) happenings.add(timed.at, timed.message);
    if (take.info && take.info->ended) {
        const Seconds last = take.messages.empty() ? take.end : take.messages.back().at;
        happenings.add(std::max(take.end, last), text_event(end_to_text(take.info->machine)));
    }
    return happenings.track(ticks(take.end));
}

}  // namespace

midi::Event pedal_event(const midi::Message& message) {
    auto text = fmt::format("{}{} {}", pedal_text, message.status, message.data1);
    if (message.data_bytes() == 2) text += fmt::format(" {}", message.data2);
    return text_event(text);
}

midi::Event cable_event(const listen::CableEvent& event) {
    return text_event(event.out ? cable_out_text : cable_in_text);
}

midi::File file_with(const std::optional<TakeInfo>& info, const roadmap::RoadMap& map,
                     midi::Track notes) {
    midi::Track conductor;
    const auto meter = map.bar(1).meter().written();
    conductor.add(0, midi::tempo_event(map.tempo()));
    conductor.add(0, midi::time_signature_event(meter.above, meter.below));
    if (info) conductor.add(0, text_event(to_text(*info)));
    conductor.add(TakeTicks(map)(Seconds(0)), midi::text_event(midi::meta::marker, start_marker));
    midi::File file;
    file.format = 1;
    file.division = take_division;
    // The conductor's track ends at its marker: the notes alone tell how long the take is, also
    // when they were cut short.
    file.tracks.push_back(std::move(conductor));
    file.tracks.push_back(std::move(notes));
    return file;
}

midi::File to_file(const Take& take, const roadmap::RoadMap& map) {
    return file_with(take.info, map, notes_of(take, TakeTicks(map)));
}

}  // namespace compline::practice
