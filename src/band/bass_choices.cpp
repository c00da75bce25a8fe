#include "bass_choices.hpp"

#include "bar_grid.hpp"
#include "bass_approach.hpp"

#include <algorithm>
#include <optional>

namespace compline::band {

namespace {

using time::Ticks;

// A passing note outside the scale colours a line; more than now and then it blurs the chord.
constexpr int chromatic = 5;
// The group hears the changes by the root on their first beat: in five bars of six nothing else is
// thought of, and in the sixth it has to be worth a fifth's leap and more.
constexpr int not_the_root = 5;
constexpr int unmoved = 5;
// The next root, a half note early: it gives the change away and takes its weight.
constexpr int ahead_of_time = 4;

/// What a short chord of two beats is played as where the tempo leaves no time to lead: its root
/// and fifth, or its root twice; else as at any tempo.
enum class Short { leads, fifth, root };

class Chooser {
  public:
    Chooser(const BassPlace& place, const LineContext& outlook, const BassBar& bar,
            KeyedChance chance)
        : place_(place),
          now_(outlook.changes[place.change]),
          next_(leads_to(place, outlook)),
          outlook_(outlook),
          bar_(bar),
          chance_(chance) {}

    [[nodiscard]] Wanted wanted() {
        choose();
        return {pitches_, place_.role == Role::approach && short_chord() == Short::root};
    }

  private:
    void choose() {
        switch (place_.role) {
            case Role::start:
                return start();
            case Role::root:
                return bass(0);
            case Role::downbeat:
                return downbeat();
            case Role::strong:
                return each_tone(3, 0, 1);
            case Role::strong_approach:
                return strong_approach();
            case Role::weak:
                return weak();
            case Role::approach:
                return approach();
            case Role::fifth:
                return fifth(0);
            case Role::half:
                return half();
            case Role::root_or_fifth:
                bass(chance_.of(2).below(2));
                return fifth(0);
            case Role::lead:
                return lead();
            case Role::anticipation:
                return pitches_.allow(next_.tones->bass, 0);
            case Role::home:
                return pitches_.allow(outlook_.home, 0);
        }
    }

    [[nodiscard]] const BassTones& tones() const { return *now_.tones; }
    /// The chord that starts next; before N.C. and at the end, where no role leads on, its own.
    [[nodiscard]] static const ChordToPlay& leads_to(const BassPlace& place,
                                                     const LineContext& outlook) {
        const bool last = place.change + 1 == outlook.changes.size();
        const auto& next = outlook.changes[last ? place.change : place.change + 1];
        return next.tones ? next : outlook.changes[place.change];
    }

    void bass(int cost) { pitches_.allow(tones().bass, cost); }

    void fifth(int cost) {
        // Without a fifth, or with the fifth in the bass, it is the root's turn.
        const int root = tones().root;
        const int other = tones().fifth.value_or(root);
        pitches_.allow(other == tones().bass ? root : other, cost);
    }

    /// The root; seldom, where the chord stays so long that it is heard without, and nobody waits
    /// for its root, the third or fifth. In a bar or two there is no other place that tells the
    /// group where the chord began.
    void start() {
        bass(0);
        const bool slash = tones().bass != tones().root;
        const bool first = place_.change == 0 || now_.from == Ticks(0) ||
                           now_.from == outlook_.seam ||
                           !outlook_.changes[place_.change - 1].tones || place_.kick;
        const bool lasts = now_.to - now_.from > bar_.meter.bar() * 2;
        const bool wished = chance_.of(3).below(unmoved + 1) == 0;
        if (slash || first || !lasts || !wished || !walks(bar_)) return;
        if (tones().third) pitches_.allow(*tones().third, not_the_root);
        if (tones().fifth) pitches_.allow(*tones().fifth, not_the_root);
    }

    void each_tone(int bass_cost, int usual, int colour) {
        for (int tone = 0; tone < 12; ++tone) {
            if (!tones().chord.has(tone)) continue;
            const bool plain = tone == tones().third || tone == tones().fifth;
            pitches_.allow(tone, tone == tones().bass ? bass_cost : plain ? usual : colour);
        }
    }

    void downbeat() {
        each_tone(0, 1, 3);
        const int wish = chance_.of(4).below(4);
        if (wish == 0 && tones().third) pitches_.allow(*tones().third, -3);
        if (wish == 1 && tones().fifth) pitches_.allow(*tones().fifth, -3);
    }

    void weak() {
        each_tone(2, 0, 1);
        const int scale = chance_.of(5).below(wishes);  // a bar of scale, or of broken chord
        for (int tone = 0; tone < 12; ++tone) {
            if (tones().chord.has(tone) || !tones().passes(tone)) continue;
            if (now_.scale.has(tone)) {
                pitches_.allow(tone, scale, by_step, by_step_or_third);
            } else {
                pitches_.allow(tone, chromatic, by_semitone, by_step);
            }
        }
        // The blues in a dominant: from its minor third up into its own.
        const auto blue = tones().blue_third;
        const bool own_third = blue && tones().third == (*blue + 1) % 12;
        if (own_third) pitches_.allow(*blue, chromatic, by(1), by_step_or_third);
    }

    /// A half note that rings into the change: of the chord still, most often its fifth; a tone
    /// that is the next root gives away what comes.
    void half() {
        fifth(gives_away(tones().fifth));
        if (tones().third) {
            pitches_.allow(*tones().third,
                           chance_.of(12).below(wishes) + gives_away(tones().third));
        }
        bass(2 + chance_.of(13).below(wishes) + gives_away(tones().bass));
    }

    [[nodiscard]] int gives_away(std::optional<int> tone) const {
        return tone == next_.tones->bass ? ahead_of_time : 0;
    }

    /// An eighth may be ahead of the next root already; a quarter would be the wrong chord.
    void lead() {
        const bool off_beat = !place_.on_beat;
        fifth(off_beat ? 2 : 0);
        if (off_beat) pitches_.allow(next_.tones->bass, 0);
        approaches(2);
    }

    [[nodiscard]] Short short_chord() const {
        const Ticks two_beats = BarGrid(bar_.meter).pulse * 2;
        if (!bar_.fast || now_.to - now_.from > two_beats) return Short::leads;
        const int wish = chance_.of(30 + place_.change).below(5);
        return wish < 2 ? Short::leads : wish < 4 ? Short::fifth : Short::root;
    }

    void approach() {
        const auto play = short_chord();
        if (play == Short::fifth) fifth(-wishes);
        if (play == Short::root) bass(-wishes);
        approaches(0);
    }

    /// A strong beat is the chord's own: the tone of it that lies best for the next root.
    void strong_approach() {
        const int target = next_.tones->bass;
        for (int tone = 0; tone < 12; ++tone) {
            if (!tones().chord.has(tone)) continue;
            const int away = std::min((tone - target + 12) % 12, (target - tone + 12) % 12);
            const bool leads = away == 1 || away == 2 || away == 5;
            pitches_.allow(tone, tone == target ? chromatic + 2 : leads ? 0 : 3);
        }
    }

    void approaches(int cost) {
        const auto chance = chance_.of(6 + place_.change);
        allow_approaches(pitches_, now_, next_, chance, cost);
    }

    const BassPlace& place_;
    const ChordToPlay& now_;
    const ChordToPlay& next_;
    const LineContext& outlook_;
    const BassBar& bar_;
    KeyedChance chance_;
    Pitches pitches_;
};

}  // namespace

Wanted wanted_at(const BassPlace& place, const LineContext& outlook, const BassBar& bar,
                 KeyedChance chance) {
    return Chooser(place, outlook, bar, chance).wanted();
}

}  // namespace compline::band
