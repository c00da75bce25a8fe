#include "hand_rules.hpp"

#include <array>
#include <map>
#include <set>
#include <vector>

namespace compline::tests {

namespace {

using guitar::Finger;

struct Tip {  // a finger's place: which strings, and the fret as counted from the nut
    std::set<int> strings;
    int fret = 0;
};

int number_of(Finger finger) { return static_cast<int>(finger); }

class Look {
  public:
    Look(const guitar::Grip& grip, const guitar::Fretboard& fretboard, const guitar::Hands& hands)
        : grip_(grip), fretboard_(fretboard), hands_(hands) {
        for (int string = 1; string <= grip.shape.strings; ++string) {
            const auto fret = grip.shape.frets.at(static_cast<std::size_t>(string - 1));
            if (!fret) continue;
            sounding_[string] = *fret;
            if (*fret == 0) continue;
            auto& tip = tips_[grip.fingers.at(static_cast<std::size_t>(string - 1))];
            tip.strings.insert(string);
            tip.fret = *fret + fretboard.capo();
        }
    }

    std::string fault() const {
        if (sounding_.empty()) return "nothing sounds";
        for (const auto& [string, fret] : sounding_) {
            const auto finger = grip_.fingers.at(static_cast<std::size_t>(string - 1));
            if (fret > fretboard_.frets()) return "beyond the last fret";
            if ((fret > 0) != (finger != Finger::none)) return "a string without its finger";
            if (fret > 0 && fret + fretboard_.capo() != tips_.at(finger).fret) {
                return "one finger on two frets";
            }
        }
        if (const auto why = span(); !why.empty()) return why;
        if (const auto why = neighbours(); !why.empty()) return why;
        if (const auto why = barres(); !why.empty()) return why;
        if (const auto why = thumb(); !why.empty()) return why;
        return right_hand();
    }

  private:
    std::string span() const {
        if (tips_.empty()) return "";
        int low = 99;
        int high = 0;
        for (const auto& [finger, tip] : tips_) {
            low = std::min(low, tip.fret);
            high = std::max(high, tip.fret);
        }
        const int most = low < 5 ? 3 : 4;
        return high - low > most ? "a span of " + std::to_string(high - low) : "";
    }

    std::string neighbours() const {
        for (const auto& [lower, a] : tips_) {
            for (const auto& [higher, b] : tips_) {
                if (lower >= higher || higher == Finger::thumb) continue;
                if (b.fret < a.fret) return "fingers that cross";
                int reach = 0;
                for (int n = number_of(lower); n < number_of(higher); ++n) {
                    reach += n == 1 || a.fret > 7 ? 2 : 1;
                }
                if (b.fret - a.fret > reach) return "fingers too far apart";
            }
        }
        return "";
    }

    std::string barres() const {
        for (const auto& [finger, tip] : tips_) {
            if (tip.strings.size() < 2) continue;
            if (finger == Finger::thumb) return "a thumb on two strings";
            const int first = *tip.strings.begin();
            const int last = *tip.strings.rbegin();
            if (finger != Finger::index && last - first + 1 > 3) return "too long a barre";
            for (int string = first; string <= last; ++string) {
                const auto fret = sounding_.find(string);
                if (fret == sounding_.end()) {
                    if (finger != Finger::index || hands_.right == guitar::RightHand::pick) {
                        return "a barre over a muted string";
                    }
                } else if (fret->second + fretboard_.capo() < tip.fret) {
                    return "a barre over what lies lower";
                } else if (finger != Finger::index && tip.strings.count(string) == 0) {
                    return "another finger within a barre";
                }
            }
        }
        return "";
    }

    std::string thumb() const {
        const auto thumb = tips_.find(Finger::thumb);
        if (thumb == tips_.end()) return "";
        if (!hands_.thumb) return "a thumb that nobody asked for";
        if (*thumb->second.strings.begin() != grip_.shape.strings) return "a thumb within";
        int low = 99;
        for (const auto& [finger, tip] : tips_) {
            if (finger != Finger::thumb) low = std::min(low, tip.fret);
        }
        if (low == 99) return "a thumb alone";
        return std::abs(thumb->second.fret - low) > 1 ? "a thumb too far away" : "";
    }

    std::string right_hand() const {
        if (hands_.right == guitar::RightHand::fingers) return "";
        int muted = 0;
        for (int string = sounding_.begin()->first; string < sounding_.rbegin()->first; ++string) {
            if (sounding_.count(string) > 0) continue;
            ++muted;
            const auto held = [&](int beside) {
                const auto found = sounding_.find(beside);
                return found != sounding_.end() && found->second > 0;
            };
            if (!held(string - 1) && !held(string + 1)) return "a muted string that rings";
        }
        return muted > 1 ? "two strings to be left out" : "";
    }

    const guitar::Grip& grip_;
    const guitar::Fretboard& fretboard_;
    const guitar::Hands& hands_;
    std::map<int, int> sounding_;  // string to fret
    std::map<Finger, Tip> tips_;
};

}  // namespace

std::string fault_of(const guitar::Grip& grip, const guitar::Fretboard& fretboard,
                     const guitar::Hands& hands) {
    return Look(grip, fretboard, hands).fault();
}

}  // namespace compline::tests
