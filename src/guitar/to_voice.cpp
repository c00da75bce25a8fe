#include "to_voice.hpp"

#include <compline/roadmap/road_map.hpp>

#include <algorithm>

namespace compline::guitar {

namespace {

using roadmap::DueChange;

constexpr int long_chord_bars = 2;
constexpr int moves_one_way = 2;  // then the line turns: two inversions are most of an octave

/// Of a minor key the raised sixth and seventh too.
harmony::PitchClasses scale_of(const chart::Key& key) {
    harmony::PitchClasses scale;
    constexpr std::array<int, 7> major = {0, 2, 4, 5, 7, 9, 11};
    constexpr std::array<int, 9> minor = {0, 2, 3, 5, 7, 8, 9, 10, 11};
    const auto add = [&](int above) {
        scale.set(static_cast<std::size_t>((key.tonic.pitch_class() + above) % 12));
    };
    if (key.minor) {
        std::for_each(minor.begin(), minor.end(), add);
    } else {
        std::for_each(major.begin(), major.end(), add);
    }
    return scale;
}

class Gathering {
  public:
    Gathering(const chart::Form& form, const VoicingWishes& wishes)
        : form_(form), wishes_(wishes), key_(scale_of(form.chart.key)) {}

    std::vector<ToVoice> gather(chart::Passage passage) {
        const auto changes = roadmap::RoadMap(form_, roadmap::Asked::of(passage, 1)).changes();
        // In a loop the first change comes from the last chord.
        for (std::size_t i = 0; i < changes.size(); ++i) {
            const auto& before = changes[(i + changes.size() - 1) % changes.size()];
            add(changes[i], before.to);
        }
        return std::move(chords_);
    }

  private:
    void add(const DueChange& change, const harmony::Chord& before) {
        const harmony::Palette palette(change.to, change.around, wishes_.strictness);
        InPlace place;
        place.low_root = wishes_.low_root;
        place.into_minor = change.around.into_minor;
        place.key = key_;
        place.point = point_of(before, change.to);
        if (wishes_.style == VoicingStyle::one_colour) place.unwritten = 0;
        if (wishes_.style == VoicingStyle::four_note) place.unwritten = weight::unwritten_of_four;
        chords_.push_back({change, palette, place});
        const auto is_long = form_.bar(change.bar).meter.bar() * long_chord_bars;
        if (wishes_.long_chords_move && change.length >= is_long) go_on(change);
    }

    /// From the next bar line on, a piece a bar.
    void go_on(const DueChange& change) {
        const auto end = change.in_form + change.length;
        const auto start = chords_.back();
        chords_.back().change.length = form_.bar(change.bar).end() - change.in_form;
        for (int number = change.bar; form_.bar(number).end() < end;) {
            const int piece = number - change.bar;
            const auto& bar = form_.bar(++number);
            ToVoice item = start;
            item.goes_on = true;
            item.place.point = {};
            item.line = piece / moves_one_way % 2 == 0 ? Line::up : Line::down;
            item.change.bar = number;
            item.change.beat = time::BeatOfBar(1);
            item.change.section = bar.section;
            item.change.at += bar.start - change.in_form;
            item.change.in_form = bar.start;
            item.change.from = change.to;
            item.change.length = std::min(bar.end(), end) - bar.start;
            chords_.push_back(item);
        }
    }

    const chart::Form& form_;
    const VoicingWishes& wishes_;
    harmony::PitchClasses key_;
    std::vector<ToVoice> chords_;
};

}  // namespace

std::vector<ToVoice> chords_to_voice(const chart::Form& form, chart::Passage passage,
                                     const VoicingWishes& wishes) {
    return Gathering(form, wishes).gather(passage);
}

}  // namespace compline::guitar
