#include <compline/band/drums.hpp>
#include <compline/band/part_writer.hpp>

namespace compline::band {

PartWriter::PartWriter(const chart::Form& form, chart::Passage passage,
                       std::optional<int> times_through, int count_in_bars)
    : form_(form),
      passage_(passage),
      times_through_(times_through),
      count_in_bars_(count_in_bars),
      bass_(form, passage, times_through) {}

std::optional<Part> PartWriter::next() {
    if (times_through_ && written_ == *times_through_) return std::nullopt;
    const auto meter = form_.chart.meter;
    Part part;
    if (written_ == 0) part.strokes = count_in(meter, count_in_bars_);
    const time::Ticks start = meter.bar() * passage_.bars() * written_;
    for (Stroke stroke : keep_time(meter, passage_.bars())) {
        stroke.at += start;
        part.strokes.push_back(stroke);
    }
    part.notes = bass_.next();
    ++written_;
    return part;
}

}  // namespace compline::band
