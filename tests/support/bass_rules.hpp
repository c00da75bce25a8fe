#pragma once

#include <compline/band/band.hpp>
#include <compline/band/bass_bar.hpp>
#include <compline/chart/form.hpp>
#include <compline/time/meter.hpp>

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace compline::tests {

/// What a bass player is asked for: bars played one after the other, in stretches.
struct Gig {
    std::vector<band::BassBar> bars;
    std::vector<std::size_t> stretches;  ///< where each begins, by index of bar; 0 first
    bool ends = true;                    ///< the last note is the last of all
    std::optional<int> home = {};        ///< what it is to be then
};

/// The bars of a passage, in one manner throughout.
std::vector<band::BassBar> bass_bars(const chart::Form& form, chart::Passage passage,
                                     chart::Bass bass = chart::Bass::walking,
                                     chart::Feel feel = chart::Feel::swing);

/// The same bars played some times in a meter.
Gig gig_of(time::Meter meter, const std::vector<band::BassBar>& bars, int times,
           std::optional<int> home = std::nullopt);

/// What the bass plays there, from its first beat on.
std::vector<band::BassNote> play(const Gig& gig, std::uint64_t seed);

/// Listens to bass lines as a teacher would, apart from the code that makes them, and says what is
/// against the rules of band/bass.hpp, a sentence each. Chord tones come from the harmony library;
/// the fifth is read off the printed symbol.
class BassTeacher {
  public:
    explicit BassTeacher(Gig gig);

    /// Positions from the first beat of the first bar.
    [[nodiscard]] std::vector<std::string> faults_of(const std::vector<band::BassNote>& line) const;

    /// What is counted over many lines and is no fault in one.
    struct Count {
        int starts = 0;   ///< of chords in walking bars, but the very last note
        int roots = 0;    ///< of those, with their bass note
        int notes = 0;    ///< in walking bars
        int settled = 0;  ///< of those, F1 to C3
        int low = 0;      ///< of those, on the E string below A1
    };
    void count(const std::vector<band::BassNote>& line, Count& count) const;

  private:
    friend class Lesson;

    /// A quarter of a quarter note, which every beat of every meter is some of, and what sounds
    /// there. `starts` and `fresh`: at its beginning.
    struct Beat {
        std::size_t chord = 0;  // in chords_; see none
        std::size_t bar = 0;
        bool starts = false;
        bool fresh = false;  // ... where a stretch starts, or after a rest
    };
    struct Tones {
        std::string symbol;
        int root = 0;
        int bass = 0;
        unsigned tones = 0;         // a bit each pitch class
        unsigned fifths = 0;        // what may serve as its fifth
        unsigned contradicted = 0;  // what would make another chord of it
        unsigned never = 0;         // of those, what leads nowhere either
        unsigned blue = 0;          // a minor third that rises or is not played
    };
    static void forbid(Tones& tones, const harmony::Chord& chord);
    static constexpr std::size_t none = static_cast<std::size_t>(-1);

    Gig gig_;
    std::vector<Tones> chords_;
    std::vector<Beat> beats_;
    std::vector<time::Ticks> lines_;  // where the bars begin, and the end
};

/// The faults of a line that walks through a passage some times; home is the tonic where the
/// passage ends with the form.
std::vector<std::string> faults_of(const std::vector<band::BassNote>& line, const chart::Form& form,
                                   chart::Passage passage, int times);

}  // namespace compline::tests
