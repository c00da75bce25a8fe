#include "event_order.hpp"

#include <compline/midi/smf.hpp>

#include <algorithm>

namespace compline::midi {

namespace {

bool holds_text(const MetaEvent& event) { return event.type >= 0x01 && event.type <= 0x0F; }

}  // namespace

Recording flatten(const File& file) {
    const TempoTrack tempo(file);
    Recording recording;
    for (const TrackEvent* event : in_order(file)) {
        const time::Seconds at = tempo.time_of(event->tick);
        if (const auto* message = std::get_if<Message>(&event->event)) {
            recording.messages.push_back({at, *message});
        } else if (const auto* meta = std::get_if<MetaEvent>(&event->event)) {
            if (holds_text(*meta)) recording.texts.push_back({at, meta->type, meta->data});
        }
    }
    for (const Track& track : file.tracks) {
        recording.length = std::max(recording.length, tempo.time_of(track.end));
    }
    return recording;
}

}  // namespace compline::midi
