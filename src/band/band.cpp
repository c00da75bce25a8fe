#include <compline/band/band.hpp>
#include <compline/band/part_writer.hpp>

#include <cassert>

namespace compline::band {

Part arrange(const chart::Form& form, const Request& request) {
    assert(request.times_through >= 1);
    PartWriter writer(form, request.passage, request.times_through, request.count_in_bars);
    Part part;
    while (const auto time = writer.next()) {
        part.strokes.insert(part.strokes.end(), time->strokes.begin(), time->strokes.end());
        part.notes.insert(part.notes.end(), time->notes.begin(), time->notes.end());
    }
    return part;
}

}  // namespace compline::band
