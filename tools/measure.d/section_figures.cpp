#include "measure.d/musicians.hpp"
#include "measure.d/voicing_place.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace compline::measure {

namespace {

using guitar::VoicingPlan;

/// Bars that may come back: a section, and each eight bars of a longer one.
struct Block {
    time::Ticks start;
    std::vector<chart::Span> spans;  ///< from its first beat; a chord that goes on is one span

    [[nodiscard]] bool same_chords(const Block& other) const {
        return std::equal(spans.begin(), spans.end(), other.spans.begin(), other.spans.end(),
                          [](const chart::Span& a, const chart::Span& b) {
                              return a.start == b.start && a.chord == b.chord;
                          });
    }
};

Block block_of(const chart::Form& form, int from, int to) {
    Block block{form.bar(from).start, {}};
    for (const auto& span : form.spans_of({from, to})) {
        const bool goes_on = !block.spans.empty() && block.spans.back().chord == span.chord;
        if (!goes_on) block.spans.push_back(span);
    }
    return block;
}

std::vector<Block> blocks_of(const chart::Form& form) {
    constexpr int eight = 8;
    std::vector<Block> blocks;
    const int bars = form.whole().to;
    for (int from = 1; from <= bars;) {
        int to = from;
        while (to < bars && form.bar(to + 1).bar_in_section > 1) ++to;
        if (to - from + 1 <= eight) blocks.push_back(block_of(form, from, to));
        for (int bar = from; to - from + 1 > eight && bar + eight - 1 <= to; bar += eight) {
            blocks.push_back(block_of(form, bar, bar + eight - 1));
        }
        from = to + 1;
    }
    return blocks;
}

/// The first chord is apart: the hand comes to it from elsewhere.
void compare(MusicianFigures& figures, const chart::Form& form, const VoicingPlan& plan,
             const Block& block, const Block& again) {
    for (std::size_t i = 1; i < block.spans.size(); ++i) {
        const auto* const once = plan.at(block.start + block.spans[i].start);
        const auto* const twice = plan.at(again.start + block.spans[i].start);
        if (once == nullptr || twice == nullptr) continue;
        const bool same = once->grip == twice->grip;
        figures.note(Count::equal_sections, same);
        if (!same) {
            figures.offend(Count::equal_sections,
                           fmt::format("{}, in bar {} {}", where(form, *twice), once->change.bar,
                                       once->grip.shape.text()));
        }
    }
}

}  // namespace

std::string where(const chart::Form& form, const guitar::PlannedVoicing& voicing) {
    return fmt::format("{}, bar {} beat {:g}: {} {}", form.chart.title, voicing.change.bar,
                       voicing.change.beat.number(),
                       voicing.change.to.symbol(harmony::Accidentals::letters),
                       voicing.grip.shape.text());
}

void MusicianFigures::add_sections(const chart::Form& form, const VoicingPlan& plan) {
    const auto blocks = blocks_of(form);
    for (std::size_t i = 0; i < blocks.size(); ++i) {
        for (std::size_t j = i + 1; j < blocks.size(); ++j) {
            if (blocks[i].same_chords(blocks[j])) compare(*this, form, plan, blocks[i], blocks[j]);
        }
    }
}

}  // namespace compline::measure
