#include <compline/band/place.hpp>

#include <algorithm>

namespace compline::band {

namespace {

/// Where things stand on the bandstand, and the level of each beside the others.
struct Seat {
    sound::SoundId sound;
    float gain;
    float pan;
};

Seat seat_of(Drum drum) {
    switch (drum) {
        case Drum::ride:
            return {sound::ride, 1.4F, 0.30F};
        case Drum::hihat_foot:
            return {sound::hihat_foot, 2.4F, -0.30F};
        case Drum::kick:
            return {sound::kick, 3.6F, 0.0F};
        case Drum::stick:
            return {sound::stick, 1.5F, 0.0F};
    }
    return {sound::stick, 0.0F, 0.0F};
}

constexpr float bass_gain = 2.2F;

float pan_of(float seat, const Balance& balance) {
    return std::clamp(balance.centre + balance.width * seat, -1.0F, 1.0F);
}

}  // namespace

float gain_of(int velocity) {
    const float share = static_cast<float>(velocity) / 127.0F;
    return share * share;
}

std::vector<sound::Cue> place(const Part& part, const time::Groove& groove, time::SampleRate rate,
                              time::Frames zero, const Balance& balance) {
    const auto frame_of = [&](time::Ticks at) {
        return zero + time::nearest_frame(groove.time_of(at), rate);
    };
    std::vector<sound::Cue> cues;
    cues.reserve(part.strokes.size() + part.notes.size());
    for (const auto& stroke : part.strokes) {
        const Seat seat = seat_of(stroke.drum);
        cues.push_back({frame_of(stroke.at), sound::Cue::never, seat.sound,
                        gain_of(stroke.velocity) * seat.gain * balance.drums,
                        pan_of(seat.pan, balance)});
    }
    for (const auto& note : part.notes) {
        cues.push_back({frame_of(note.at), frame_of(note.at + note.length), sound::bass(note.note),
                        gain_of(note.velocity) * bass_gain * balance.bass, pan_of(0, balance)});
    }
    std::stable_sort(cues.begin(), cues.end(),
                     [](const sound::Cue& a, const sound::Cue& b) { return a.at < b.at; });
    return cues;
}

}  // namespace compline::band
