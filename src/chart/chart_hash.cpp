#include <compline/chart/chart_hash.hpp>
#include <compline/chart/form.hpp>

#include <fmt/format.h>

#include <map>
#include <string>

namespace compline::chart {

namespace {

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
    std::string content =
        fmt::format("{}/4 {} {}\n", chart.meter.beats(), chart.key.name(letters), form.bars.size());
    for (const auto& span : form.spans) {
        content += fmt::format("{} {} {}\n", span.start.count(), span.length.count(),
                               span.chord ? span.chord->symbol(letters) : "N.C.");
    }
    // Lines of their own, so that a chart without kicks and feels keeps the hash it always had.
    const auto own_feels = feels_of_sections(chart);
    for (const auto& bar : form.bars) {
        for (const auto kick : bar.kicks) {
            content += fmt::format("kick {}\n", (bar.start + kick).count());
        }
        const auto feel = own_feels.find(bar.section);
        if (feel == own_feels.end()) continue;
        content += fmt::format("feel {} {}\n", bar.number, name_of(feel->second));
    }
    return fmt::format("{:016x}", fnv1a_64(content));
}

}  // namespace compline::chart
