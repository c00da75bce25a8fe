#include "bar_text.hpp"

#include <compline/report/columns.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cassert>
#include <cstddef>
#include <numeric>

namespace compline::report {

namespace {

constexpr int least_beat = 2;  ///< columns: the marks of neighbouring beats do not touch

/// The spans of one bar: a part of the form's.
struct Spans {
    std::vector<chart::Span>::const_iterator first;
    std::vector<chart::Span>::const_iterator last;
    [[nodiscard]] auto begin() const { return first; }
    [[nodiscard]] auto end() const { return last; }
    [[nodiscard]] bool one() const { return last - first == 1; }
};

Spans spans_of(const chart::Form& form, int bar) {
    const auto& all = form.spans;
    const auto first =
        std::lower_bound(all.begin(), all.end(), bar,
                         [](const chart::Span& s, int number) { return s.bar < number; });
    const auto last =
        std::find_if(first, all.end(), [bar](const chart::Span& span) { return span.bar != bar; });
    return {first, last};
}

bool repeats(const Spans& bar, const Spans& before) {
    return bar.one() && before.one() && bar.first->chord &&
           bar.first->chord == before.first->chord && bar.first->optional == before.first->optional;
}

/// Beats from each text to the next one (or the bar line), with the columns they need at least.
struct BeatSpan {
    std::size_t from;
    std::size_t to;
    int columns;
};

std::vector<BeatSpan> stretches(const BeatTexts& texts) {
    std::vector<BeatSpan> found;
    for (std::size_t from = 0; from < texts.size();) {
        std::size_t to = from + 1;
        while (to < texts.size() && texts[to].empty()) ++to;
        const int beats = static_cast<int>(to - from) * least_beat;
        found.push_back({from, to, std::max(columns_of(texts[from]) + 1, beats)});
        from = to;
    }
    return found;
}

/// The least width of each beat such that every text fits.
std::vector<int> least_beats(const BeatTexts& texts) {
    std::vector<int> widths(texts.size(), least_beat);
    for (const auto& stretch : stretches(texts)) {
        widen_evenly(widths.begin() + static_cast<std::ptrdiff_t>(stretch.from),
                     widths.begin() + static_cast<std::ptrdiff_t>(stretch.to), stretch.columns);
    }
    return widths;
}

}  // namespace

namespace {

/// A sign as a chart writes it: behind a & where it comes in on the off-beat.
std::string sign(const chart::Span& span, bool off_beat) {
    const auto symbol = span.chord ? span.chord->symbol() : "N.C.";
    return (off_beat ? "&" : "") + (span.optional ? fmt::format("({})", symbol) : symbol);
}

/// "~4": a fermata of so many beats.
std::string hold_mark(const chart::FormBar& bar) {
    if (bar.hold == time::Ticks(0)) return "";
    return fmt::format("~{}", bar.hold / bar.meter.beat());
}

}  // namespace

BeatTexts beat_texts(const chart::Form& form, int bar, bool first_in_row) {
    const auto& here = form.bar(bar);
    const auto beat = here.meter.counted();
    BeatTexts texts(static_cast<std::size_t>(here.meter.bar() / beat));
    const auto spans = spans_of(form, bar);
    const bool plain = here.kicks.empty() && here.hold == time::Ticks(0);
    if (!first_in_row && plain && repeats(spans, spans_of(form, bar - 1))) {
        texts[texts.size() / 2] += '%';  // the middle of the bar, as it is written
        return texts;
    }
    for (const auto& span : spans) {
        const auto in_bar = span.start - here.start;
        auto& text = texts.at(static_cast<std::size_t>(in_bar / beat));
        text += sign(span, in_bar % beat != time::Ticks(0));
    }
    // Kicks as a chart writes them: F7! on the beat, F7&! after it, /! where the chord goes on.
    for (const auto kick : here.kicks) {
        auto& text = texts.at(static_cast<std::size_t>(kick / beat));
        if (text.empty()) text += '/';
        const bool off_beat = kick % beat != time::Ticks(0);
        const bool has_its_own = text.find('&') != std::string::npos;
        text += off_beat && !has_its_own ? "&!" : "!";
    }
    const auto last = std::find_if(texts.rbegin(), texts.rend(),
                                   [](const std::string& text) { return !text.empty(); });
    if (last != texts.rend()) *last += hold_mark(here);
    return texts;
}

int least_width(const BeatTexts& texts) {
    const auto widths = least_beats(texts);
    return std::accumulate(widths.begin(), widths.end(), 1);
}

void shorten(BeatTexts& texts, int width) {
    assert(width > static_cast<int>(texts.size()) * least_beat);
    while (least_width(texts) > width) {
        auto longest = std::max_element(texts.begin(), texts.end(),
                                        [](const std::string& a, const std::string& b) {
                                            return columns_of(a) < columns_of(b);
                                        });
        *longest = cut_to_columns(*longest, columns_of(*longest) - 1);
    }
}

std::vector<int> beat_columns(const BeatTexts& texts, int width) {
    auto widths = least_beats(texts);
    const int beats = static_cast<int>(widths.size());
    widen_evenly(widths.begin(), widths.end(), (width - 1) / beats * beats);
    std::vector<int> columns(widths.size());
    std::exclusive_scan(widths.begin(), widths.end(), columns.begin(), 1);
    return columns;
}

void widen_evenly(std::vector<int>::iterator first, std::vector<int>::iterator last, int total) {
    for (int sum = std::accumulate(first, last, 0); sum < total; ++sum) {
        ++*std::min_element(first, last);
    }
}

}  // namespace compline::report
