#include "right_hand.hpp"

#include <algorithm>

namespace compline::simulate {

namespace {

using guitar::Shape;
using time::Seconds;
using time::Ticks;

constexpr Seconds let_go{0.030};

class StrummingHand {
  public:
    StrummingHand(const Road& road, const Habits& habits, const Intents& intents, Chance& chance)
        : road_(road), habits_(habits), intents_(intents), chance_(chance) {}

    Strokes play() {
        auto stray = intents_.strays.begin();
        for (std::size_t i = 0; i < intents_.chords.size(); ++i) {
            if (stray != intents_.strays.end() && i == stray->first) {
                for (const auto& chord : stray->played) play(chord, std::nullopt);
                i = stray->last;
                ++stray;
                continue;
            }
            play(intents_.chords[i], i);
        }
        return std::move(strokes_);
    }

  private:
    void play(const Intent& chord, std::optional<std::size_t> change) {
        const auto due = road_.time_of(chord.area.start);
        cut_if_nothing_lands(chord, due);
        cut_at_silence(chord);
        if (!chord.entry) return;
        auto own = rhythm(chord, change);
        if (own.empty()) return;
        add_gesture(road_, chord, own, chance_);
        make_room(own.front());
        strokes_.all.insert(strokes_.all.end(), own.begin(), own.end());
    }

    /// What is not followed by the new chord on the beat is let go there.
    void cut_if_nothing_lands(const Intent& chord, Seconds due) {
        const bool rings_on = chord.deed == Deed::missed || chord.old_rings_on;
        const bool lands = chord.entry && *chord.entry <= Ticks(0) && chord.off <= Seconds(0);
        if (lands || rings_on) return;
        // Who lays out has let go before; who comes in later takes the hand off on the beat.
        strokes_.cuts.push_back(chord.entry ? due + habits_.overlap * 0.75 : due - let_go);
    }

    void cut_at_silence(const Intent& chord) {
        const auto& all = intents_.chords;
        const auto next = std::find_if(all.begin(), all.end(), [&](const Intent& other) {
            return other.area.start >= chord.area.until;
        });
        const bool silence = next == all.end() || next->area.after_nothing;
        if (silence) strokes_.cuts.push_back(road_.time_of(chord.area.until));
    }

    std::vector<HandStroke> rhythm(const Intent& chord, std::optional<std::size_t> change) {
        std::vector<HandStroke> own;
        const auto entry = chord.area.start + *chord.entry;
        put(own, entry, Beat::What::grip, chord, true);
        own.back().off = chord.off;
        own.back().exact = chord.off != Seconds(0);
        if (chord.deed != Deed::missed) own.back().lands = change;
        const auto landed = time_of(own.back());
        for (const auto& one :
             rhythm_of(habits_.comping, road_.meter_of(chord.area), chord.area, chord.filled)) {
            if (one.at <= entry && one.what == Beat::What::grip) continue;
            if (road_.time_of(one.at) < landed + hands_need(road_, one.at)) continue;
            put(own, one.at, one.what, chord, false);
        }
        return own;
    }

    void put(std::vector<HandStroke>& own, Ticks at, Beat::What what, const Intent& chord,
             bool first) {
        HandStroke stroke;
        stroke.at = at;
        const Shape grip = grip_at(at, chord, first);
        const bool spoilt = chord.deed && is_mistake(*chord.deed);
        switch (what) {
            case Beat::What::grip:
                stroke.shape = grip;
                break;
            case Beat::What::upper_strings:
                stroke.shape = without_lowest(grip);
                break;
            case Beat::What::bass:
            case Beat::What::fifth:
                stroke.shape = lowest_of(grip, chord.area.chord, what == Beat::What::fifth);
                stroke.kind = HandStroke::Kind::single;
                break;
            case Beat::What::fill:
            case Beat::What::melody: {
                const bool two = what == Beat::What::fill && chance_.below(3) == 0;
                const auto fill = fill_near(chord.area.chord, *chord.grip, two, chance_);
                if (spoilt || !fill) return;
                stroke.shape = *fill;
                stroke.kind = HandStroke::Kind::single;
                break;
            }
        }
        own.push_back(stroke);
    }

    /// What the left hand holds: the spoilt grip, the plan's, or the chord's own.
    Shape grip_at(Ticks at, const Intent& chord, bool first) const {
        const bool spoilt = !chord.slip.shape.places().empty() && chord.deed &&
                            is_mistake(*chord.deed) && (first || !chord.mended);
        if (spoilt) return chord.slip.shape;
        if (at <= chord.area.start) return *chord.grip;
        return road_.planned(habits_, at).value_or(*chord.grip);
    }

    static Shape without_lowest(const Shape& grip) {
        Shape upper = grip;
        upper.on(grip.places().front().string).reset();
        return upper;
    }

    /// The root under a grip, or its fifth on the next string where that is plain.
    static Shape lowest_of(const Shape& grip, const harmony::Chord& chord, bool fifth) {
        const auto root = grip.places().front();
        Shape bass;
        bass.on(root.string) = root.fret;
        const bool plain = frame_of(chord).fifth == 7 && sounds_of(chord).test(7);
        if (!fifth || !plain || root.string < 5) return bass;
        bass.on(root.string).reset();
        bass.on(root.string == 5 ? 6 : 5) = root.string == 5 ? root.fret : root.fret + 2;
        return bass;
    }

    /// What was meant for about the same moment is not played, unless a chord lands there.
    void make_room(const HandStroke& first) {
        auto& all = strokes_.all;
        const auto from = time_of(first) - hands_need(road_, first.at);
        while (!all.empty() && !all.back().lands && time_of(all.back()) > from) all.pop_back();
    }

    [[nodiscard]] Seconds time_of(const HandStroke& stroke) const {
        return simulate::time_of(road_, stroke);
    }

    const Road& road_;
    const Habits& habits_;
    const Intents& intents_;
    Chance& chance_;
    Strokes strokes_;
};

}  // namespace

Seconds time_of(const Road& road, const HandStroke& stroke) {
    return road.time_of(stroke.at) + stroke.off;
}

Seconds hands_need(const Road& road, Ticks at) { return road.beat_at(at) * 0.4; }

Strokes strokes_of(const Road& road, const Habits& habits, const Intents& intents, Chance& chance) {
    return StrummingHand(road, habits, intents, chance).play();
}

}  // namespace compline::simulate
