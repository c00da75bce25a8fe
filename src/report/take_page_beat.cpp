#include "take_page_beat.hpp"

#include "picture.hpp"
#include "words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>

namespace compline::report {

namespace {

using assess::ReadAs;

constexpr double beat_width = 400;
constexpr double heap_height = 110;
constexpr double beat_words = 28;
constexpr int step_ms = 10;
constexpr int steps_each_way = 12;  ///< what is farther off stands with the last
constexpr int steps = 2 * steps_each_way;
constexpr double step_width = beat_width / steps;
constexpr int fewest_strums = 8;  ///< of fewer there is no shape

using Heap = std::array<int, steps>;

bool keeps_time(ReadAs read_as) {
    return read_as != ReadAs::fill && read_as != ReadAs::bass && read_as != ReadAs::approach &&
           read_as != ReadAs::up_stroke;
}

Heap heap_of(const practice::Report& report, bool off_beats) {
    Heap heap{};
    for (const auto& strum : report.assessment.strums) {
        if (strum.off_beat != off_beats || !keeps_time(strum.read_as)) continue;
        const auto at = std::floor(strum.asynchrony.milliseconds() / step_ms) + steps_each_way;
        ++heap[static_cast<std::size_t>(std::clamp(at, 0.0, steps - 1.0))];
    }
    return heap;
}

int count_of(const Heap& heap) {
    int all = 0;
    for (const int count : heap) all += count;
    return all;
}

std::string heap_picture(const Heap& heap, double tolerance_ms) {
    Picture picture(beat_width, heap_height + beat_words);
    const double middle = beat_width / 2;
    const double room = tolerance_ms / step_ms * step_width;
    picture.box({middle - room, 0, 2 * room, heap_height}, "band");
    const int most = *std::max_element(heap.begin(), heap.end());
    std::vector<Box> boxes;
    for (std::size_t i = 0; i < heap.size(); ++i) {
        if (heap[i] == 0) continue;
        const double height = (heap_height - 4) * heap[i] / most;
        boxes.push_back({static_cast<double>(i) * step_width + 1, heap_height - height,
                         step_width - 2, height});
    }
    picture.boxes(boxes, "heap");
    picture.line({middle, 0}, {middle, heap_height}, "beat");
    picture.line({0, heap_height}, {beat_width, heap_height}, "ground");
    picture.words({4, heap_height + 23}, "ahead", "number");
    picture.words({beat_width - 4, heap_height + 23}, "behind", "number end");
    return picture.svg("heap");
}

std::string heading_of(const char* what, const assess::Spread& spread) {
    return spread.mean_ms ? fmt::format("{}: {}", what, spread_words(spread)) : what;
}

std::string half(const std::string& heading, const std::string& picture) {
    return "<div>\n<p class=\"what\">" + escaped(heading) + "</p>\n" + picture + "</div>\n";
}

std::string step_words(std::size_t step) {
    const int from = (static_cast<int>(step) - steps_each_way) * step_ms;
    if (step == 0) return fmt::format("{} ms ahead and more", -(from + step_ms));
    if (step + 1 == steps) return fmt::format("{} ms behind and more", from);
    return from < 0 ? fmt::format("{} to {} ms ahead", -(from + step_ms), -from)
                    : fmt::format("{} to {} ms behind", from, from + step_ms);
}

std::string beat_table(const Heap& on, const Heap& off) {
    PageTable table("Strums around the beat", {"where", "on beats", "between beats"});
    for (std::size_t i = 0; i < on.size(); ++i) {
        if (on[i] + off[i] == 0) continue;
        table.row({step_words(i), std::to_string(on[i]), std::to_string(off[i])});
    }
    return table.markup();
}

}  // namespace

PagePart beat_part(const practice::Report& report) {
    const auto on = heap_of(report, false);
    const auto off = heap_of(report, true);
    const auto& time = report.assessment.time;
    const double room = report.tolerance().milliseconds();
    PagePart part{"around", "Strums around the beat", "", "", "", ""};
    std::string pictures;
    const auto add = [&](const Heap& heap, const char* what, const assess::Spread& spread) {
        if (count_of(heap) < fewest_strums) return;
        const auto heading = heading_of(what, spread);
        pictures += half(heading, heap_picture(heap, room));
        part.says += (part.says.empty() ? "" : ". ") + heading;
    };
    add(on, "On beats", time.on_beats);
    add(off, "Between beats", time.off_beats);
    if (pictures.empty()) return {};
    part.picture = "<div class=\"halves\">\n" + pictures + "</div>\n";
    part.below = fmt::format("A column is {} ms; what is farther off stands at the edge.", step_ms);
    part.table = beat_table(on, off);
    return part;
}

}  // namespace compline::report
