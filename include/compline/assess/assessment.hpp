#pragma once

#include <compline/assess/habit.hpp>
#include <compline/assess/read_as.hpp>
#include <compline/assess/settings.hpp>
#include <compline/guitar/fretboard.hpp>
#include <compline/guitar/shape.hpp>
#include <compline/listen/heard_by.hpp>
#include <compline/listen/note.hpp>
#include <compline/listen/unheard.hpp>
#include <compline/roadmap/road_map.hpp>

#include <array>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace compline::assess {

// The judge: first every strum of a take is read for what it was meant (ReadAs), then every chord
// change of a chart is judged: when it landed and with which tones; the player's time; and the four
// bars that need work most.
//
// In src/assess, in this order: sounding (strums with all that rings after each), target (the
// changes that are due, each with what may be played on it), grid (the form in time, the rules of
// rhythm). Reading, twice: units, fit, entry_times and shifts are its evidence, reader finds the
// likeliest way through it, own_time learns from the first reading who plays. Judging: judge and
// judge_tones, a change at a time; habits, time_keeping and weakest over all of them. Last, what
// the faults have in common: hand_moves says what each change asked of the hand, habit_groups what
// changes share, habit_search where the faults come.
//
// Where only sound was heard, time_alone reads in place of reader, and no tone is judged.

enum class Verdict {
    on_time,
    pushed,  ///< anticipated, on the off-beat before
    placed,  ///< in `free`, let in on a later beat or off-beat, nothing of the old chord sounding
    early,
    late,
    held,      ///< not struck: what rings is right here
    laid_out,  ///< not struck, and nothing of the old chord rings
    missed,
    astray,  ///< the player was elsewhere in the form
};
[[nodiscard]] std::string_view name_of(Verdict verdict);
inline constexpr int verdict_count = 9;

/// A strum, and what it was read as.
struct ReadStrum {
    int time_through = 1;
    int bar = 1;               ///< number in the unrolled form
    time::BeatOfBar beat;      ///< the beat or off-beat it was meant for, from 1
    time::Seconds at;          ///< first onset
    time::Seconds asynchrony;  ///< from that beat or off-beat; + is late
    ReadAs read_as = ReadAs::again;
    bool off_beat = false;  ///< what it was meant for lies between two beats
};

enum class Tones { right, wrong, incomplete, none };
[[nodiscard]] std::string_view name_of(Tones tones);

/// A tone that does not belong to the chord it sounded on.
struct WrongTone {
    harmony::MidiNote note{60};
    harmony::Spelling spelling;  ///< as the chord spells it
    std::optional<int> string;   ///< none without a channel per string
    std::optional<int> fret;
    std::optional<int> nearest_fret;  ///< of an accepted tone on that string
    harmony::Spelling nearest;        ///< what that fret gives
    bool stuck_finger = false;        ///< it was right for the chord before, on that string
};

/// One chord change, judged.
struct Change {
    int time_through = 1;  ///< from 1
    int bar = 1;           ///< number in the unrolled form
    time::BeatOfBar beat;  ///< from 1, with a fraction where the chord starts between beats
    std::string section;
    std::optional<harmony::Chord> from;  ///< none: the first chord, or the first after N.C.
    harmony::Chord to;
    time::Seconds at;  ///< when it is due
    Verdict verdict = Verdict::missed;
    std::optional<time::Seconds> lateness;  ///< + is late; none where nothing landed
    std::optional<time::Seconds> relative;  ///< lateness less the player's own median
    std::optional<double> beats_in;  ///< the grid point it was judged against, in beats after `at`
    std::optional<time::Seconds> spread;  ///< first to last onset of the landing strum
    Tones tones = Tones::none;
    std::vector<harmony::Degree> missing;
    std::vector<WrongTone> wrong;
    bool wait = false;  ///< placed here most times, while its neighbours land where they are due
    bool left_out = false;  ///< laid out, as most times at this place, while its neighbours are not
    std::optional<harmony::Chord> meant;  ///< astray: the chord that was played for
    bool uncertain = false;               ///< the clock stepped or a port was away within a second
    bool unheard = false;                 ///< uncertain, since the guitar's cable was out
    bool seam = false;                    ///< only the loop has this change, not the tune
    int inside = 0;                       ///< later strums of this chord: right,
    int passing = 0;                      ///< foreign on a weak beat and resolving,
    int outside = 0;                      ///< foreign
    bool optional = false;                ///< the chart leaves it to the player
    bool wide_move = false;   ///< the hand went more than four frets for it; known by strings alone
    bool after_fill = false;  ///< single notes or a double-stop right before it
    bool into_section = false;  ///< it opens a section, coming from another one
    std::uint8_t strings = 0;   ///< struck by the landing: bit n for string n + 1; 0: not known
    /// What rang when it had landed, a fret a string; none: not struck, or strings are not known.
    std::optional<guitar::Shape> grip = {};
    /// By sound nothing is said of tones: they are none, nothing is held, nobody astray.
    listen::HeardBy heard_by = listen::HeardBy::midi;

    /// They are, or none was heard.
    [[nodiscard]] bool has_right_tones() const {
        return heard_by == listen::HeardBy::sound || tones == Tones::right;
    }

    /// 0 for nothing to mend: min(|lateness|, 200 ms) / 200 where not in time, 1 where missed or
    /// astray, 0.25 for a wait; and 0.5 more for wrong tones, 0.25 for missing ones.
    [[nodiscard]] double cost() const { return time_cost() + tones_cost(); }
    [[nodiscard]] double time_cost() const;
    [[nodiscard]] double tones_cost() const;
};

/// Mean and standard deviation of asynchronies, + is behind the beat.
struct Spread {
    int count = 0;
    std::optional<double> mean_ms;
    std::optional<double> sd_ms;  ///< of a sample; none below two
};

/// How the player's strums lie on one written beat of the rhythm, over all bars.
struct WrittenBeat {
    time::Ticks in_bar;  ///< from the bar line
    Spread strums;
    int missing = 0;  ///< bars without a strum there; a chord that was pushed stands for its beat
};

/// How the clock stood over a stretch of bars in which the band was silent.
struct SilentBars {
    std::int64_t first_bar = 1;  ///< in order of playing, from 1
    int bars = 1;
    int strums = 0;  ///< of the player, from its first beat to the beat on which the band is back
    /// How far behind the first strum on that beat was, less where the last strum before the
    /// silence stood: what the silence did to the time. None where either is missing.
    std::optional<double> came_back_ms;
};

/// Kicks: what is written for the whole band.
struct Kicks {
    int written = 0;
    Spread caught;  ///< those with a strum nearest to them, within a quarter of a beat
};

/// The player's time, judged on chords and dead strums.
struct TimeKeeping {
    Spread all;
    Spread on_beats;
    Spread off_beats;
    std::optional<double> drift_ms_per_bar;  ///< over bars of silence only
    std::optional<double> swing_ratio;       ///< median of long/short, 20 pairs at least
    int missing_strums = 0;                  ///< beats of `four` or of a pattern without a strum
    std::vector<WrittenBeat> per_beat;  ///< of `four` or of a pattern, in order; none of `free`
    std::vector<SilentBars> silences;   ///< in order
    Kicks kicks;
};

/// The four bars of the form with the highest cost, over all times through.
struct Weakest {
    int from_bar = 1;
    int to_bar = 4;
    double cost = 0;
    chart::Passage loop;  ///< what to loop: a bar earlier where the worst change is on the first
};

/// Where a player stands beside the beat by habit: the median asynchrony of strums.
struct OwnPlace {
    std::optional<time::Seconds> on_beats;   ///< none: the beat itself judges
    std::optional<time::Seconds> off_beats;  ///< of few off-beats: that of the beats
    /// Known from strums that change nothing; else from all, and a slow hand may be in it.
    bool told_apart = false;
    std::optional<time::Seconds> uneven;  ///< their median where it is not kept: the beat judges
};

/// Changes in a row, of one time through, at which the player was elsewhere in the form.
struct Astray {
    int time_through = 1;
    int from_bar = 1;
    int to_bar = 1;
    double bars = 0;  ///< how far on in the form the player was; - is behind
    int changes = 0;
};

/// Changes that are `uncertain` are counted as that and as nothing else.
struct Totals {
    int changes = 0;
    int uncertain = 0;
    std::array<int, verdict_count> verdicts{};
    int right_tones = 0;
    [[nodiscard]] int count(Verdict v) const { return verdicts[static_cast<std::size_t>(v)]; }
};

struct Assessment {
    std::vector<Change> changes;
    /// The first so many changes stand whatever is played from here on, but for what the whole take
    /// tells of the player (own place, habits).
    std::size_t settled = 0;
    std::vector<ReadStrum> strums;  ///< in order of time
    std::vector<Astray> astray;     ///< in order of time
    std::vector<Habit> habits;      ///< costliest first
    OwnPlace own_place;
    time::Seconds tolerance;  ///< on beats, at the first tempo; off-beats may have more
    TimeKeeping time;
    Totals totals;
    std::optional<Weakest> weakest;
};

/// What was heard of the player, from time zero on.
struct Performance {
    std::vector<listen::Note> notes;  ///< in order of onset
    guitar::Fretboard fretboard = guitar::Fretboard::standard();
    /// When listening ended: a change due later is not judged, nor one that there was no time left
    /// to play.
    time::Seconds end{1e9};
    /// When sound was lost or the clock stepped, in order of time.
    std::vector<time::Seconds> interruptions;
    /// When the guitar's cable was out, in order of time.
    std::vector<listen::Unheard> unheard = {};
    /// When listening began: a change due earlier is not judged.
    time::Seconds begin{-1e9};
    /// By sound each note is an onset, and nothing of it counts but when it began.
    listen::HeardBy heard_by = listen::HeardBy::midi;
};

/// Judges what was heard against a road map that ends (asserted). Deterministic; reads no clock.
[[nodiscard]] Assessment assess(const roadmap::RoadMap& map, const Performance& heard,
                                const Settings& settings);

/// What the faults have in common, costliest first. Changes and strums may be a part of those of an
/// assessment, or of several of them, one behind the other. Deterministic; n log n.
[[nodiscard]] std::vector<Habit> find_habits(const std::vector<Change>& changes,
                                             const std::vector<ReadStrum>& strums);

/// How many times through a take of this length holds: the last one may be cut short.
[[nodiscard]] int times_through_in(time::Seconds last_onset, const roadmap::RoadMap& map);

}  // namespace compline::assess
