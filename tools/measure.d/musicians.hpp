#pragma once

#include <compline/band/band.hpp>
#include <compline/chart/form.hpp>
#include <compline/guitar/voicing_plan.hpp>

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace compline::measure {

// What musicians say of the voicings and of the bass, counted: every count is a sentence that a
// guitarist or a bassist has said of a plan or a line. The checkers share nothing with what they
// check (chord_spelling.hpp).

enum class Count {
    colours,           ///< written tensions and sixths that sound
    another_chord,     ///< grips that are a seventh chord on another root, the guide tones missing
    rootless,          ///< the same, guide tones sounding: the usual rootless forms
    hidden_change,     ///< the shape stays, and the new chord's point does not sound
    unasked,           ///< grips with a tone that the symbol does not ask for
    six_for_seven,     ///< a maj7 with its sixth in place of the seventh
    seven_for_six,     ///< a sixth chord given as a maj7
    unasked_eleven,    ///< on minor sevenths
    jumps,             ///< the lowest fret moves by more than four
    hand_jumps,        ///< the hand does, by the plan itself
    equal_sections,    ///< chords of sections that come back, with the same grip
    no_guide,          ///< three notes or fewer, without third or seventh
    flat_ninths,       ///< grips with a minor ninth between two voices
    semitones,         ///< ... with neighbours a semitone apart, one of them not asked for
    low_colour,        ///< ... whose lowest note, below D3, is a seventh or ninth
    long_outside,      ///< bass notes longer than a beat that are no chord tone
    strong_forbidden,  ///< bass notes on strong beats that contradict the symbol
    wrong_fifth,       ///< the natural fifth of a m7b5, the third of a sus, on any beat
    early_approach,    ///< neither chord nor scale, before the chord's last quarter
    below_f1,
    above_c3,
};
inline constexpr std::size_t count_kinds = 21;

/// What is counted under what name, of what, and how much is good.
struct CountRule {
    std::string_view name;
    std::string_view of;
    std::optional<double> gate;  ///< per cent
    bool at_least = false;       ///< of the gate; else at most
};
[[nodiscard]] const CountRule& rule_of(Count count);

struct Share {
    int cases = 0;
    int of = 0;
    std::vector<std::string> offenders;  ///< chart, bar, symbol, shape or note

    [[nodiscard]] double percent() const;
};

struct Mean {
    double sum = 0;
    int of = 0;

    void add(double value);
    [[nodiscard]] double value() const { return of == 0 ? 0 : sum / of; }
};

/// How many different lines were played where two chords of a bar or more follow one another, of
/// ten by ten seeds.
struct Lines {
    Mean different;
    int least = 10;
    std::vector<std::string> offenders;  ///< with fewer than least_lines

    void add(int lines, const std::string& where);
};
inline constexpr int seeds_of_lines = 10;
inline constexpr int least_lines = 4;

struct MusicianFigures {
    std::array<Share, count_kinds> shares;
    Mean notes;          ///< a grip
    Mean semitones;      ///< a voice, a change
    Mean travel;         ///< frets, a change
    Lines both_bars;     ///< the last bar of a chord and the first of the next
    Lines leading_bars;  ///< the last bar of a chord, and the note that it leads to

    [[nodiscard]] const Share& operator[](Count count) const {
        return shares[static_cast<std::size_t>(count)];
    }
    /// No gate: met.
    [[nodiscard]] bool met(Count count) const;
    [[nodiscard]] bool lines_met() const;

    void note(Count count, bool is_case);
    void offend(Count count, std::string where);

    void add(const chart::Form& form, const guitar::VoicingPlan& plan);
    /// What of it comes back where the chords do; a part of add().
    void add_sections(const chart::Form& form, const guitar::VoicingPlan& plan);
    /// Positions from bar 1; the line goes through the form as often as it is long. how: the manner
    /// and seed that it was played with, as offenders say it.
    void add(const chart::Form& form, const std::vector<band::BassNote>& line,
             std::string_view how);
    /// Of one form by other seeds, ten of them.
    void add_lines(const chart::Form& form, const std::vector<std::vector<band::BassNote>>& lines);
};

/// Two times through a form in a manner; what comes after it is not the end.
[[nodiscard]] std::vector<band::BassNote> bass_line(const chart::Form& form,
                                                    const chart::AskedManner& manner,
                                                    time::Bpm tempo, std::uint64_t seed);

/// Plans and lines of these forms (bass seeds 1 to 10), and of so many tunes by chance (two seeds).
[[nodiscard]] MusicianFigures musicians(const std::vector<chart::Form>& forms, int tunes,
                                        std::uint64_t seed);

}  // namespace compline::measure
