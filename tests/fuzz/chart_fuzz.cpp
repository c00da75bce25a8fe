// Any bytes: the chart reader returns a chart or throws ChartError, nothing else. A chart that was
// read unrolls to spans that fill its form exactly, has its kicks within its bars, names its own
// bars, has a road map that can be played or none, and voicings for chords that are there.
#include <compline/chart/chart.hpp>
#include <compline/chart/chart_hash.hpp>
#include <compline/chart/form.hpp>
#include <compline/chart/pins.hpp>
#include <compline/chart/road_map_text.hpp>
#include <compline/chart/summary.hpp>

#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string>
#include <string_view>

namespace {

using namespace compline;

void require(bool condition) {
    if (!condition) std::abort();
}

void check_problems(const chart::ChartError& error) {
    require(!error.problems().empty());
    for (const auto& problem : error.problems()) {
        require(problem.line >= 0 && problem.column >= 0 && !problem.what.empty());
        for (const char c : problem.what) require(static_cast<unsigned char>(c) >= 0x20);
    }
}

void check_voicings(const chart::Form& form) {
    std::size_t used = 0;
    for (const auto& span : form.spans) {
        const auto* const pin = span.chord ? chart::pin_for(form, span.bar, *span.chord) : nullptr;
        if (pin == nullptr) continue;
        require(pin->frets.size() >= 4 && pin->frets.size() <= 8);
        ++used;
    }
    require(form.chart.voicings.empty() || used > 0);
}

void check_form(const chart::Form& form) {
    time::Ticks end;
    for (const auto& span : form.spans) {
        require(span.start == end && span.length > time::Ticks(0));
        const auto& bar = form.bar(span.bar);
        require(span.start >= bar.start && span.start + span.length <= bar.end());
        end = span.start + span.length;
    }
    require(!form.bars.empty() && end == form.bars.back().end());
    for (const auto& bar : form.bars) {
        for (const auto kick : bar.kicks) {
            require(kick >= time::Ticks(0) && kick < bar.meter.bar());
        }
    }
    if (const auto way = chart::own_road_map(form)) {
        require(!way->stretches.empty() && !chart::road_map_in_words(*way, form).empty());
    }
    check_voicings(form);
    const auto& last = form.bars.back();
    const auto name = last.section + "@" + std::to_string(last.occurrence) + ":" +
                      std::to_string(last.bar_in_section);
    require(chart::read_passage(form, name) == chart::Passage{last.number, last.number});
    require(chart::chart_hash(form.chart).size() == 16 && !chart::summary(form).empty());
}

}  // namespace

// libFuzzer calls it by this name. NOLINTNEXTLINE(readability-identifier-naming)
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const std::string_view text(reinterpret_cast<const char*>(data), size);
    try {
        check_form(chart::unroll(chart::read_chart(text, "fuzz.yaml")));
    } catch (const chart::ChartError& error) {
        check_problems(error);
    }
    return 0;
}
