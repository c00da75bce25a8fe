#pragma once

#include <compline/guitar/voicing_plan.hpp>
#include <compline/harmony/pitch.hpp>
#include <compline/roadmap/road_map.hpp>
#include <compline/time/units.hpp>

#include <cstdint>
#include <optional>
#include <vector>

namespace compline::band {

// What the band plays, as musicians write it: drum strokes and bass notes at written positions
// (swing is applied where they are placed in time). Positions count from bar 1
// beat 1 of the first time through; the count-in is negative.
//
// PartWriter writes a time through at a time. Who plays in a bar, and what is asked for there, is
// read off the road map and made whole by the tempo with which the time through begins; then come
// the drums (drums.hpp), the bass (bass.hpp), the melody and, where there are voicings, the guitar
// (comping.hpp): these headers are what each plays by. place() puts all of it in time and sound.

/// stick: two sticks struck together, for counting in and for clicks. brush_sweep: a brush drawn
/// round the head; brush_tap: one struck on it.
enum class Drum {
    ride,
    hihat_foot,
    kick,
    stick,
    crash,
    cross_stick,
    snare,
    tom,
    brush_tap,
    brush_sweep,
};
inline constexpr int drum_count = 10;

struct Stroke {
    time::Ticks at;
    Drum drum = Drum::ride;
    int velocity = 80;  ///< 1 to 127
    bool operator==(const Stroke&) const = default;
};

struct BassNote {
    time::Ticks at;
    time::Ticks length;
    harmony::MidiNote note{40};
    int velocity = 80;  ///< 1 to 127
    bool dead = false;  ///< muted: a short, soft stroke on the string, hardly a pitch
    bool operator==(const BassNote&) const = default;
};

/// A note of a melody that the player brought. It is played where it stands: no swing is applied.
struct MelodyNote {
    time::Beats at;
    time::Beats length;
    harmony::MidiNote note{60};
    int velocity = 80;  ///< 1 to 127
    bool operator==(const MelodyNote&) const = default;
};

/// A string of a comping guitar's strum, from the lowest string on.
struct GuitarNote {
    time::Ticks at;
    time::Ticks length;
    harmony::MidiNote note{60};
    int velocity = 80;     ///< 1 to 127
    time::Seconds rolled;  ///< behind the first string of its strum
    bool operator==(const GuitarNote&) const = default;
};

/// The band's part for a stretch of music, each list in order of time.
struct Part {
    std::vector<Stroke> strokes;
    std::vector<BassNote> notes;
    std::vector<MelodyNote> melody;
    std::vector<GuitarNote> guitar;
    std::vector<time::Ticks> kicks;  ///< where all of the band strike together, harder
};

/// A phrase, as the band breathes: counted in the section.
inline constexpr int bars_of_phrase = 4;

/// A held ending rings for its bar and the one after, or so.
inline constexpr int held_bars = 2;

/// What the players of the band bring, beside what the road map asks of them.
struct Players {
    std::vector<int> hihat_beats;    ///< where the foot closes, from 1; none: by meter
    bool fills = false;              ///< before a section, a time through, a held ending
    bool crash = false;              ///< on the first beat of a time through
    std::uint64_t seed = 1;          ///< other seeds, other bass lines, fills and guitar parts
    std::vector<MelodyNote> melody;  ///< of the form, from its bar 1; the map has it on
    /// What a guitar of the band comps with; the map has it on. None: the band has no guitar.
    std::optional<guitar::VoicingPlan> voicings;
};

/// How a bar is played, once wishes and tempo are settled.
struct Manner {
    chart::Feel feel = chart::Feel::swing;
    chart::Drums drums = chart::Drums::ride;
    chart::Bass bass = chart::Bass::walking;
    bool feathered = true;    ///< the kick, on every beat
    bool plain_bass = false;  ///< neither skip notes nor dead ones
    bool breathing = false;   ///< the drums play in phrases: see drums.hpp
    bool operator==(const Manner&) const = default;
};

/// What is not asked for the tempo decides (common practice, no source): under 80 bpm, and in a
/// ballad, brushes and a bass in two; over 260 the ride mostly in quarters; in between ride and
/// walking bass. The kick is feathered up to 260. In 2/2 the bass is in two at any tempo, and in
/// double-time it is twice the tempo that decides.
[[nodiscard]] Manner manner_of(const chart::AskedManner& asked, time::Bpm tempo);

/// The band's part for the whole of a road map that ends: a PartWriter's times through, joined.
[[nodiscard]] Part arrange(const roadmap::RoadMap& map, const Players& players);

}  // namespace compline::band
