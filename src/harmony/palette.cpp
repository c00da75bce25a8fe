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
        case Ground::subdominant:
            return strictness != Strictness::written && around.subdominant;
        case Ground::substitutions:
            return strictness == Strictness::substitutions;
    }
    return false;
}

PitchClasses only(const Degree& degree) {
    return PitchClasses().set(static_cast<std::size_t>(degree.pitch_class()));
}

/// Of a diminished chord some of its tones; no more than the symbol leaves in it.
std::size_t how_many_are_enough(const Chord& chord, const std::vector<Demand>& demands) {
    const auto some = static_cast<std::size_t>(row_of(chord.quality).of_defining);
    if (some == 0) return demands.size();
    const auto tones = chord_tones(chord);
    const auto there = std::count_if(demands.begin(), demands.end(), [&](const Demand& demand) {
        return std::find(tones.begin(), tones.end(), demand.front()) != tones.end();
    });
    return std::min(some, static_cast<std::size_t>(there));
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

Palette::Palette(const Chord& chord, const Surroundings& around, Strictness strictness)
    : chord_(chord), demands_(defining_tones(chord, strictness == Strictness::written)) {
    enough_ = how_many_are_enough(chord, demands_);
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
    if (chord.bass) {
        const int bass = (chord.bass->pitch_class() - chord.root.pitch_class() + 12) % 12;
        accepted_.set(static_cast<std::size_t>(bass));
        bass_lowest_ = strictness == Strictness::written;
    }
    // What is accepted anyway needs no company, whoever else grants it.
    provisos_.erase(std::remove_if(provisos_.begin(), provisos_.end(),
                                   [&](const Proviso& it) { return (it.tone & accepted_).any(); }),
                    provisos_.end());
    for (const auto& it : provisos_) accepted_ |= it.tone;
    // Without the major third under it a sharp ninth, be it written, is nothing but a minor third.
    const bool third = !is_suspended(chord) && !chord.alterations.has(Alteration::no_third);
    if (is_dominant(chord) && third) provisos_.push_back({only({9, 1}), {}, {}, 0, only({3, 0})});
    if (strictness != Strictness::written) {
        if (const auto sus = sus_reading(chord)) accept_as(*sus);
    }
    telling_ = rotate(telling_, chord.root.pitch_class());
}

void Palette::accept(const Degree& degree) {
    const auto at = static_cast<std::size_t>(degree.pitch_class());
    accepted_.set(at);
    if (tells(degree)) telling_.set(at);
}

void Palette::accept(const OptionalTone& option) {
    if (option.is_free()) {
        accept(option.degree);
        return;
    }
    Proviso proviso{only(option.degree), {}};
    if (option.never_with) proviso.never_with = only(*option.never_with);
    if (option.above) proviso.with = only(*option.above);
    if (option.colour) {
        for (const auto& demand : demands_) proviso.beside |= only(demand.front());
        proviso.at_least = enough_;
        proviso.with = rotate(proviso.tone, 1);
    }
    // A fourth before the third is heard as one; mere colours tell nothing.
    if (option.instead_of || option.never_with == Degree{3, 0}) telling_ |= proviso.tone;
    provisos_.push_back(proviso);
}

void Palette::accept(const Grant& grant) {
    for (const auto& option : grant.options) {
        accept(option);
        if (!option.instead_of) continue;
        for (auto& demand : demands_) {
            if (demand.front() == *option.instead_of) demand.push_back(option.degree);
        }
    }
}

/// The tones of the sus, but those that the symbol itself contradicts; its fourth and seventh are
/// enough to make it.
void Palette::accept_as(const Chord& sus) {
    const int up = sus.root.pitch_class() - chord_.root.pitch_class() + 12;
    PitchClasses contradicted;
    for (const auto& degree : contradicted_tones(chord_)) contradicted |= only(degree);
    for (const auto& tone : chord_tones(sus))
        accepted_ |= rotate(only(tone), up % 12) & ~contradicted;
    sus_ = rotate(only({4, 0}) | only({7, -1}), up % 12);
}

PitchClasses Palette::accepted(const PitchClasses& sounding) const {
    PitchClasses allowed = accepted_;
    const auto heard = above(sounding, chord_.root);
    for (const auto& it : provisos_) {
        const bool holds = (heard & it.never_with).none() && (it.with & ~heard).none() &&
                           (heard & it.beside).count() >= it.at_least;
        if (!holds) allowed &= ~it.tone;
    }
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
    if (sus_ && (*sus_ & ~heard).none()) absent.clear();
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
