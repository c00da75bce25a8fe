#include <compline/band/band.hpp>
#include <compline/band/bass.hpp>
#include <compline/band/drums.hpp>

#include <cassert>

namespace compline::band {

Part arrange(const chart::Form& form, const Request& request) {
    assert(request.times_through >= 1);
    const auto meter = form.chart.meter;
    Part part;
    part.strokes = count_in(meter, request.count_in_bars);
    const auto time = keep_time(meter, request.passage.bars() * request.times_through);
    part.strokes.insert(part.strokes.end(), time.begin(), time.end());
    part.notes = bass_line(form, request.passage, request.times_through);
    return part;
}

}  // namespace compline::band
