#include "take_page_strip_layout.hpp"

#include "text_width.hpp"

#include <algorithm>
#include <cstddef>
#include <utility>

namespace compline::report {

namespace {

constexpr double most_shown_ms = 250;
constexpr double least_shown_ms = 100;
constexpr std::size_t most_numbers = 5;
constexpr double wider_font = 1.15;  ///< beside the estimate
constexpr double most_moved = 24;    ///< to the left of its beat, at the end: paper ends there too

double farthest(const practice::PlaceFigures& figures) {
    return std::max(figures.late_ms().value_or(0), figures.early_ms().value_or(0));
}

}  // namespace

StripLayout::StripLayout(const practice::Report& report, const practice::Places& places)
    : report_(report), places_(places), reach_(report.map.way().reach()) {
    find_range();
    find_numbers();
    for (int from = reach_.from; from <= reach_.to; from += bars_a_piece) {
        for (const auto& label : labels(from)) rows_ = std::max(rows_, label.row + 1);
    }
}

int StripLayout::count() const { return (reach_.bars() + bars_a_piece - 1) / bars_a_piece; }

double StripLayout::height() const {
    return head_height + 2 * half_height + rows_ * chord_height + 4;
}

double StripLayout::x_of(int from, int bar, double beats) const {
    const auto meter = report_.map.form().bar(bar).meter;
    const double share = beats / time::Beats(meter.bar()).count();
    return (bar - from + std::clamp(share, 0.0, 1.0)) * bar_width;
}

double StripLayout::height_of(double ms) const {
    return half_height * std::min(ms, range_ms_) / range_ms_;
}

/// The band stands in it whatever comes, and the farthest average does, within reason.
void StripLayout::find_range() {
    range_ms_ = std::max(least_shown_ms, 2 * report_.tolerance().milliseconds());
    for (const auto& [where, place] : places_) {
        range_ms_ = std::max(range_ms_, farthest(place.figures));
    }
    range_ms_ = std::min(range_ms_, most_shown_ms);
}

void StripLayout::find_numbers() {
    const double out = 1.5 * report_.tolerance().milliseconds();
    std::vector<std::pair<double, PlaceKey>> far;
    for (const auto& [where, place] : places_) {
        if (farthest(place.figures) >= out) far.emplace_back(-place.figures.cost, where);
    }
    std::sort(far.begin(), far.end());
    for (std::size_t i = 0; i < std::min(far.size(), most_numbers); ++i) {
        numbered_.insert(far[i].second);
    }
}

std::vector<ChordLabel> StripLayout::labels(int from) const {
    std::vector<ChordLabel> all;
    const auto& form = report_.map.form();
    double taken[] = {0, 0};
    std::string last;
    for (const auto& span : form.spans) {
        if (span.bar < from || span.bar >= from + bars_a_piece || span.bar > reach_.to) continue;
        const auto symbol = span.chord ? span.chord->symbol() : "N.C.";
        if (symbol == last) continue;
        last = symbol;
        const auto beats = time::Beats(span.start - form.bar(span.bar).start).count();
        const double wide = label_size * wider_font * width_in_ems(symbol);
        const double at_beat = x_of(from, span.bar, beats) + 3;
        const double x = at_beat - std::clamp(at_beat + wide - piece_width, 0.0, most_moved);
        const double end = x + wide;
        for (int row = 0; row < 2; ++row) {
            if (taken[row] > x || end > piece_width) continue;
            taken[row] = end + 6;
            all.push_back({x, row, symbol});
            break;
        }
    }
    return all;
}

}  // namespace compline::report
