#include "dynamics.hpp"

#include <compline/band/place.hpp>

#include <algorithm>
#include <cmath>
#include <cstdint>

namespace compline::band {

namespace {

using time::Beats;

constexpr float melody_gain = 1.6F;
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

/// Makes cues; all that is the same for each of them.
class Placer {
  public:
    Placer(time::SampleRate rate, time::Frames zero, const Stage& stage,
           std::optional<time::Frames> begins, std::size_t cues)
        : rate_(rate),
          zero_(zero),
          stage_(stage),
          begins_(begins),
          soft_frames_(static_cast<float>(time::nearest_frame(soft_start, rate).count())) {
        cues_.reserve(cues);
    }

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

/// By which map a note ends: by the one that was known when it began. What sounds is left alone by
/// a decision, so that all of a note is known when it is struck (2026-11-30).
class Ends {
  public:
    explicit Ends(const roadmap::RoadMap& map) : map_(map), known_(map) {
        for (const auto& decision : map.decided()) {
            const bool ends_it = decision.from_bar > map.bars().value_or(decision.from_bar);
            decided_.emplace_back(ends_it ? map.end() : map.bar(decision.from_bar).start);
        }
    }

    [[nodiscard]] const roadmap::RoadMap& map(Beats from, Beats to) {
        const auto decided = std::upper_bound(decided_.begin(), decided_.end(), from);
        if (decided == decided_.end() || *decided >= to) return map_;
        const auto bar = map_.bar_at(time::Ticks(static_cast<std::int64_t>(
            std::floor(from.count() * static_cast<double>(time::quarter_note.count())))));
        if (bar.number != known_at_) known_ = map_.known_at(bar.number);
        known_at_ = bar.number;
        return known_;
    }
    [[nodiscard]] const roadmap::RoadMap& map(time::Ticks from, time::Ticks length) {
        return map(Beats(from), Beats(from + length));
    }

  private:
    const roadmap::RoadMap& map_;
    std::vector<Beats> decided_;  ///< from where on something is, in order
    roadmap::RoadMap known_;
    std::int64_t known_at_ = 0;  ///< 0: not worked out yet
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

sound::Bank::Guitar guitar_sounds_for(const Players& players) {
    const bool needed = !players.melody.empty() || players.voicings;
    return needed ? sound::Bank::Guitar::with : sound::Bank::Guitar::without;
}

float gain_of(int velocity) {
    const float share = static_cast<float>(velocity) / 127.0F;
    return share * share;
}

std::vector<sound::Cue> place(const Part& part, const roadmap::RoadMap& map, time::SampleRate rate,
                              time::Frames zero, const Stage& stage,
                              std::optional<time::Frames> begins) {
    Dynamics dynamics(part, map);
    Ends ends(map);
    Placer placer(
        rate, zero, stage, begins,
        part.strokes.size() + part.notes.size() + part.melody.size() + part.guitar.size());
    for (const auto& stroke : part.strokes) {
        placer.add(chair_of(stroke.drum), stand_of(stroke.drum), stroke.velocity,
                   dynamics.at(stroke.at), map.time_of(stroke.at));
    }
    for (const auto& note : part.notes) {
        placer.add(Chair::bass, {sound::bass(note.note), bass_gain, bass_pan}, note.velocity,
                   dynamics.at(note.at), map.time_of(note.at),
                   ends.map(note.at, note.length).time_of(note.at + note.length));
    }
    for (const auto& note : part.melody) {
        placer.add(Chair::melody, {sound::guitar(within_reach(note.note)), melody_gain, melody_pan},
                   note.velocity, dynamics.usual(note.at), map.tempi().time_of(note.at),
                   ends.map(note.at, note.at + note.length).tempi().time_of(note.at + note.length));
    }
    for (const auto& note : part.guitar) {
        // Struck string by string, let go as one.
        placer.add(Chair::guitar, {sound::guitar(within_reach(note.note)), guitar_gain, guitar_pan},
                   note.velocity, dynamics.at(note.at), map.time_of(note.at) + note.rolled,
                   ends.map(note.at, note.length).time_of(note.at + note.length));
    }
    return placer.in_order();
}

}  // namespace compline::band
