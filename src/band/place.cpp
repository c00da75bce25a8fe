#include <compline/band/place.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

namespace compline::band {

namespace {

/// Where things stand on the bandstand, and the level of each beside the others.
struct Stand {
    sound::SoundId sound;
    float gain;
    float pan;
};

Stand stand_of(Drum drum) {
    switch (drum) {
        case Drum::ride:
            return {sound::ride, 1.4F, 0.30F};
        case Drum::hihat_foot:
            return {sound::hihat_foot, 2.4F, -0.30F};
        case Drum::kick:
            return {sound::kick, 3.6F, 0.0F};
        case Drum::stick:
            return {sound::stick, 1.5F, 0.0F};
        case Drum::crash:
            return {sound::crash, 1.2F, -0.35F};
        case Drum::cross_stick:
            return {sound::cross_stick, 1.3F, -0.05F};
        case Drum::snare:
            return {sound::snare, 1.0F, -0.05F};
        case Drum::tom:
            return {sound::tom, 1.4F, 0.15F};
        case Drum::brush_tap:
            return {sound::brush_tap, 2.1F, -0.05F};
        case Drum::brush_sweep:
            return {sound::brush_sweep, 2.3F, -0.05F};
    }
    return {sound::stick, 0.0F, 0.0F};
}

constexpr float bass_gain = 2.2F;
constexpr float melody_gain = 1.6F;
constexpr float guitar_gain = 1.05F;  // of a string; a strum has two to five
/// With one more to play, all make a little room: four are about as loud as three.
constexpr float room_for_guitar = 0.88F;
constexpr float bass_pan = 0.0F;
constexpr float melody_pan = -0.15F;
constexpr float guitar_pan = -0.4F;
constexpr float soft_start_gain = 0.25F;  // 12 dB down

/// The guitar's sounds go from E2 to E6; what is beyond moves in by octaves.
harmony::MidiNote within_reach(harmony::MidiNote note) {
    int number = note.number();
    while (number < sound::lowest_guitar_sound.number()) number += 12;
    while (number > sound::highest_guitar_sound.number()) number -= 12;
    return harmony::MidiNote(number);
}

/// Twice as many strokes a minute are 3 dB louder, less what is struck in between anyway: 2 dB in
/// effect. Musicians play softer where it goes fast; so does this band, and a minute of it is as
/// loud at every tempo (tests/band/loudness_test.cpp).
float gain_at(time::Bpm tempo, double loudest_at) {
    constexpr double as_made_at = 132;
    constexpr double two_decibels = 0.36;  // for twice the tempo
    return static_cast<float>(
        std::pow(as_made_at / std::max(tempo.count(), loudest_at), two_decibels));
}

/// How loud each moment of a part is played. Of whatever is struck together all get the same gain,
/// so that the balance between players stays.
///
/// A moment is no softer for coming seldom. Raised as much as the music as a whole, those at which
/// much is struck would clip at slow tempi: they are raised as far as there is room, and below 64
/// bpm none is raised further. Constants: scans of the demo charts in every feel, under -1 dBTP and
/// within 2 dB of -20 LUFS (tests/band/true_peak_test.cpp, loudness_test.cpp).
class Dynamics {
  public:
    Dynamics(const Part& part, time::Bpm tempo)
        : kicks_(part.kicks),
          usual_(gain_at(tempo, 64)),
          crowded_(gain_at(tempo, 92)),
          kick_(gain_at(tempo, 170)),
          room_(part.guitar.empty() ? 1.0F : room_for_guitar) {
        for (const auto& stroke : part.strokes) {
            if (stroke.drum == Drum::brush_sweep) continue;  // stirred: it swells
            together_[stroke.at] += gain_of(stroke.velocity) * stand_of(stroke.drum).gain;
        }
        for (const auto& note : part.notes) {
            together_[note.at] += gain_of(note.velocity) * bass_gain;
        }
        for (const auto& note : part.guitar) {
            // Its strings come one after the other and do not quite add up.
            together_[note.at] += gain_of(note.velocity) * guitar_gain * 0.8F;
        }
    }

    [[nodiscard]] float usual() const { return usual_ * room_; }

    [[nodiscard]] float at(time::Ticks moment) const {
        constexpr float full = 3.31F;  // the sum of gains that there is room for
        const float most = full / (struck_at(moment) * room_);
        // Struck harder than anything else, by all of the band: as loud at every slower tempo.
        if (std::binary_search(kicks_.begin(), kicks_.end(), moment)) {
            return std::min(most, kick_) * room_;
        }
        return std::clamp(most, crowded_, usual_) * room_;
    }

  private:
    [[nodiscard]] float struck_at(time::Ticks moment) const {
        constexpr float hardly_any = 0.1F;
        const auto found = together_.find(moment);
        return found != together_.end() ? std::max(found->second, hardly_any) : hardly_any;
    }

    const std::vector<time::Ticks>& kicks_;
    float usual_;
    float crowded_;
    float kick_;
    float room_;
    std::map<time::Ticks, float> together_;  ///< sums of gains as they are at 132 bpm
};

/// Makes cues; all that is the same for each of them.
class Placer {
  public:
    Placer(time::SampleRate rate, time::Frames zero, const Stage& stage,
           std::optional<time::Frames> begins)
        : rate_(rate),
          zero_(zero),
          stage_(stage),
          begins_(begins),
          soft_frames_(static_cast<float>(time::nearest_frame(soft_start, rate).count())) {}

    /// gain: of all that is struck at that moment, whoever strikes it.
    void add(Chair chair, const Stand& stand, int velocity, float gain, time::Seconds from,
             std::optional<time::Seconds> to = std::nullopt) {
        const auto& seat = stage_.seat(chair);
        sound::Cue cue;
        cue.at = frame_of(from + seat.behind);
        if (to) cue.stop = frame_of(*to + seat.behind);
        cue.sound = stand.sound;
        cue.gain = gain_of(velocity) * stand.gain * seat.gain * gain * softness(cue.at);
        const float pan = seat.pan ? *seat.pan : stand.pan;
        cue.pan = std::clamp(stage_.centre + stage_.width * pan, -1.0F, 1.0F);
        cues_.push_back(cue);
    }

    std::vector<sound::Cue> in_order() {
        std::stable_sort(cues_.begin(), cues_.end(),
                         [](const sound::Cue& a, const sound::Cue& b) { return a.at < b.at; });
        return std::move(cues_);
    }

  private:
    [[nodiscard]] time::Frames frame_of(time::Seconds at) const {
        const auto frame = zero_ + time::nearest_frame(at, rate_);
        return begins_ ? std::max(*begins_, frame) : frame;
    }

    [[nodiscard]] float softness(time::Frames at) const {
        if (!begins_) return 1.0F;
        const float share = static_cast<float>((at - *begins_).count()) / soft_frames_;
        if (share >= 1.0F) return 1.0F;
        return std::pow(soft_start_gain, 1.0F - share);
    }

    time::SampleRate rate_;
    time::Frames zero_;
    const Stage& stage_;
    std::optional<time::Frames> begins_;
    float soft_frames_;
    std::vector<sound::Cue> cues_;
};

}  // namespace

Chair chair_of(Drum drum) {
    switch (drum) {
        case Drum::ride:
        case Drum::crash:
            return Chair::ride;
        case Drum::hihat_foot:
            return Chair::hats;
        case Drum::kick:
            return Chair::kick;
        case Drum::stick:
            return Chair::count;
        case Drum::cross_stick:
        case Drum::snare:
        case Drum::tom:
        case Drum::brush_tap:
        case Drum::brush_sweep:
            return Chair::snare;
    }
    return Chair::count;
}

sound::Bank::Guitar guitar_sounds_for(const Setup& setup) {
    const bool needed = !setup.melody.empty() || setup.voicings;
    return needed ? sound::Bank::Guitar::with : sound::Bank::Guitar::without;
}

float gain_of(int velocity) {
    const float share = static_cast<float>(velocity) / 127.0F;
    return share * share;
}

std::vector<sound::Cue> place(const Part& part, const time::Groove& groove, time::SampleRate rate,
                              time::Frames zero, const Stage& stage,
                              std::optional<time::Frames> begins) {
    const Dynamics dynamics(part, groove.timeline.tempo());
    Placer placer(rate, zero, stage, begins);
    for (const auto& stroke : part.strokes) {
        placer.add(chair_of(stroke.drum), stand_of(stroke.drum), stroke.velocity,
                   dynamics.at(stroke.at), groove.time_of(stroke.at));
    }
    for (const auto& note : part.notes) {
        placer.add(Chair::bass, {sound::bass(note.note), bass_gain, bass_pan}, note.velocity,
                   dynamics.at(note.at), groove.time_of(note.at),
                   groove.time_of(note.at + note.length));
    }
    for (const auto& note : part.melody) {
        placer.add(Chair::melody, {sound::guitar(within_reach(note.note)), melody_gain, melody_pan},
                   note.velocity, dynamics.usual(), groove.timeline.time_of(note.at),
                   groove.timeline.time_of(note.at + note.length));
    }
    for (const auto& note : part.guitar) {
        // Struck string by string, let go as one.
        placer.add(Chair::guitar, {sound::guitar(within_reach(note.note)), guitar_gain, guitar_pan},
                   note.velocity, dynamics.at(note.at), groove.time_of(note.at) + note.rolled,
                   groove.time_of(note.at + note.length));
    }
    return placer.in_order();
}

}  // namespace compline::band
