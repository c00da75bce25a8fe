#include "candidates.hpp"
#include "to_voice.hpp"

#include <compline/guitar/near_grips.hpp>

#include <algorithm>
#include <functional>
#include <map>
#include <string>
#include <tuple>
#include <utility>

namespace compline::guitar {

namespace {

using StringSet = std::vector<int>;

void add_strings(const Shape& shape, StringSet& strings) {
    for (const auto& place : shape.places()) {
        if (std::find(strings.begin(), strings.end(), place.string) == strings.end()) {
            strings.push_back(place.string);
        }
    }
    std::sort(strings.begin(), strings.end(), std::greater<>());
}

/// Grips on some strings. Where it stands it stays: the finder refers to its wishes.
struct FinderOnStrings {
    FinderOnStrings(const Fretboard& fretboard, VoicingWishes wishes)
        : wished(std::move(wishes)), finder(fretboard, wished) {}
    VoicingWishes wished;
    GripFinder finder;
};

}  // namespace

class NearGrips::Nearby {
  public:
    Nearby(const chart::Form& form, chart::Passage passage, Fretboard fretboard,
           VoicingWishes wishes)
        : fretboard_(std::move(fretboard)),
          wishes_(std::move(wishes)),
          chords_(chords_to_voice(form, passage, wishes_)) {}

    std::optional<Grip> nearest(time::Ticks in_form, const Grip& from, const Grip& instead) {
        const auto item = std::find_if(chords_.begin(), chords_.end(), [&](const ToVoice& chord) {
            return chord.change.in_form == in_form && !chord.goes_on;
        });
        if (item == chords_.end()) return std::nullopt;
        return cheapest(candidates(*item, strings_for(from, instead)), *item,
                        pack(fretboard_, from));
    }

  private:
    [[nodiscard]] StringSet strings_for(const Grip& from, const Grip& instead) const {
        if (!wishes_.strings.empty()) return wishes_.strings;
        auto strings = usual_strings(wishes_.style, fretboard_.strings());
        add_strings(from.shape, strings);
        add_strings(instead.shape, strings);
        return strings;
    }

    const Candidates& candidates(const ToVoice& item, const StringSet& strings) {
        const std::tuple key(item.change.to.symbol(), item.change.around, strings);
        const auto known = known_.find(key);
        if (known != known_.end()) return known->second;
        auto place = item.place;
        place.point = {};  // asked in each place
        return known_.emplace(key, on(strings).finder.find(item.palette, place)).first->second;
    }

    FinderOnStrings& on(const StringSet& strings) {
        auto& known = finders_[strings];
        if (known) return *known;
        auto wishes = wishes_;
        wishes.strings = strings;
        known = std::make_unique<FinderOnStrings>(fretboard_, std::move(wishes));
        return *known;
    }

    [[nodiscard]] static std::optional<Grip> cheapest(const Candidates& all, const ToVoice& item,
                                                      const PackedGrip& from) {
        const auto point = static_cast<ToneBits>(item.place.point.to_ulong());
        WayIn way_in;
        way_in.news = point != 0;
        std::optional<std::uint32_t> best;
        Cost least = 0;
        for (std::uint32_t id = 0; id < all.size(); ++id) {
            const bool hides = point != 0 && (all.tones(id) & point) == 0;
            const Cost cost = all.cost(id) + packed_reach(from, all.packed(id), way_in) +
                              (hides ? weight::hidden : 0);
            if (best && least <= cost) continue;
            best = id;
            least = cost;
        }
        if (!best) return std::nullopt;
        return all.grip(*best);
    }

    Fretboard fretboard_;
    VoicingWishes wishes_;
    std::vector<ToVoice> chords_;
    std::map<StringSet, std::unique_ptr<FinderOnStrings>> finders_;
    std::map<std::tuple<std::string, harmony::Surroundings, StringSet>, Candidates> known_;
};

NearGrips::NearGrips(const chart::Form& form, chart::Passage passage, const Fretboard& fretboard,
                     const VoicingWishes& wishes)
    : nearby_(std::make_unique<Nearby>(form, passage, fretboard, wishes)) {}

NearGrips::~NearGrips() = default;

std::optional<Grip> NearGrips::nearest(time::Ticks in_form, const Grip& from, const Grip& instead) {
    return nearby_->nearest(in_form, from, instead);
}

}  // namespace compline::guitar
