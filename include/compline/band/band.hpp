#pragma once

#include <compline/chart/route.hpp>
#include <compline/guitar/voicing_plan.hpp>
#include <compline/harmony/pitch.hpp>
#include <compline/time/units.hpp>

#include <cstdint>
#include <optional>
#include <string_view>
#include <vector>

namespace compline::band {

// What the band plays, as musicians write it: drum strokes and bass notes at written positions
// (swing is applied where they are placed in time, by time::Groove). Positions count from bar 1
// beat 1 of the first time through; the count-in is negative.
//
// PartWriter writes a time through at a time. For each bar what chart, section, stretch and player
// ask for, the player closest, is made whole by the tempo; then come the drums (drums.hpp), the
// bass (bass.hpp), the melody and, where there are voicings, the guitar (comping.hpp): these
// headers are what each plays by. place() puts all of it in time and sound.

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

/// Clicks in place of a drummer: on these positions of every bar, or of every second, third ... one
/// ("1/2" is beat 1 of every second bar).
struct Click {
    std::vector<time::Ticks> positions;  ///< from the bar line, ascending; one at least
    int every = 1;                       ///< bars
    bool operator==(const Click&) const = default;
};

/// The band leaves: so many bars (or whole times through) are played, so many are silent, over and
/// over from the first bar on.
struct Silence {
    int playing = 4;
    int silent = 4;
    bool drums_alone = false;    ///< the bass plays on
    bool times_through = false;  ///< counted in times through, not in bars
    bool operator==(const Silence&) const = default;
};

/// "2 4", "4", "2&", "1/2". Throws text::BadInput.
[[nodiscard]] Click read_click(std::string_view text, time::Meter meter);

/// "4:4", "4:4 drums" (the bass plays on), "1:1 times", in any combination; 1 to 64 each.
/// Throws text::BadInput.
[[nodiscard]] Silence read_silence(std::string_view text);

/// Everything that is asked of the band.
struct Setup {
    chart::Route route;
    chart::AskedManner manner;  ///< the player's own wishes, closest of all
    int count_in_bars = 2;      ///< 0 to 2; see usual_count_in()
    std::optional<Click> click;
    std::optional<Silence> silence;
    std::vector<int> hihat_beats;    ///< where the foot closes, from 1; none: by meter
    bool fills = false;              ///< before a section, a time through, a held ending
    bool crash = false;              ///< on the first beat of a time through
    std::uint64_t seed = 1;          ///< other seeds, other bass lines, fills and guitar parts
    std::vector<MelodyNote> melody;  ///< of the form, from its bar 1
    /// What a guitar of the band comps with; none: the band has no guitar.
    std::optional<guitar::VoicingPlan> voicings;

    /// A passage some times through, or until stopped, as the chart says.
    [[nodiscard]] static Setup of(chart::Passage passage, std::optional<int> times_through,
                                  int count_in_bars = 2);
};

/// Two bars (1 - 2 - | 1 2 3 4); under 80 bpm, where they would take six seconds and more, one.
[[nodiscard]] int usual_count_in(time::Bpm tempo);

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
/// walking bass. The kick is feathered up to 260.
[[nodiscard]] Manner manner_of(const chart::AskedManner& asked, time::Bpm tempo);

/// The band's part for the whole of a route that ends: a PartWriter's times through, joined.
[[nodiscard]] Part arrange(const chart::Form& form, const Setup& setup, time::Bpm tempo);

/// The band lays out in this bar, by its silences: times through from 1, bars (played) from 0.
[[nodiscard]] bool lays_out(const Setup& setup, int time_through, std::int64_t bar_played);

/// The bass plays through a silence of the drums alone.
[[nodiscard]] bool keeps_bass(const Setup& setup, int time_through);

/// Bars (played, from 0) in which nothing of the band sounds, among the first `bars` of a route:
/// there the player's time is his own.
[[nodiscard]] std::vector<int> silent_bars(const chart::Form& form, const Setup& setup,
                                           time::Bpm tempo, int bars);

}  // namespace compline::band
