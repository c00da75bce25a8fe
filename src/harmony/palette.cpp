#include <compline/harmony/palette.hpp>
#include <compline/harmony/quality.hpp>

#include <algorithm>

namespace compline::harmony {

namespace {

constexpr std::array<std::string_view, 3> strictness_names = {"written", "working",
                                                              "substitutions"};

PitchClasses rotate(const PitchClasses& set, int semitones) {
    PitchClasses turned;
    for (std::size_t i = 0; i < 12; ++i) {
        if (set[i]) turned.set((i + static_cast<std::size_t>(semitones + 12)) % 12);
    }
    return turned;
}

PitchClasses above(const PitchClasses& set, const Spelling& root) {
    return rotate(set, -root.pitch_class());
}

bool tells(const Degree& degree) {
    switch (degree.number) {
        case 3:
        case 4:
        case 6:
        case 7:
            return true;
        case 5:
            return degree.alteration != 0;
        case 11:
            return degree.alteration == 0;  // a fourth, as in sus and fourth chords
        default:
            return false;
    }
}

bool same_sound(const std::vector<Degree>& degrees, const Degree& degree) {
    return std::any_of(degrees.begin(), degrees.end(),
                       [&](const Degree& d) { return d.pitch_class() == degree.pitch_class(); });
}

/// Whether the surroundings and the strictness give this ground.
bool holds(Ground ground, const Surroundings& around, Strictness strictness) {
    switch (ground) {
        case Ground::working:
            return strictness != Strictness::written;
        case Ground::falls:
            return strictness != Strictness::written && around.falls;
        case Ground::blues:
            return strictness != Strictness::written && around.blues;
        case Ground::two_beats:
            return strictness != Strictness::written && around.two_beats;
        case Ground::tonic_minor:
            return strictness != Strictness::written && around.tonic_minor;
        case Ground::substitutions:
            return strictness == Strictness::substitutions;
    }
    return false;
}

/// Collects grants, without what the chord has already or contradicts.
class Granting {
  public:
    explicit Granting(const Chord& chord)
        : contradicted_(contradicted_tones(chord)), tones_(chord_tones(chord)) {}

    void add(Ground ground, std::string_view column) {
        Grant grant{ground, {}};
        for (const auto& option : read_options(column)) {
            // A stand-in for another chord altogether is not bound by the symbol's alterations.
            const bool barred =
                ground != Ground::substitutions && same_sound(contradicted_, option.degree);
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

std::vector<Degree> options_of(const Grant& grant) {
    std::vector<Degree> degrees;
    for (const auto& option : grant.options) degrees.push_back(option.degree);
    return degrees;
}

bool is_minor_seventh(const Chord& chord) { return same_sound(chord_tones(chord), {7, -1}); }

void grant_dominant(const Chord& chord, Granting& granting) {
    const bool third = !is_suspended(chord) && !chord.alterations.has(Alteration::no_third);
    if (!third || chord.quality == Quality::altered) return;
    // The dim7 a major third above the root is 3, 5, b7 and b9: nothing beyond these.
    granting.add(Ground::falls, "b9 #9 #11 b13");
    if (chord.alterations.none()) granting.add(Ground::blues, "#9");
    // The sus, or the ii7: 5, b7, 9 and 11.
    granting.add(Ground::two_beats, "9 11");
}

/// What a musician calls a tone that is not in the chord, by semitones above the root.
// clang-format off
constexpr std::array<Degree, 12> usual_names = {{
    {1, 0}, {9, -1}, {9, 0}, {3, -1}, {3, 0}, {11, 0}, {11, 1}, {5, 0}, {13, -1}, {13, 0}, {7, -1}, {7, 0}}};
// clang-format on

}  // namespace

std::string_view name_of(Strictness strictness) {
    return strictness_names[static_cast<std::size_t>(strictness)];
}

std::optional<Strictness> read_strictness(std::string_view name) {
    for (std::size_t i = 0; i < strictness_names.size(); ++i) {
        if (strictness_names[i] == name) return static_cast<Strictness>(i);
    }
    return std::nullopt;
}

std::vector<Grant> grants(const Chord& chord) {
    Granting granting(chord);
    const auto& row = row_of(chord.quality);
    granting.add(Ground::working, row.working);
    if (is_dominant(chord)) grant_dominant(chord, granting);
    if (is_minor(chord)) {
        granting.add(Ground::tonic_minor,
                     row.quality == Quality::minor_sixth || row.quality == Quality::minor_six_nine
                         ? "7=6"
                     : is_minor_seventh(chord) ? "6=b7"
                                               : "6=7");
    }
    granting.add(Ground::substitutions, row.substitutions);
    // The dominant a tritone away: its root is our b5, its third our b7 (and the other way round),
    // its fifth our b9, its ninth our b13, its thirteenth our #9.
    if (is_dominant(chord)) granting.add(Ground::substitutions, "b5 b9 #9 b13");
    return granting.done();
}

Palette::Palette(const Chord& chord, const Surroundings& around, Strictness strictness)
    : chord_(chord), demands_(defining_tones(chord, strictness == Strictness::written)) {
    enough_ = static_cast<std::size_t>(row_of(chord.quality).of_defining);
    if (enough_ == 0) enough_ = demands_.size();
    for (const auto& degree : chord_tones(chord)) accept(degree);
    for (const auto& demand : demands_) {
        for (const auto& degree : demand) accept(degree);
    }
    // What makes the chord tells it from others, were it a fifth (C5) or a second (Csus2).
    for (const auto& demand : defining_tones(chord)) {
        const auto& degree = demand.front();
        if (degree.number == 2 || degree.number == 5) {
            telling_.set(static_cast<std::size_t>(degree.pitch_class()));
        }
    }
    for (const auto& grant : grants(chord)) {
        if (holds(grant.ground, around, strictness)) accept(grant);
    }
    sharp_nine_needs_third_ =
        is_dominant(chord) && !is_suspended(chord) && !chord.alterations.has(Alteration::no_third);
    if (chord.bass) {
        const int bass = (chord.bass->pitch_class() - chord.root.pitch_class() + 12) % 12;
        accepted_.set(static_cast<std::size_t>(bass));
        bass_lowest_ = strictness == Strictness::written;
    }
    telling_ = rotate(telling_, chord.root.pitch_class());
}

void Palette::accept(const Degree& degree) {
    const auto at = static_cast<std::size_t>(degree.pitch_class());
    accepted_.set(at);
    if (tells(degree)) telling_.set(at);
}

void Palette::accept(const Grant& grant) {
    for (const auto& option : grant.options) {
        accept(option.degree);
        if (!option.instead_of) continue;
        for (auto& demand : demands_) {
            if (demand.front() == *option.instead_of) demand.push_back(option.degree);
        }
    }
    if (grant.ground == Ground::two_beats) {
        fourth_before_third_ = same_sound(options_of(grant), {4, 0});
    }
}

PitchClasses Palette::accepted(const PitchClasses& sounding) const {
    PitchClasses allowed = accepted_;
    const auto heard = above(sounding, chord_.root);
    constexpr std::size_t sharp_nine = 3;
    constexpr std::size_t third = 4;
    constexpr std::size_t fourth = 5;
    if (fourth_before_third_ && heard[third]) allowed.reset(fourth);
    // Without the major third under it a sharp ninth is nothing but a minor third.
    if (sharp_nine_needs_third_ && !heard[third]) allowed.reset(sharp_nine);
    return rotate(heard & allowed, chord_.root.pitch_class());
}

std::vector<Degree> Palette::unmet(const PitchClasses& sounding) const {
    const auto heard = above(sounding, chord_.root);
    std::vector<Degree> absent;
    for (const auto& demand : demands_) {
        const bool sounds = std::any_of(demand.begin(), demand.end(), [&](const Degree& degree) {
            return heard[static_cast<std::size_t>(degree.pitch_class())];
        });
        if (!sounds) absent.push_back(demand.front());
    }
    return absent;
}

std::vector<Degree> Palette::missing(const PitchClasses& sounding) const {
    auto absent = unmet(sounding);
    if (demands_.size() - absent.size() >= enough_) absent.clear();
    return absent;
}

std::size_t Palette::short_of(const PitchClasses& sounding) const {
    const std::size_t met = demands_.size() - unmet(sounding).size();
    return enough_ - std::min(met, enough_);
}

std::optional<int> Palette::required_bass() const {
    if (!bass_lowest_) return std::nullopt;
    return chord_.bass->pitch_class();
}

Spelling Palette::name(int pitch_class) const {
    const int degree = (pitch_class - chord_.root.pitch_class() + 12) % 12;
    for (const auto& tone : chord_tones(chord_)) {
        if (tone.pitch_class() == degree) return spell(chord_.root, tone);
    }
    for (const auto& demand : demands_) {
        for (const auto& tone : demand) {
            if (tone.pitch_class() == degree) return spell(chord_.root, tone);
        }
    }
    if (chord_.bass && chord_.bass->pitch_class() == pitch_class) return *chord_.bass;
    return spell(chord_.root, usual_names[static_cast<std::size_t>(degree)]);
}

}  // namespace compline::harmony
