#include "bass_choices.hpp"

#include <algorithm>
#include <array>
#include <cstdlib>

namespace compline::band {

namespace {

using time::Ticks;

// Costs are weighed against those of walk(): there a step is 0 and a fifth 4.
constexpr int wishes = 6;          // chance adds 0 to 5
constexpr int stir = 4;            // and so much more for each line thrown away
constexpr int foreign_strong = 5;  // a passing note in the middle of the bar
constexpr int chromatic = 5;       // a passing note outside the scale
constexpr Reach by_semitone = 1U << 1;
constexpr int not_the_root = 5;  // where a chord starts
constexpr int unsettled = 3;     // a semitone outside the settled register
constexpr int in_view = 9;       // semitones from the height wanted; every tone is among them
constexpr int octave_and_more = 20;
constexpr int two_feel_height = 38;  // D2: roots below, fifths above or below them
constexpr int unmoved = 5;           // bars in six of which a chord starts with its root only

class Pitches {
  public:
    void allow(int pitch_class, int cost, Reach reach = anywhere, Reach from = anywhere) {
        const auto i = static_cast<std::size_t>((pitch_class % 12 + 12) % 12);
        if (allowed_[i] && cost_[i] <= cost) return;
        allowed_[i] = true;
        cost_[i] = cost;
        reach_[i] = reach;
        from_[i] = from;
    }

    /// The notes between two, both included, that the bass has.
    template <typename CostOf>
    [[nodiscard]] std::vector<Choice> notes(int low, int high, CostOf cost_of) const {
        std::vector<Choice> choices;
        choices.reserve(16);
        low = std::max(low, lowest_bass.number());
        high = std::min(high, highest_bass.number());
        for (int note = low; note <= high; ++note) {
            const auto i = static_cast<std::size_t>(note % 12);
            if (!allowed_[i]) continue;
            choices.push_back(
                {harmony::MidiNote(note), cost_[i] + cost_of(note), reach_[i], from_[i]});
        }
        return choices;
    }

  private:
    std::array<bool, 12> allowed_{};
    std::array<int, 12> cost_{};
    std::array<Reach, 12> reach_{};
    std::array<Reach, 12> from_{};
};

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
enum class Way { below, above, step, fifth };
constexpr int ways = 4;
constexpr int another_way = 2;

class Chooser {
  public:
    Chooser(const Place& place, const Outlook& outlook, Chance chance)
        : place_(place),
          now_(outlook.changes[place.change]),
          next_(place.change + 1 < outlook.changes.size() ? &outlook.changes[place.change + 1]
                                                          : nullptr),
          outlook_(outlook),
          chance_(chance) {
        if (next_ != nullptr && !next_->tones) next_ = nullptr;
    }

    [[nodiscard]] Pitches choose() {
        switch (place_.role) {
            case Role::start:
                start();
                break;
            case Role::root:
                bass(0);
                break;
            case Role::downbeat:
                downbeat();
                break;
            case Role::strong:
                strong();
                break;
            case Role::weak:
                weak();
                break;
            case Role::approach:
                approach(0);
                break;
            case Role::fifth:
                fifth(0);
                break;
            case Role::fifth_or_approach:
                fifth(0);
                approach(1);
                break;
            case Role::root_or_fifth:
                bass(chance_.of(2).below(2));
                fifth(0);
                break;
            case Role::skip:
                skip();
                break;
            case Role::lead:
                lead();
                break;
            case Role::anticipation:
                pitches_.allow(next_->tones->bass, 0);
                break;
            case Role::home:
                pitches_.allow(outlook_.home, 0);
                break;
        }
        return pitches_;
    }

  private:
    [[nodiscard]] const BassTones& tones() const { return *now_.tones; }

    void bass(int cost) { pitches_.allow(tones().bass, cost); }

    void fifth(int cost) {
        // Without a fifth, or with the fifth in the bass, it is the root's turn.
        const int root = tones().root;
        const int other = tones().fifth.value_or(root);
        pitches_.allow(other == tones().bass ? root : other, cost);
    }

    /// The root; seldom, where the chord lasts and nobody waits for its root, the third or fifth.
    void start() {
        bass(0);
        const bool slash = tones().bass != tones().root;
        const bool first = place_.change == 0 || now_.from == Ticks(0) ||
                           !outlook_.changes[place_.change - 1].tones || place_.kick;
        const bool lasts = now_.to - now_.from >= outlook_.meter.bar();
        const bool wished = chance_.of(3).below(unmoved + 1) == 0;
        if (slash || first || !lasts || !wished || !walks_) return;
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

    void each_scale_tone(int cost) {
        for (int tone = 0; tone < 12; ++tone) {
            if (now_.scale.has(tone) && !tones().chord.has(tone)) {
                pitches_.allow(tone, cost, by_step, by_step_or_third);
            }
        }
    }

    void downbeat() {
        each_tone(0, 1, 3);
        const int wish = chance_.of(4).below(4);
        if (wish == 0 && tones().third) pitches_.allow(*tones().third, -3);
        if (wish == 1 && tones().fifth) pitches_.allow(*tones().fifth, -3);
    }

    void strong() {
        each_tone(3, 0, 1);
        each_scale_tone(foreign_strong);
    }

    void weak() {
        each_tone(2, 0, 1);
        each_scale_tone(chance_.of(5).below(wishes));  // a bar of scale, or of broken chord
        for (int tone = 0; tone < 12; ++tone) {
            if (!now_.scale.has(tone)) pitches_.allow(tone, chromatic, by_semitone, by_step);
        }
    }

    void skip() {
        bass(1);
        each_tone(1, 0, 2);
    }

    void lead() {
        fifth(2);
        pitches_.allow(next_->tones->bass, 0);
        approach(2);
    }

    void approach(int cost) {
        const int target = next_->tones->bass;
        const auto favourite = static_cast<Way>(chance_.of(6 + place_.change).below(ways));
        const auto way = [&](Way one, int tone, int own_cost) {
            const int rub = rubs(tone, target, tones(), *next_->tones) ? 5 : 0;
            const int other = one == favourite ? 0 : another_way;
            pitches_.allow(tone, cost + own_cost + rub + other, by_step_or_fifth);
        };
        for (const auto& [one, away] : {std::pair(Way::below, 11), std::pair(Way::above, 1)}) {
            const int tone = (target + away) % 12;
            way(one, tone, now_.scale.has(tone) ? 0 : 2);
        }
        for (const int away : {2, 10}) {
            const int tone = (target + away) % 12;
            if (tones().contradicted.has(tone) && next_->tones->contradicted.has(tone)) continue;
            if (now_.scale.has(tone)) way(Way::step, tone, tones().chord.has(tone) ? 0 : 1);
            if (next_->scale.has(tone)) way(Way::step, tone, 3);
        }
        const int above = (target + 7) % 12;
        way(Way::fifth, above, tones().chord.has(above) ? 1 : now_.scale.has(above) ? 3 : 6);
        const int below = (target + 5) % 12;
        if (tones().chord.has(below)) way(Way::fifth, below, 3);
    }

  public:
    bool walks_ = true;

  private:
    const Place& place_;
    const Change& now_;
    const Change* next_;
    const Outlook& outlook_;
    Chance chance_;
    Pitches pitches_;
};

int register_cost(int note, int height, bool walks) {
    const int away = std::abs(note - height);
    int cost = std::min(away * away / (walks ? 6 : 10), 40);
    if (note < settled_low.number()) cost += unsettled * (settled_low.number() - note);
    if (note > settled_high.number()) cost += unsettled * (note - settled_high.number());
    return cost;
}

}  // namespace

Contour::Contour(Chance chance, int start, Ticks length) {
    static constexpr int shortest = 6;  // beats one way
    static constexpr int more = 7;      // and chance adds 0 to 6
    static constexpr int lowest = settled_low.number();
    static constexpr int highest = settled_high.number() - 1;
    static constexpr int spread = 6;
    points_.push_back({Ticks(0), std::clamp(start, lowest, highest)});
    bool up = 2 * start < lowest + highest;
    for (int i = 0; points_.back().at < length; ++i) {
        const auto turn = chance.of(static_cast<std::uint64_t>(i));
        const Ticks at =
            points_.back().at + time::quarter_note * (shortest + turn.of(0).below(more));
        const int inwards = turn.of(1).below(spread);
        points_.push_back({at, up ? highest - inwards : lowest + inwards});
        up = !up;
    }
}

int Contour::at(Ticks position) const {
    const auto after = std::find_if(points_.begin(), points_.end(),
                                    [&](const Point& point) { return point.at > position; });
    if (after == points_.end()) return points_.back().height;
    const auto& to = *after;
    const auto& from = *(after - 1);
    const auto share = (position - from.at).count() * (to.height - from.height);
    return from.height + static_cast<int>(share / (to.at - from.at).count());
}

Step step_of(const Place& place, const Outlook& outlook, chart::Bass style, int height,
             Chance chance, int stirred) {
    const bool walks = style == chart::Bass::walking;
    const bool roots = style == chart::Bass::roots;
    Chooser chooser(place, outlook, chance);
    chooser.walks_ = walks;
    const auto pitches = chooser.choose();
    const auto own = chance.of(static_cast<std::uint64_t>(place.at.count()) + 100);
    const int most = wishes + stir * stirred;
    const int shift = chance.of(99).below(6 * stirred + 1) - 3 * stirred;
    const int aim = walks ? std::clamp(height + shift, settled_low.number(), settled_high.number())
                          : two_feel_height;
    const bool whole_range = stirred > 0 || place.is_given() || !walks;
    const int view = whole_range ? octave_and_more : in_view;
    Step step;
    step.walks = walks;
    step.repeats = roots || (!walks && place.again);
    step.stays = roots;
    step.choices = pitches.notes(aim - view, aim + view, [&](int note) {
        return own.of(static_cast<std::uint64_t>(note)).below(most) +
               register_cost(note, aim, walks);
    });
    return step;
}

}  // namespace compline::band
