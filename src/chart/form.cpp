#include <compline/chart/form.hpp>

#include <algorithm>
#include <cassert>
#include <map>
#include <utility>

namespace compline::chart {

namespace {

const Section& section_named(const Chart& chart, const std::string& name) {
    const auto found = std::find_if(chart.sections.begin(), chart.sections.end(),
                                    [&](const Section& s) { return s.name == name; });
    assert(found != chart.sections.end());
    return *found;
}

void append_bar(Form& form, const Section& section, int occurrence, std::size_t index) {
    const int number = static_cast<int>(form.bars.size()) + 1;
    const auto start = form.chart.meter.bar() * (number - 1);
    form.bars.push_back({number, section.name, occurrence, static_cast<int>(index) + 1, start,
                         form.chart.meter, form.chart.manner.with(section.manner),
                         section.bars[index].kicks, form.spans.size(),
                         section.key.value_or(form.chart.key), std::nullopt,
                         section.bars[index].hold, section.tempo, section.rubato});
    for (const auto& slot : section.bars[index].slots) {
        form.spans.push_back({start + slot.start, slot.length, slot.chord, number});
    }
}

}  // namespace

Form unroll(Chart chart) {
    Form form;
    form.chart = std::move(chart);
    std::map<std::string, int> times_played;
    for (const auto& [name, ending] : form.chart.form) {
        const Section& section = section_named(form.chart, name);
        const int occurrence = ++times_played[name];
        for (std::size_t i = 0; i < section.bars.size(); ++i) {
            append_bar(form, section, occurrence, i);
        }
    }
    return form;
}

std::vector<Span> Form::spans_of(Passage passage) const {
    assert(passage.from >= 1 && passage.from <= passage.to);
    assert(passage.to <= static_cast<int>(bars.size()));
    const auto beginning = bar(passage.from).start;
    std::vector<Span> found;
    for (const auto& span : spans) {
        if (span.bar < passage.from || span.bar > passage.to) continue;
        found.push_back(span);
        found.back().start -= beginning;
    }
    return found;
}

std::span<const Span> Form::spans_in(int number) const {
    const auto first = bar(number).first_span;
    const bool last = number == static_cast<int>(bars.size());
    const auto end = last ? spans.size() : bar(number + 1).first_span;
    return std::span(spans).subspan(first, end - first);
}

const FormBar& Form::bar(int number) const {
    assert(number >= 1 && number <= static_cast<int>(bars.size()));
    return bars[static_cast<std::size_t>(number) - 1];
}

int number_of_changes(const Form& form) {
    int changes = 0;
    const harmony::Chord* before = nullptr;
    for (const auto& span : form.spans) {
        const auto* const chord = span.chord ? &*span.chord : nullptr;
        if (chord != nullptr && (before == nullptr || !(*before == *chord))) ++changes;
        before = chord;
    }
    return changes;
}

}  // namespace compline::chart
