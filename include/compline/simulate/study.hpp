#pragma once

#include <compline/assess/assessment.hpp>
#include <compline/simulate/chorus.hpp>

#include <array>
#include <optional>
#include <string>
#include <vector>

namespace compline::simulate {

// How often the judge finds what was done, and how often what it reports was done: many random
// choruses with known deeds, judged, and compared.

/// One kind of deed. Reported: what the judge calls so; right: of those, what was done. A liberty
/// that the judge has no word for is found when nothing is held against it.
struct Tally {
    int planted = 0;
    int found = 0;
    int reported = 0;
    int right = 0;

    [[nodiscard]] std::optional<double> recall() const;
    [[nodiscard]] std::optional<double> precision() const;
    Tally& operator+=(const Tally& other);
};

/// A change on which the judge and the player disagree.
struct Disagreement {
    std::string chart;
    double tempo = 0;
    std::uint64_t seed = 0;
    int bar = 1;
    double beat = 1;
    std::string chord;
    std::string done;
    std::string said;
};

/// Where a chorus comes from, for whoever wants to play it again.
struct ChorusName {
    std::string chart;
    double tempo = 120;
    std::uint64_t seed = 1;
};

inline constexpr int tempo_band_count = 4;
struct TempoBand {
    int from = 80;  ///< quarter notes a minute
    int to = 119;   ///< included
};
[[nodiscard]] TempoBand tempo_band(int n);

struct Confusion {
    std::array<Tally, deed_count> deeds;
    Tally plain;    ///< changes simply played: nothing may be reported there
    Tally early;    ///< never done, so each one reported is wrong
    Tally outside;  ///< foreign chords in strong places: never done either
    std::array<Tally, tempo_band_count> bands;  ///< all kinds together, by tempo
    std::vector<Disagreement> disagreements;

    [[nodiscard]] const Tally& operator[](Deed deed) const {
        return deeds[static_cast<std::size_t>(deed)];
    }
    /// Adds a chorus and what the judge made of it: one assessed change for each played one.
    void add(const ChorusName& name, const Chorus& chorus, const assess::Assessment& assessment);
};

/// What the judge makes of a chorus, heard as MIDI.
[[nodiscard]] assess::Assessment judge(const chart::Form& form, const Chorus& chorus);

struct StudyRequest {
    int choruses = 500;
    std::uint64_t seed = 1;  ///< of the first chorus; the next ones count on
    bool deeds = true;       ///< false: every change simply played
};

/// Random choruses of these forms at 80 to 240 quarter notes a minute, in each chart's own feel.
[[nodiscard]] Confusion study(const std::vector<chart::Form>& forms, const StudyRequest& request);

}  // namespace compline::simulate
