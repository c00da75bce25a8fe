#include <compline/guitar/hand.hpp>

#include <algorithm>
#include <array>
#include <cstddef>

namespace compline::guitar {

namespace {

constexpr int low_frets = 5;      // below it frets are wide
constexpr int narrow_above = 7;   // frets
constexpr int longest_barre = 3;  // strings under a finger other than the index
constexpr int most_fretted = 6;   // of the strings that sound

/// How far a finger reaches beyond its lower neighbour, where the lowest of them is on fret `from`.
int reach(Finger lower, int from) { return lower == Finger::index || from > narrow_above ? 2 : 1; }

/// Assigns fingers to the fretted strings of a shape one by one, from the lowest string on.
class Fingering {
  public:
    Fingering(const Shape& shape, const Hands& hands, int capo)
        : shape_(shape), hands_(hands), capo_(capo) {
        for (const auto& place : shape.places()) {
            if (place.fret > 0) places_.push_back(place);
        }
    }

    std::vector<Grip> all() {
        grip_.shape = shape_;
        if (places_.size() <= std::size_t{most_fretted} && spans_hand()) assign(0);
        return std::move(found_);
    }

  private:
    [[nodiscard]] bool spans_hand() const {
        if (places_.empty()) return true;
        const auto [low, high] = std::minmax_element(
            places_.begin(), places_.end(),
            [](const StringAndFret& a, const StringAndFret& b) { return a.fret < b.fret; });
        return high->fret - low->fret <= widest_span(low->fret, capo_);
    }

    [[nodiscard]] Finger& on(int string) {
        return grip_.fingers[static_cast<std::size_t>(string - 1)];
    }

    void assign(std::size_t i) {
        if (i == places_.size()) {
            if (holds()) found_.push_back(grip_);
            return;
        }
        const auto& place = places_[i];
        for (int n = 1; n <= 4; ++n) {
            const auto finger = static_cast<Finger>(n);
            if (!agrees(finger, place.fret, i)) continue;
            on(place.string) = finger;
            assign(i + 1);
        }
        if (hands_.thumb && place.string == shape_.strings) {
            on(place.string) = Finger::thumb;
            assign(i + 1);
        }
        on(place.string) = Finger::none;
    }

    /// With the fingers that are down already: none crosses another between frets, and neighbours
    /// stay within reach.
    [[nodiscard]] bool agrees(Finger finger, int fret, std::size_t count) const {
        for (std::size_t i = 0; i < count; ++i) {
            const auto other = grip_.on(places_[i].string);
            if (other == Finger::thumb) continue;
            const int other_fret = places_[i].fret;
            if (other == finger ? other_fret != fret : !in_order(finger, fret, other, other_fret))
                return false;
        }
        return true;
    }

    [[nodiscard]] bool in_order(Finger a, int a_fret, Finger b, int b_fret) const {
        if (a > b) return in_order(b, b_fret, a, a_fret);
        if (b_fret < a_fret) return false;
        int furthest = a_fret + capo_;
        for (auto lower = a; lower < b; lower = static_cast<Finger>(static_cast<int>(lower) + 1)) {
            furthest += reach(lower, a_fret + capo_);
        }
        return b_fret + capo_ <= furthest;
    }

    [[nodiscard]] bool holds() const {
        const auto holds = grip_.holds();
        int low = 99;
        for (const auto& hold : holds) {
            if (hold.finger == Finger::thumb) continue;
            low = std::min(low, hold.fret);
            if (hold.is_barre() && !can_lie(hold)) return false;
        }
        if (holds.empty() || holds.back().finger != Finger::thumb) return true;
        const int thumb = holds.back().fret;
        return low < 99 && thumb >= low - 1 && thumb <= low + 1;
    }

    /// A finger across strings presses all of them. Those higher up within are the index's alone to
    /// allow; a muted one within would sound, unless the right hand leaves it out.
    [[nodiscard]] bool can_lie(const Grip::Hold& barre) const {
        const bool index = barre.finger == Finger::index;
        if (!index && barre.low - barre.high >= longest_barre) return false;
        for (int string = barre.high; string <= barre.low; ++string) {
            const auto& fret = shape_.on(string);
            if (!fret) {
                if (!index || hands_.right == RightHand::pick) return false;
            } else if (*fret < barre.fret || (!index && grip_.on(string) != barre.finger)) {
                return false;
            }
        }
        return true;
    }

    const Shape& shape_;
    Hands hands_;
    int capo_;
    std::vector<StringAndFret> places_;
    Grip grip_;
    std::vector<Grip> found_;
};

}  // namespace

int widest_span(int lowest_fret, int capo) { return lowest_fret + capo < low_frets ? 3 : 4; }

bool can_strike(const Shape& shape, RightHand hand) {
    if (hand == RightHand::fingers) return true;
    int muted = 0;         // within
    int since_struck = 0;  // strings left out since the last that sounds
    bool struck = false;
    for (int string = 1; string <= shape.strings; ++string) {
        if (!shape.on(string)) {
            since_struck += struck ? 1 : 0;
            continue;
        }
        if (since_struck > 1) return false;
        if (since_struck == 1) {
            ++muted;
            const bool touched =
                shape.on(string).value_or(0) > 0 || shape.on(string - 2).value_or(0) > 0;
            if (!touched || muted > 1) return false;
        }
        struck = true;
        since_struck = 0;
    }
    return true;
}

std::vector<Grip> fingerings(const Shape& shape, const Hands& hands, int capo) {
    return Fingering(shape, hands, capo).all();
}

}  // namespace compline::guitar
