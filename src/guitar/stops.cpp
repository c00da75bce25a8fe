#include "stops.hpp"

#include <compline/chart/pins.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <map>
#include <memory>
#include <string>
#include <tuple>
#include <utility>

namespace compline::guitar {

namespace {

using chart::DueChange;
using harmony::Palette;

constexpr int long_chord_bars = 2;

/// Chords that may have the same grips.
using PaletteKey = std::tuple<std::string, bool, bool, bool, bool>;

PaletteKey key_of(const DueChange& change) {
    const auto& around = change.around;
    return {change.to.symbol(), around.falls, around.tonic_minor, around.blues, around.two_beats};
}

class Stocking {
  public:
    Stocking(const chart::Form& form, chart::Passage passage, time::Bpm tempo,
             const Fretboard& fretboard, const VoicingWishes& wishes)
        : form_(form), passage_(passage), tempo_(tempo), fretboard_(fretboard), wishes_(wishes) {}

    Tune stock() {
        for (const auto& change : chart::due_changes(form_, chart::Route::of(passage_, 1))) {
            add(change);
        }
        for (std::size_t i = 0; i < tune_.chords.size(); ++i) tune_.stops.push_back(stop(i));
        return std::move(tune_);
    }

  private:
    void add(const DueChange& change) {
        const auto bar = form_.chart.meter.bar();
        const Palette palette(change.to, change.around, wishes_.strictness);
        tune_.chords.push_back({change, palette});
        if (!wishes_.long_chords_move || change.length < bar * long_chord_bars) return;
        // From the next bar line on, a piece a bar.
        const auto end = change.in_form + change.length;
        const auto& first = form_.bar(change.bar);
        tune_.chords.back().change.length = first.start + bar - change.in_form;
        for (auto at = first.start + bar; at < end; at += bar) {
            ToVoice item{change, palette, true};
            item.change.bar = change.bar + static_cast<int>((at - first.start) / bar);
            item.change.beat = 1;
            item.change.section = form_.bar(item.change.bar).section;
            item.change.at += at - change.in_form;
            item.change.in_form = at;
            item.change.from = change.to;
            item.change.length = std::min(bar, end - at);
            tune_.chords.push_back(item);
        }
    }

    [[nodiscard]] Stop stop(std::size_t i) {
        Stop stop;
        stop.candidates = candidates(tune_.chords[i]);
        for (std::uint32_t id = 0; id < stop.candidates->size(); ++id) stop.ids.push_back(id);
        stop.haste = haste(time_left(i));
        return stop;
    }

    /// From the change before to this one; for the first, round the loop.
    [[nodiscard]] time::Seconds time_left(std::size_t i) const {
        const auto round = form_.chart.meter.bar() * passage_.bars();
        const auto before =
            i > 0 ? tune_.chords[i - 1].change.at : tune_.chords.back().change.at - round;
        return tempo_.beat() * time::Beats(tune_.chords[i].change.at - before).count();
    }

    [[nodiscard]] std::shared_ptr<const Candidates> candidates(ToVoice& item) {
        if (const auto* pin = chart::pin_for(form_, item.change.bar, item.change.to)) {
            item.pinned = true;
            return pinned(item, *pin);
        }
        auto& known = known_[key_of(item.change)];
        if (!known) known = std::make_shared<const Candidates>(finder_.find(item.palette));
        if (known->size() == 0) throw PlanningError(nothing_for(item));
        return known;
    }

    [[nodiscard]] std::shared_ptr<const Candidates> pinned(const ToVoice& item,
                                                           const chart::Pin& pin) {
        const auto shape = Shape::of(pin.frets);
        const auto refuse = [&](const std::string& why) {
            throw PlanningError(fmt::format("{}, {}: the chart asks for {}, {}",
                                            place_name(item.change), item.change.to.symbol(),
                                            shape.text(), why));
        };
        if (shape.strings != fretboard_.strings()) {
            refuse(fmt::format("which has {} strings; the guitar has {}", shape.strings,
                               fretboard_.strings()));
        }
        for (const auto& place : shape.places()) {
            if (place.fret > fretboard_.frets()) {
                refuse(fmt::format("but there is no fret {}; the highest is {}", place.fret,
                                   fretboard_.frets()));
            }
        }
        if (!is_right(fretboard_, shape, item.palette)) refuse(wrong_with(shape, item.palette));
        auto candidates = finder_.fingerings(item.palette, shape);
        if (candidates.size() == 0) refuse("which no hand can hold");
        return std::make_shared<const Candidates>(std::move(candidates));
    }

    [[nodiscard]] std::string wrong_with(const Shape& shape, const Palette& palette) const {
        harmony::PitchClasses sounding;
        for (const auto& place : shape.places()) {
            sounding.set(static_cast<std::size_t>(fretboard_.note(place).pitch_class()));
        }
        const auto foreign = palette.foreign(sounding);
        for (int tone = 0; tone < 12; ++tone) {
            if (!foreign[static_cast<std::size_t>(tone)]) continue;
            return fmt::format("in which {} does not belong", palette.name(tone).name());
        }
        const auto missing = palette.missing(sounding);
        if (missing.empty()) return "which does not tell it from other chords";
        return fmt::format("which lacks the {}",
                           missing.front().name(harmony::Accidentals::symbols));
    }

    /// What stands in the way of a chord: the wish without which there would be a grip.
    [[nodiscard]] std::string nothing_for(const ToVoice& item) const {
        const auto what = fmt::format("{}, {}: no hand can play what the chord needs",
                                      place_name(item.change), item.change.to.symbol());
        struct Wish {
            const char* words;
            void (*loosen)(VoicingWishes&);
        };
        static constexpr std::array<Wish, 7> looser = {{
            {"on other strings (strings)", [](VoicingWishes& w) { w.strings.clear(); }},
            {"in another style (style)", [](VoicingWishes& w) { w.style = VoicingStyle::mixed; }},
            {"with fingers in place of a pick (right hand)",
             [](VoicingWishes& w) { w.right_hand = RightHand::fingers; }},
            {"with open strings", [](VoicingWishes& w) { w.open_strings = true; }},
            {"on other strings in another style (strings, style)",
             [](VoicingWishes& w) {
                 w.strings.clear();
                 w.style = VoicingStyle::mixed;
             }},
            {"as a working comper would play it (strictness)",
             [](VoicingWishes& w) { w.strictness = harmony::Strictness::working; }},
            {"when several of your wishes go (strings, style, right hand, strictness, open "
             "strings)",
             [](VoicingWishes& w) {
                 w = VoicingWishes();
                 w.right_hand = RightHand::fingers;
                 w.open_strings = true;
             }},
        }};
        for (const auto& [words, loosen] : looser) {
            VoicingWishes wishes = wishes_;
            loosen(wishes);
            const Palette palette(item.change.to, item.change.around, wishes.strictness);
            if (Finder(fretboard_, wishes).find(palette).size() > 0) {
                return fmt::format("{} as you ask for it; there are grips {}", what, words);
            }
        }
        return fmt::format("{} in this tuning, whatever you ask for", what);
    }

    const chart::Form& form_;
    chart::Passage passage_;
    time::Bpm tempo_;
    const Fretboard& fretboard_;
    const VoicingWishes& wishes_;
    Finder finder_{fretboard_, wishes_};
    std::map<PaletteKey, std::shared_ptr<const Candidates>> known_;
    Tune tune_;
};

}  // namespace

std::string place_name(const DueChange& change) {
    return change.beat == 1 ? fmt::format("bar {}", change.bar)
                            : fmt::format("bar {} beat {:g}", change.bar, change.beat);
}

Tune stops_of(const chart::Form& form, chart::Passage passage, time::Bpm tempo,
              const Fretboard& fretboard, const VoicingWishes& wishes) {
    return Stocking(form, passage, tempo, fretboard, wishes).stock();
}

}  // namespace compline::guitar
