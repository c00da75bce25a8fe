#include "road.hpp"

namespace compline::simulate {

namespace {

using time::Ticks;

/// `in_bar`: from the bar line, of a span that starts at `at`.
Area area_of(const chart::Form& form, const chart::Span& span, int time_through, Ticks at,
             Ticks in_bar) {
    Area area;
    area.time_through = time_through;
    area.bar = span.bar;
    area.beat = time::BeatOfBar(in_bar);
    area.start = at;
    area.until = at + span.length;
    area.chord = *span.chord;
    area.opens_section = in_bar == Ticks(0) && form.bar(span.bar).bar_in_section == 1;
    area.pieces = {at};
    return area;
}

}  // namespace

std::vector<Area> areas_of(const chart::Form& form, const chart::Route& route) {
    std::vector<Area> areas;
    bool silent = true;
    for (int time_through = 1; time_through <= route.times_through().value(); ++time_through) {
        const auto from = route.start(time_through, form.chart.meter);
        for (const auto& span : form.spans_of(route.stretch(time_through).passage)) {
            const auto at = from + span.start;
            if (!span.chord) {
                silent = true;
                continue;
            }
            if (!silent && areas.back().chord.symbol() == span.chord->symbol()) {
                areas.back().until = at + span.length;
                areas.back().pieces.push_back(at);
                continue;
            }
            areas.push_back(area_of(form, span, time_through, at, at % form.chart.meter.bar()));
            areas.back().after_nothing = silent;
            silent = false;
        }
    }
    return areas;
}

}  // namespace compline::simulate
