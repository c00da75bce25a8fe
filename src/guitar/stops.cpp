#include "stops.hpp"

#include "guide_line.hpp"
#include "refusals.hpp"
#include "to_voice.hpp"

#include <compline/chart/pins.hpp>
#include <compline/guitar/pinning.hpp>
#include <compline/text/bad_input.hpp>

#include <fmt/format.h>

#include <map>
#include <memory>
#include <optional>
#include <string>
#include <tuple>
#include <utility>

namespace compline::guitar {

namespace {

/// Chords that may have the same grips.
using PaletteKey = std::pair<std::string, harmony::Surroundings>;

PaletteKey key_of(const ToVoice& item) { return {item.change.to.symbol(), item.change.around}; }

VoicingWishes settled(VoicingWishes wishes, const Fretboard& fretboard) {
    if (wishes.strings.empty()) {
        wishes.strings = usual_strings(wishes.style, fretboard.strings());
    }
    return wishes;
}

VoicingWishes on_all_strings(VoicingWishes wishes) {
    wishes.strings.clear();
    return wishes;
}

class StopMaker {
  public:
    StopMaker(const chart::Form& form, time::Bpm tempo, const Fretboard& fretboard,
              const VoicingWishes& wishes, WorkCount* work)
        : form_(form),
          tempo_(tempo),
          fretboard_(fretboard),
          wishes_(wishes),
          settled_(settled(wishes, fretboard)),
          anywhere_(on_all_strings(wishes)),
          work_(work) {}

    Tune stops_of(chart::Passage passage) {
        round_ = form_.length(passage);
        tune_.chords = chords_to_voice(form_, passage, wishes_);
        mark_pins();
        draw_guide_line();
        const auto count = tune_.chords.size();
        for (std::size_t i = 0; i < count; ++i) {
            tune_.stops.push_back(stop(i));
            if (work_ != nullptr) work_->found(i + 1, count);
        }
        return std::move(tune_);
    }

  private:
    void mark_pins() {
        for (auto& item : tune_.chords) item.pinned = pin_of(item) != nullptr;
    }
    [[nodiscard]] const chart::Pin* pin_of(const ToVoice& item) const {
        return chart::pin_for(form_, item.change.bar, item.change.to);
    }

    void draw_guide_line() {
        const auto style = wishes_.style;
        const bool on_ladder = style == VoicingStyle::shells ||
                               style == VoicingStyle::guide_tones ||
                               style == VoicingStyle::one_colour;
        guides_on_ = on_ladder ? guide_strings(settled_.strings) : std::nullopt;
        if (!guides_on_) return;
        std::vector<harmony::Chord> chords;
        for (const auto& item : tune_.chords) chords.push_back(item.change.to);
        line_ = guide_line(chords, fretboard_, *guides_on_, wishes_.near_fret);
    }

    [[nodiscard]] Stop stop(std::size_t i) {
        Stop stop;
        stop.candidates = candidates(i);
        auto& all = all_[stop.candidates->size()];
        if (all.empty()) all = Ids::first(stop.candidates->size());
        stop.ids = all;
        stop.way_in = {haste(time_left(i)), tune_.chords[i].line,
                       tune_.chords[i].place.point.any()};
        return stop;
    }

    /// From the change before to this one; for the first, round the loop.
    [[nodiscard]] time::Seconds time_left(std::size_t i) const {
        const auto before =
            i > 0 ? tune_.chords[i - 1].change.at : tune_.chords.back().change.at - round_;
        return tempo_.beat() * time::Beats(tune_.chords[i].change.at - before).count();
    }

    using Shared = std::shared_ptr<const Candidates>;

    [[nodiscard]] Shared candidates(std::size_t i) {
        const auto& item = tune_.chords[i];
        if (const auto* pin = pin_of(item)) return pinned(item, *pin);
        if (wishes_.style == VoicingStyle::guide_tones && guides_on_) return guides(item, line_[i]);
        auto& known = known_[key_of(item)];
        if (!known) {
            known = std::make_shared<const Candidates>(find(item));
            keep(known->size(), WorkCount::bytes_a_grip);
        }
        if (known->size() == 0) {
            throw text::BadInput(nothing_for(item, tune_.chords, fretboard_, wishes_));
        }
        return in_place(known, item, line_.empty() ? nullptr : &line_[i]);
    }

    /// Where nobody asked for strings, a chord that the usual ones cannot hold takes all.
    [[nodiscard]] Candidates find(const ToVoice& item) {
        auto place = item.place;
        place.point = {};
        auto found = finder_.find(item.palette, place);
        if (found.size() > 0 || !wishes_.strings.empty()) return found;
        return GripFinder(fretboard_, anywhere_).find(item.palette, place);
    }

    [[nodiscard]] Shared guides(const ToVoice& item, const Shape& shape) {
        if (shape.places().empty()) {
            throw text::BadInput(no_guide_tones_for(item, tune_.chords, fretboard_, *guides_on_));
        }
        auto& known = guides_[{key_of(item), shape.text()}];
        if (!known) {
            known = std::make_shared<const Candidates>(
                finder_.fingerings(item.palette, item.place, shape));
        }
        return known;
    }

    /// The same grips, dearer where they hide the point of the change or leave the guide line.
    [[nodiscard]] Shared in_place(const Shared& all, const ToVoice& item, const Shape* line) {
        const auto point = static_cast<ToneBits>(item.place.point.to_ulong());
        auto& known = in_place_[{all.get(), point, line != nullptr ? line->text() : ""}];
        if (known) return known;
        std::optional<Candidates> dearer;
        for (std::uint32_t id = 0; id < all->size(); ++id) {
            Cost more = point != 0 && (all->tones(id) & point) == 0 ? weight::hidden : 0;
            if (line != nullptr) more += leaving(*line, *all, id);
            if (more == 0) continue;
            if (!dearer) dearer = *all;
            dearer->add_cost(id, more);
        }
        known = dearer ? std::make_shared<const Candidates>(std::move(*dearer)) : all;
        if (dearer) keep(all->size(), sizeof(Cost));
        return known;
    }

    void keep(std::size_t grips, std::size_t bytes) {
        if (work_ != nullptr) work_->keep(static_cast<std::int64_t>(grips * bytes));
    }

    [[nodiscard]] static Cost leaving(const Shape& line, const Candidates& all, std::uint32_t id) {
        Cost cost = 0;
        for (const auto& [string, fret] : line.places()) {
            if (all.fret(id, string) != fret) cost += weight::leaves_line;
        }
        return cost;
    }

    /// A pin overrides wishes: any string, the thumb, a right hand that leaves out strings.
    [[nodiscard]] Shared pinned(const ToVoice& item, const chart::Pin& pin) {
        const auto shape = Shape::of(pin.frets);
        if (const auto why = why_not_pinned(fretboard_, shape, item.palette)) {
            throw text::BadInput(fmt::format("{}, {}: the chart asks for {}, {}",
                                             place_name(item.change), item.change.to.symbol(),
                                             shape.text(), *why));
        }
        return std::make_shared<const Candidates>(
            finder_.fingerings(item.palette, item.place, shape));
    }

    const chart::Form& form_;
    time::Bpm tempo_;
    const Fretboard& fretboard_;
    const VoicingWishes& wishes_;
    VoicingWishes settled_;   ///< with the strings that they mean
    VoicingWishes anywhere_;  ///< on all strings
    WorkCount* work_;
    time::Ticks round_;  // of the passage
    GripFinder finder_{fretboard_, settled_};
    std::map<PaletteKey, Shared> known_;
    std::map<std::pair<PaletteKey, std::string>, Shared> guides_;
    std::map<std::tuple<const Candidates*, ToneBits, std::string>, Shared> in_place_;
    std::map<std::size_t, Ids> all_;
    std::optional<std::pair<int, int>> guides_on_;
    std::vector<Shape> line_;
    Tune tune_;
};

}  // namespace

Tune stops_of(const chart::Form& form, chart::Passage passage, time::Bpm tempo,
              const Fretboard& fretboard, const VoicingWishes& wishes, WorkCount* work) {
    return StopMaker(form, tempo, fretboard, wishes, work).stops_of(passage);
}

}  // namespace compline::guitar
