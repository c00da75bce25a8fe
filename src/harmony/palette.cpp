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

/// What a musician calls a tone that is not in the chord, by semitones above the root.
// clang-format off
constexpr std::array<Degree, 12> usual_names = {{
    {1, 0}, {9, -1}, {9, 0}, {9, 1}, {3, 0}, {11, 0}, {11, 1}, {5, 0}, {13, -1}, {13, 0}, {7, -1}, {7, 0}}};
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
    : chord_(chord) {
    add_written_tones(strictness);
    if (strictness != Strictness::written) add_working(around);
    exclude_neighbours();
    if (strictness == Strictness::substitutions) add_substitutions();
    if (chord.bass) {
        const int bass = (chord.bass->pitch_class() - chord.root.pitch_class() + 12) % 12;
        accepted_.set(static_cast<std::size_t>(bass));
        bass_lowest_ = strictness == Strictness::written;
    }
    if (enough_ == 0) enough_ = demands_.size();
    telling_ = rotate(telling_, chord.root.pitch_class());
}

void Palette::accept(const Degree& degree) {
    const auto at = static_cast<std::size_t>(degree.pitch_class());
    accepted_.set(at);
    if (tells(degree)) telling_.set(at);
}

void Palette::accept(std::string_view column) {
    for (const auto& degree : read_degrees(column)) accept(degree);
}

void Palette::refuse(const Degree& degree) {
    const auto at = static_cast<std::size_t>(degree.pitch_class());
    accepted_.reset(at);
    telling_.reset(at);
}

bool Palette::written(const Degree& degree) const {
    const auto tones = chord_tones(chord_);
    return std::find(tones.begin(), tones.end(), degree) != tones.end();
}

void Palette::add_written_tones(Strictness strictness) {
    const auto& row = row_of(chord_.quality);
    accept(row.tones);
    accept(row.defining);
    for (const auto& degree : read_degrees(row.defining)) demand({degree});
    enough_ = static_cast<std::size_t>(row.of_defining);
    if (strictness == Strictness::written) {
        for (const auto& degree : read_degrees(row.written)) demand({degree});
    }
}

void Palette::add_working(const Surroundings& around) {
    accept(row_of(chord_.quality).working);
    const Quality quality = chord_.quality;
    // 6 for maj7: either makes the chord. A plain triad is right for a written 6.
    if (quality == Quality::major_seventh) demands_ = {{{3, 0}}, {{7, 0}, {6, 0}}};
    if (quality == Quality::sixth || quality == Quality::six_nine) demands_ = {{{3, 0}}};
    if (around.tonic_minor && is_minor(quality)) accept(Degree{6, 0});
    if (is_dominant(quality)) add_dominant_tensions(around);
}

void Palette::add_dominant_tensions(const Surroundings& around) {
    const bool plain = chord_.quality == Quality::dominant_seventh ||
                       chord_.quality == Quality::dominant_ninth ||
                       chord_.quality == Quality::dominant_thirteenth;
    // The dim7 a major third above the root is 3, 5, b7 and b9: nothing beyond these.
    if (plain && around.falls) accept("b9 #9 #11 b13");
    if (plain && around.blues) accept("#9");
    fourth_before_third_ = around.two_beats && chord_.quality != Quality::dominant_suspended;
    if (fourth_before_third_) accept("9 11");
}

void Palette::add_substitutions() {
    const Quality quality = chord_.quality;
    accept(row_of(quality).substitutions);
    // The dominant a tritone away: its root is our b5, its third our b7 (and the other way round),
    // its fifth our b9, its ninth our b13, its thirteenth our #9.
    if (is_dominant(quality)) accept("b5 b9 #9 b13");
    // Fourth chords on a minor seventh leave the third to the bass and the tune.
    if (quality == Quality::minor_seventh || quality == Quality::minor_ninth) {
        demands_ = {{{3, -1}, {11, 0}}, {{7, -1}}};
    }
}

/// A written alteration excludes its natural neighbour, and a written natural the alteration:
/// 9 on C7b9 is wrong, and so is b9 on C9.
void Palette::exclude_neighbours() {
    if (written({9, -1})) refuse({9, 0});
    if (written({9, 0}) && chord_.quality == Quality::dominant_ninth) {
        refuse({9, -1});
        refuse({9, 1});
    }
    if (written({13, 0})) refuse({13, -1});
    if (written({5, 1})) {
        refuse({5, 0});
        refuse({13, 0});
    }
    if (written({5, -1})) refuse({5, 0});
}

PitchClasses Palette::accepted(const PitchClasses& sounding) const {
    PitchClasses allowed = accepted_;
    const auto heard = above(sounding, chord_.root);
    constexpr std::size_t sharp_nine = 3;
    constexpr std::size_t third = 4;
    constexpr std::size_t fourth = 5;
    if (fourth_before_third_ && heard[third]) allowed.reset(fourth);
    // Without the major third under it a sharp ninth is nothing but a minor third.
    if (is_dominant(chord_.quality) && !heard[third]) allowed.reset(sharp_nine);
    return rotate(heard & allowed, chord_.root.pitch_class());
}

std::vector<Degree> Palette::missing(const PitchClasses& sounding) const {
    const auto heard = above(sounding, chord_.root);
    std::vector<Degree> absent;
    std::size_t met = 0;
    for (const auto& demand : demands_) {
        const bool sounds = std::any_of(demand.begin(), demand.end(), [&](const Degree& degree) {
            return heard[static_cast<std::size_t>(degree.pitch_class())];
        });
        if (sounds) {
            ++met;
        } else {
            absent.push_back(demand.front());
        }
    }
    if (met >= enough_) absent.clear();
    return absent;
}

std::optional<int> Palette::required_bass() const {
    if (!bass_lowest_) return std::nullopt;
    return chord_.bass->pitch_class();
}

Spelling Palette::name(int pitch_class) const {
    const int degree = (pitch_class - chord_.root.pitch_class() + 12) % 12;
    const auto& row = row_of(chord_.quality);
    for (const auto column : {row.tones, row.defining}) {
        for (const auto& tone : read_degrees(column)) {
            if (tone.pitch_class() == degree) return spell(chord_.root, tone);
        }
    }
    if (chord_.bass && chord_.bass->pitch_class() == pitch_class) return *chord_.bass;
    return spell(chord_.root, usual_names[static_cast<std::size_t>(degree)]);
}

}  // namespace compline::harmony
