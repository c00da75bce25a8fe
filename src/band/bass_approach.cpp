#include "bass_approach.hpp"

namespace compline::band {

namespace {

// Weighed against the costs of bass_choices.cpp and of walk().
constexpr int rub = 5;        // see rubs()
constexpr int foreign = 2;    // a semitone that the scale does not have: it leads, but it is heard
constexpr int passing = 1;    // a whole tone that is no chord tone
constexpr int ahead = 3;      // a whole tone of the next chord's scale: early, if right soon
constexpr int own_fifth = 1;  // the chord's own tone that falls home
constexpr int fourth = 3;     // a leap that neither rings in the chord nor leads as a step does
constexpr int another_way = 2;
// Where the root stays (a sus chord into its dominant) a semitone from it leads nowhere.
constexpr int round_the_root = 4;

/// A semitone against a tone that stays in both chords sounds like a mistake (G sharp from a C
/// chord into an A minor, where the G stays).
bool rubs(int pitch_class, int target, const BassTones& now, const BassTones& next) {
    if (now.named.has(pitch_class)) return false;
    for (const int beside : {(pitch_class + 1) % 12, (pitch_class + 11) % 12}) {
        if (beside != target && now.named.has(beside) && next.named.has(beside)) return true;
    }
    return false;
}

/// The ways into a root, one of which chance likes best.
enum class Approach { below, above, step, fifth };
constexpr int ways = 4;

class Approaches {
  public:
    Approaches(Pitches& pitches, const ChordToPlay& now, const ChordToPlay& next,
               KeyedChance chance, int cost)
        : pitches_(pitches),
          now_(now),
          next_(next),
          favourite_(static_cast<Approach>(chance.below(ways))),
          cost_(cost),
          target_(next.tones->bass),
          stays_(now.tones->bass == target_) {}

    void allow() {
        semitone(Approach::below, 1);
        semitone(Approach::above, -1);
        for (const int away : {2, 10}) whole_tone((target_ + away) % 12);
        fifth();
    }

  private:
    [[nodiscard]] const BassTones& tones() const { return *now_.tones; }

    /// Nothing speaks against it on the chord that still sounds.
    [[nodiscard]] bool own(int tone) const {
        return tones().chord.has(tone) || tones().passes(tone);
    }

    void way(Approach one, int tone, int cost, Reach reach = by_step_or_fifth) {
        if (tones().never.has(tone)) return;
        const int rubbing = rubs(tone, target_, tones(), *next_.tones) ? rub : 0;
        const int other = one == favourite_ ? 0 : another_way;
        pitches_.allow(tone, cost_ + cost + rubbing + other, reach);
    }

    /// It leads so strongly that it may be foreign to the scale; then it goes nowhere else. A blue
    /// third leads up.
    void semitone(Approach one, int on) {
        const int tone = (target_ - on + 12) % 12;
        if (tones().blue_third == tone && on < 0) return;
        const int cost = (now_.scale.has(tone) ? 0 : foreign) + (stays_ ? round_the_root : 0);
        way(one, tone, cost, own(tone) && now_.scale.has(tone) ? by_step_or_fifth : by(on));
    }

    void whole_tone(int tone) {
        if (!own(tone)) return;
        if (now_.scale.has(tone)) way(Approach::step, tone, tones().chord.has(tone) ? 0 : passing);
        if (next_.scale.has(tone)) way(Approach::step, tone, ahead);
    }

    /// A leap needs a note that is at home where it leaves.
    void fifth() {
        const int above = (target_ + 7) % 12;
        const bool at_home = own(above) && now_.scale.has(above);
        if (at_home) way(Approach::fifth, above, tones().chord.has(above) ? own_fifth : fourth);
        const int below = (target_ + 5) % 12;
        if (tones().chord.has(below)) way(Approach::fifth, below, fourth);
    }

    Pitches& pitches_;
    const ChordToPlay& now_;
    const ChordToPlay& next_;
    Approach favourite_;
    int cost_;
    int target_;
    bool stays_;  // the bass note is the same on both chords
};

}  // namespace

void allow_approaches(Pitches& pitches, const ChordToPlay& now, const ChordToPlay& next,
                      KeyedChance chance, int cost) {
    Approaches(pitches, now, next, chance, cost).allow();
}

}  // namespace compline::band
