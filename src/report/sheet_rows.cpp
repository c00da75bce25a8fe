#include "sheet_rows.hpp"

#include "road_signs.hpp"

#include <algorithm>
#include <numeric>

namespace compline::report {

namespace {

/// Bars share a row evenly; one that needs more takes it, and the others share what is left.
/// Nothing where they do not all fit.
std::optional<std::vector<double>> share_out(const std::vector<double>& needed, double width) {
    std::vector<double> given(needed.size(), 0);
    while (true) {
        double left = width;
        int open = 0;
        for (const double taken : given) {
            left -= taken;
            open += taken == 0 ? 1 : 0;
        }
        if (open == 0) return left >= -0.001 ? std::optional(given) : std::nullopt;
        const double even = left / open;
        bool settled = true;
        for (std::size_t i = 0; i < needed.size(); ++i) {
            if (given[i] != 0 || needed[i] <= even) continue;
            given[i] = needed[i];
            settled = false;
        }
        if (!settled) continue;
        for (double& share : given) share = share == 0 ? even : share;
        return given;
    }
}

/// Changes of a bar at their time, moved apart where they would overlap.
std::vector<double> places(const SheetBar& bar, const Measures& measures, double x, double width) {
    std::vector<double> xs;
    const double left = x + padding_before(bar);
    double least = left;
    for (const auto& change : bar.changes) {
        xs.push_back(std::max(least, left + change.at * width));
        least = xs.back() + measures.width_of(change);
    }
    double most = x + width - padding_behind(bar);
    for (std::size_t i = xs.size(); i-- > 0;) {
        most -= measures.width_of(bar.changes[i]);
        xs[i] = std::max(left, std::min(xs[i], most));
        most = xs[i];
    }
    return xs;
}

SheetRow place(const Sheet& sheet, std::size_t first, const std::vector<double>& widths) {
    SheetRow row;
    double x = sheet.paper.left();
    for (std::size_t i = 0; i < widths.size(); ++i) {
        const auto& bar = sheet.bars[first + i];
        row.bars.push_back(
            {&bar, x, widths[i], bar.repeats && i > 0, places(bar, sheet.measures, x, widths[i])});
        x += widths[i];
    }
    return row;
}

}  // namespace

double padding_before(const SheetBar& bar) {
    double room = bar_padding;
    if (bar.begins_meter) room += meter_width(bar.meter, meter_size) + 1;
    if (bar.written.begins_repeat) room += repeat_width + 0.4;
    return room;
}

double padding_behind(const SheetBar& bar) {
    if (bar.written.ends_repeat) return repeat_width + 0.8;
    return bar.ends_section ? 2.6 : bar_padding;
}

std::optional<SheetRow> make_row(const Sheet& sheet, std::size_t first, std::size_t count) {
    std::vector<double> needed;
    for (std::size_t i = first; i < first + count; ++i) {
        const auto& bar = sheet.bars[i];
        needed.push_back(padding_before(bar) + sheet.measures.width_of(bar) + padding_behind(bar));
    }
    const double room = sheet.paper.right() - sheet.paper.left();
    // A row of fewer bars does not spread them over the whole page.
    const double share = room * static_cast<double>(count) / most_bars;
    const double all = std::accumulate(needed.begin(), needed.end(), 0.0);
    const auto widths = share_out(needed, count >= most_bars || share < all ? room : share);
    if (!widths) return std::nullopt;
    return place(sheet, first, *widths);
}

SheetRow crowded_row(const Sheet& sheet, std::size_t bar) {
    return place(sheet, bar, {sheet.paper.right() - sheet.paper.left()});
}

}  // namespace compline::report
