#include <compline/chart/chart_hash.hpp>
#include <compline/chart/form.hpp>

#include <fmt/format.h>

namespace compline::chart {

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
    return fmt::format("{:016x}", fnv1a_64(content));
}

}  // namespace compline::chart
