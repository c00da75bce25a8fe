#include "shares.hpp"

#include <compline/chart/chart_hash.hpp>
#include <compline/chart/form.hpp>

#include <fmt/format.h>

#include <map>
#include <string>

namespace compline::chart {

namespace {

/// What a bar has that its chart has not said for all of them; empty: nothing.
std::string own_lines(const Chart& chart, const FormBar& bar) {
    std::string lines;
    if (bar.meter != chart.meter) {
        const auto written = bar.meter.written();
        lines += fmt::format("meter {} {}/{} {}\n", bar.number, written.above, written.below,
                             bar.meter.beat().count());
    }
    if (bar.key != chart.key) {
        lines +=
            fmt::format("key {} {}\n", bar.number, bar.key.name(harmony::Accidentals::letters));
    }
    if (bar.hold > time::Ticks(0)) {
        lines += fmt::format("hold {} {}\n", bar.number, bar.hold.count());
    }
    if (bar.tempo && *bar.tempo != chart.tempo) {
        lines += fmt::format("tempo {} {}\n", bar.number, bar.tempo->count() / chart.tempo.count());
    }
    if (bar.rubato) lines += fmt::format("rubato {}\n", bar.number);
    return lines;
}

std::map<std::string, Feel> feels_of_sections(const Chart& chart) {
    std::map<std::string, Feel> feels;
    for (const auto& section : chart.sections) {
        if (section.manner.feel) feels.emplace(section.name, *section.manner.feel);
    }
    return feels;
}

}  // namespace

std::uint64_t fnv1a_64(std::string_view bytes) {
    std::uint64_t hash = 0xcbf29ce484222325U;
    for (const char c : bytes) {
        hash ^= static_cast<unsigned char>(c);
        hash *= 0x100000001b3U;
    }
    return hash;
}

std::string chart_hash(const Chart& chart) {
    constexpr auto letters = harmony::Accidentals::letters;
    const Form form = unroll(chart);
    std::string content = fmt::format("{} {} {}\n", meter_name(chart.meter),
                                      chart.key.name(letters), form.bars.size());
    for (const auto& span : form.spans) {
        content += fmt::format("{} {} {}\n", span.start.count(), span.length.count(),
                               span.chord ? span.chord->symbol(letters) : "N.C.");
    }
    // Lines of their own, so that a chart without what they say keeps the hash it always had.
    const auto own_feels = feels_of_sections(chart);
    for (const auto& span : form.spans) {
        if (span.optional) content += fmt::format("optional {}\n", span.start.count());
    }
    for (const auto& bar : form.bars) {
        for (const auto kick : bar.kicks) {
            content += fmt::format("kick {}\n", (bar.start + kick).count());
        }
        content += own_lines(chart, bar);
        const auto feel = own_feels.find(bar.section);
        if (feel == own_feels.end()) continue;
        content += fmt::format("feel {} {}\n", bar.number, name_of(feel->second));
    }
    return fmt::format("{:016x}", fnv1a_64(content));
}

}  // namespace compline::chart
