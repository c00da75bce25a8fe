#include <compline/harmony/palette.hpp>
#include <compline/harmony/quality.hpp>

#include <algorithm>
#include <utility>

namespace compline::harmony {

namespace {

bool same_sound(const std::vector<Degree>& degrees, const Degree& degree) {
    return std::any_of(degrees.begin(), degrees.end(),
                       [&](const Degree& d) { return d.pitch_class() == degree.pitch_class(); });
}

/// What the symbol contradicts, were it in its bass: a bass stands in for nothing above it.
std::vector<Degree> contradicted_above_the_bass(Chord chord) {
    chord.bass.reset();
    return contradicted_tones(chord);
}

/// Collects grants, without what the chord has already or contradicts.
class Granting {
  public:
    explicit Granting(const Chord& chord)
        : contradicted_(contradicted_above_the_bass(chord)), tones_(chord_tones(chord)) {}

    void add(Ground ground, std::string_view column) {
        Grant grant{ground, {}};
        for (const auto& option : read_options(column)) {
            // A stand-in for another chord altogether is not bound by the symbol's alterations;
            // nor is what is kept apart from the very tone that it contradicts.
            const bool kept_apart =
                option.above || (option.instead_of && option.never_with == option.instead_of);
            const bool barred = ground != Ground::substitutions && !kept_apart &&
                                same_sound(contradicted_, option.degree);
            const bool known = same_sound(tones_, option.degree);
            if (!barred && (!known || option.instead_of)) grant.options.push_back(option);
        }
        if (!grant.options.empty()) grants_.push_back(std::move(grant));
    }
    std::vector<Grant> done() { return std::move(grants_); }

  private:
    std::vector<Degree> contradicted_;
    std::vector<Degree> tones_;
    std::vector<Grant> grants_;
};

bool is_minor_seventh(const Chord& chord) { return same_sound(chord_tones(chord), {7, -1}); }

void grant_dominant(const Chord& chord, Granting& granting) {
    const bool third = !is_suspended(chord) && !chord.alterations.has(Alteration::no_third);
    if (!third || chord.quality == Quality::altered) return;
    // The dim7 a major third above the root is 3, 5, b7 and b9: nothing beyond these.
    granting.add(Ground::falls, "b9 #9 #11 b13-5");
    if (chord.alterations.none()) granting.add(Ground::blues, "#9");
    // The sus, or the ii7: 5, b7, 9 and 11.
    granting.add(Ground::two_beats, "9 11-3");
}

/// On a tonic minor sixth and sevenths stand in for each other; the minor seventh for the sixth of
/// a plain Cm6 only (a plain Cm takes any of them anywhere), and not beside it.
std::string_view on_tonic_minor(const Chord& chord) {
    switch (chord.quality) {
        case Quality::minor:
            return "";
        case Quality::minor_sixth:
            return chord.alterations.none() ? "7=6 b7=6-6" : "7=6";
        case Quality::minor_six_nine:
            return "7=6";
        default:
            return is_minor_seventh(chord) ? "6=b7" : "6=7";
    }
}

/// The chord on the fourth degree has the key's own raised eleventh.
bool is_major_seventh(const Chord& chord) {
    return same_sound(chord_tones(chord), {3, 0}) && same_sound(chord_tones(chord), {7, 0});
}

}  // namespace

std::vector<Grant> grants(const Chord& chord) {
    Granting granting(chord);
    const auto& row = row_of(chord.quality);
    granting.add(Ground::working, row.working);
    if (is_dominant(chord)) grant_dominant(chord, granting);
    if (is_minor(chord)) granting.add(Ground::tonic_minor, on_tonic_minor(chord));
    if (is_major_seventh(chord)) granting.add(Ground::subdominant, "#11");
    granting.add(Ground::substitutions, row.substitutions);
    // The dominant a tritone away: its root is our b5, its third our b7 (and the other way round),
    // its fifth our b9, its ninth our b13, its thirteenth our #9.
    if (is_dominant(chord)) granting.add(Ground::substitutions, "b5 b9 #9 b13-5");
    return granting.done();
}

}  // namespace compline::harmony
