#pragma once

#include <compline/assess/settings.hpp>
#include <compline/chart/route.hpp>
#include <compline/guitar/fretboard.hpp>
#include <compline/listen/listener.hpp>
#include <compline/time/timeline.hpp>

#include <array>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace compline::assess {

// The judge: every chord change of a chart against what was heard, when it landed and with which
// tones; the player's time; and the four bars that need work most.

enum class Verdict { on_time, pushed, early, late, held, laid_out, missed };
[[nodiscard]] std::string_view name_of(Verdict verdict);
inline constexpr int verdict_count = 7;

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
    int pass = 1;     ///< time through, from 1
    int bar = 1;      ///< number in the unrolled form
    double beat = 1;  ///< from 1, with a fraction where the chord starts between beats
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
    bool uncertain = false;  ///< the clock stepped or a port was away within a second
    bool seam = false;       ///< only the loop has this change, not the tune
    int inside = 0;          ///< later strums of this chord: right,
    int passing = 0;         ///< foreign on a weak beat and resolving,
    int outside = 0;         ///< foreign

    /// 0 for nothing to mend: min(|lateness|, 200 ms) / 200 where not in time, 1 where missed,
    /// and 0.5 more for wrong tones, 0.25 for missing ones.
    [[nodiscard]] double cost() const;
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
struct Silence {
    int first_bar = 0;  ///< bars played, from 0
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
    std::vector<Silence> silences;      ///< in order
    Kicks kicks;
};

/// The four bars of the form with the highest cost, over all times through.
struct Weakest {
    int from_bar = 1;
    int to_bar = 4;
    double cost = 0;
    chart::Passage loop;  ///< what to loop: a bar earlier where the worst change is on the first
};

struct Totals {
    int changes = 0;
    std::array<int, verdict_count> verdicts{};
    int right_tones = 0;
    [[nodiscard]] int count(Verdict v) const { return verdicts[static_cast<std::size_t>(v)]; }
};

struct Assessment {
    std::vector<Change> changes;
    TimeKeeping time;
    Totals totals;
    std::optional<Weakest> weakest;
};

/// What was played, from time zero on.
struct Performance {
    chart::Route route;  ///< one that ends
    /// Bars (from the first played, from 0) in which the band was silent; for the drift.
    std::vector<int> silent_bars;
    /// When listening ended: a change due later is not judged, nor one that there was no time left
    /// to play.
    time::Seconds end{1e9};
    /// When sound was lost, the clock stepped or a port was away, in order of time.
    std::vector<time::Seconds> interruptions;
};

/// Judges what was heard against a form. `groove` puts the form in time (0 = first beat of the
/// first time through). Deterministic; reads no clock.
[[nodiscard]] Assessment assess(const chart::Form& form, const Performance& performance,
                                const time::Groove& groove, const std::vector<listen::Note>& heard,
                                const guitar::Fretboard& fretboard, const Settings& settings);

/// How many times through of a route a take of this length holds: the last one may be cut short.
[[nodiscard]] int times_through_in(time::Seconds last_onset, const chart::Route& route,
                                   time::Meter meter, time::Bpm tempo);

}  // namespace compline::assess
