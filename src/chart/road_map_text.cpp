#include "road_map_part.hpp"

#include <compline/chart/road_map_text.hpp>
#include <compline/text/bad_input.hpp>
#include <compline/text/utf8.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cassert>
#include <utility>

namespace compline::chart {

namespace {

using PartKind = RoadMapPart::Kind;

constexpr int usual_intro = 4;
constexpr int bars_of_tag = 4;
constexpr int usual_tag_bars = 3;
constexpr int usual_rit = 2;
constexpr int most_tag = 100;

/// "1", "1 to 4".
std::string up_to(int most) { return most == 1 ? "1" : fmt::format("1 to {}", most); }

/// Puts the parts of a road map in a row, each where it may stand.
class WayBuilder {
  public:
    WayBuilder(const Form& form, std::string_view road_map) : form_(form), road_map_(road_map) {}

    void add(const RoadMapPart& part) {
        if (way_.held_ending) refuse(part, "nothing follows the held ending: put it last");
        switch (part.kind) {
            case PartKind::intro:
                add_intro(part);
                break;
            case PartKind::chorus:
                add_chorus(part);
                break;
            case PartKind::tag:
                add_tag(part);
                break;
            case PartKind::rit:
                add_rit(part);
                break;
            case PartKind::held_ending:
                add_held_ending(part);
                break;
        }
        before_ = part.kind;
    }

    [[nodiscard]] Way finish() {
        if (!has_chorus_) {
            throw text::bad_character(road_map_, road_map_.size(),
                                      "an intro and no chorus behind it: write one such as ; head");
        }
        return std::move(way_);
    }

  private:
    [[noreturn]] void refuse(const RoadMapPart& part, const std::string& words) const {
        throw text::bad_character(road_map_, part.position, words);
    }

    void add_intro(const RoadMapPart& part) {
        const int whole = form_.whole().to;
        const int bars = part.number.value_or(std::min(usual_intro, whole));
        if (before_) refuse(part, "an intro stands before everything else: put it first");
        if (bars < 1 || bars > whole) {
            refuse(part, fmt::format("an intro of {} bars: it is made of the last bars of the "
                                     "form, write {}",
                                     bars, up_to(whole)));
        }
        append(part, {{whole - bars + 1, whole}, "intro", part.manner, part.silent}, 1);
    }

    void add_chorus(const RoadMapPart& part) {
        has_chorus_ = true;
        Stretch chorus{part.passage.value_or(passage_of(part)), part.name, part.manner,
                       part.silent};
        chorus.until_cue = part.until_cue;
        chorus.a_tempo = part.a_tempo;
        append(part, chorus, part.times);
        if (part.al != RoadMapPart::Al::coda) return;
        Stretch coda = chorus;
        coda.name = "coda";
        coda.passage = {*form_.coda_from, form_.last_bar()};
        coda.a_tempo = false;
        append(part, coda, 1);
    }

    /// As the signs of the chart say.
    [[nodiscard]] Passage passage_of(const RoadMapPart& part) const {
        Passage passage = form_.whole();
        if (part.from == RoadMapPart::From::segno) {
            passage.from = sign(part, form_.segno, "segno", "segno: B");
        }
        if (part.al == RoadMapPart::Al::coda) {
            passage.to = sign(part, form_.to_coda, "to coda", "to coda: \"A:6\"");
        } else if (part.al == RoadMapPart::Al::fine) {
            passage.to = sign(part, form_.fine, "fine", "fine: \"A:8\"");
        }
        if (passage.from > passage.to) {
            refuse(part, fmt::format("from bar {} to bar {}, as the signs of the chart have it, "
                                     "there is nothing to play: let the segno stand before "
                                     "that bar, or write D.C.",
                                     passage.from, passage.to));
        }
        return passage;
    }

    [[nodiscard]] int sign(const RoadMapPart& part, std::optional<int> bar, const char* name,
                           const char* example) const {
        if (bar) return *bar;
        refuse(part, fmt::format("the chart has no {}: write one such as `{}` beside its form",
                                 name, example));
    }

    /// The stretch before it slows down at its end.
    void add_rit(const RoadMapPart& part) {
        if (!before_ || way_.stretches.empty() || before_ == PartKind::rit) {
            refuse(part, "a rit slows down the end of what stands before it: put it behind that");
        }
        auto& before = way_.stretches.back();
        const int bars = part.number.value_or(std::min(usual_rit, before.passage.bars()));
        if (bars < 1 || bars > before.passage.bars()) {
            refuse(part, fmt::format("a rit over {} bars: what stands before it has {}, write {}",
                                     bars, before.passage.bars(), up_to(before.passage.bars())));
        }
        before.rit = bars;
    }

    void add_tag(const RoadMapPart& part) {
        const int times = part.number.value_or(usual_tag_bars);
        if (before_ != PartKind::chorus) {
            refuse(part, "a tag plays the end of a chorus again: put it behind one");
        }
        if (times < 2 || times > most_tag) {
            refuse(part, fmt::format("a tag of {}: it counts how often the last four bars are "
                                     "played in all, write 2 to {}",
                                     times, most_tag));
        }
        Stretch tag = way_.stretches.back();
        tag.name = "tag";
        tag.rit = 0;
        tag.a_tempo = part.a_tempo;
        tag.passage.from = std::max(tag.passage.from, tag.passage.to - bars_of_tag + 1);
        tag.manner = tag.manner.with(part.manner);
        tag.silent = part.silent || (tag.silent && !part.manner.drums && !part.manner.bass);
        append(part, tag, times - 1);
    }

    void add_held_ending(const RoadMapPart& part) {
        if (!has_chorus_) refuse(part, "a held ending ends a chorus: put one before it");
        way_.held_ending = true;
    }

    void append(const RoadMapPart& part, const Stretch& stretch, int times) {
        bars_ += std::int64_t{stretch.passage.bars()} * times;
        if (bars_ > most_bars_of_a_road_map) {
            refuse(part,
                   fmt::format("here the road map passes {} bars, and that many are played at "
                               "most: ask for fewer times through",
                               most_bars_of_a_road_map));
        }
        way_.stretches.insert(way_.stretches.end(), static_cast<std::size_t>(times), stretch);
    }

    const Form& form_;
    std::string_view road_map_;
    Way way_;
    std::int64_t bars_ = 0;
    std::optional<PartKind> before_;
    bool has_chorus_ = false;
};

}  // namespace

Way read_road_map(const Form& form, std::string_view text) {
    assert(!form.bars.empty());
    if (text.find_first_not_of(" \n\r") == std::string_view::npos) {
        throw text::bad_character(
            text, 0,
            "the road map is empty: write what is played, such as head; solo x2; "
            "head");
    }
    WayBuilder way(form, text);
    for (std::size_t from = 0; from <= text.size();) {
        const std::size_t to = std::min(text.find(';', from), text.size());
        way.add(read_road_map_part(form, text, from, to));
        from = to + 1;
    }
    return way.finish();
}

std::optional<Way> own_road_map(const Form& form) {
    if (form.chart.road_map.empty()) return std::nullopt;
    return read_road_map(form, form.chart.road_map);
}

}  // namespace compline::chart
