#include <compline/chart/form.hpp>

#include <algorithm>
#include <cassert>
#include <map>
#include <utility>

namespace compline::chart {

namespace {

const Section* section_named(const std::vector<Section>& sections, std::string_view name) {
    const auto found = std::find_if(sections.begin(), sections.end(),
                                    [&](const Section& s) { return s.name == name; });
    return found == sections.end() ? nullptr : &*found;
}

/// Goes through the form and counts how many times in a row a section comes.
class Endings {
  public:
    const Ending* next(const FormPart& part, const Section& section) {
        in_a_row_ = part.section == before_ ? in_a_row_ + 1 : 1;
        before_ = part.section;
        return part.ending ? find_ending(section, *part.ending) : ending_of(section, in_a_row_);
    }

  private:
    std::string before_;
    int in_a_row_ = 0;
};

/// Lays bars of a chart one after the other.
class Unroller {
  public:
    explicit Unroller(Form& form) : form_(form) {}

    void play(const Section& section, const Ending* ending) {
        const int occurrence = ++times_played_[section.name];
        const auto meter = section.meter.value_or(form_.chart.meter);
        FormBar bar;
        bar.section = section.name;
        bar.occurrence = occurrence;
        bar.meter = felt(meter, section.time_feel).value_or(meter);
        bar.manner = form_.chart.manner.with(section.manner);
        bar.key = section.key.value_or(form_.chart.key);
        bar.tempo = section.tempo;
        bar.rubato = section.rubato;
        bar.bar_in_section = 0;
        for (const auto& written : section.bars) append(bar, written);
        if (ending == nullptr) return;
        bar.ending = ending->numbers.front();
        for (const auto& written : ending->bars) append(bar, written);
    }

  private:
    void append(FormBar& bar, const WrittenBar& written) {
        bar.number = static_cast<int>(form_.bars.size()) + 1;
        bar.bar_in_section += 1;
        bar.start = form_.bars.empty() ? time::Ticks(0) : form_.bars.back().end();
        bar.kicks = written.kicks;
        bar.hold = written.hold;
        bar.first_span = form_.spans.size();
        form_.bars.push_back(bar);
        for (const auto& slot : written.slots) {
            form_.spans.push_back(
                {bar.start + slot.start, slot.length, slot.chord, bar.number, slot.optional});
        }
        if (!written.slots.empty()) form_.spans.back().length += written.hold;
    }

    Form& form_;
    std::map<std::string, int> times_played_;
};

void place_signs(Form& form) {
    const auto& signs = form.chart.signs;
    if (!signs.segno.empty()) form.segno = read_passage(form, signs.segno).from;
    if (form.coda_from) form.to_coda = read_last_passage(form, signs.to_coda).to;
    if (!signs.fine.empty()) form.fine = read_passage(form, signs.fine).to;
}

}  // namespace

std::optional<time::Meter> felt(time::Meter meter, TimeFeel time_feel) {
    if (time_feel == TimeFeel::half_time) return meter.half_time();
    if (time_feel == TimeFeel::double_time) return meter.double_time();
    return meter;
}

const Ending* find_ending(const Section& section, int number) {
    for (const auto& ending : section.endings) {
        const auto& all = ending.numbers;
        if (std::find(all.begin(), all.end(), number) != all.end()) return &ending;
    }
    return nullptr;
}

const Ending* ending_of(const Section& section, int time_in_a_row) {
    if (section.endings.empty()) return nullptr;
    const auto* const own = find_ending(section, time_in_a_row);
    if (own != nullptr) return own;
    return &*std::max_element(
        section.endings.begin(), section.endings.end(),
        [](const Ending& a, const Ending& b) { return a.numbers.back() < b.numbers.back(); });
}

std::size_t bars_of_form(const std::vector<FormPart>& form, const std::vector<Section>& sections) {
    std::size_t bars = 0;
    Endings endings;
    for (const auto& part : form) {
        const auto* const section = section_named(sections, part.section);
        if (section == nullptr) continue;
        const auto* const ending = endings.next(part, *section);
        bars += section->bars.size() + (ending != nullptr ? ending->bars.size() : 0);
    }
    return bars;
}

std::vector<std::string> never_played(const Chart& chart) {
    std::vector<std::string> names;
    for (const auto& section : chart.sections) {
        const bool is_coda = section.name == coda_name && !chart.signs.to_coda.empty();
        const bool played =
            std::any_of(chart.form.begin(), chart.form.end(),
                        [&](const FormPart& part) { return part.section == section.name; });
        if (!is_coda && !played) names.push_back(section.name);
    }
    return names;
}

Form unroll(Chart chart) {
    Form form;
    form.chart = std::move(chart);
    Unroller unroller(form);
    Endings endings;
    for (const auto& part : form.chart.form) {
        const auto* const section = section_named(form.chart.sections, part.section);
        assert(section != nullptr);
        unroller.play(*section, endings.next(part, *section));
    }
    // Of a chart with problems the coda may be missing: then there is none.
    const auto* const coda = section_named(form.chart.sections, coda_name);
    if (!form.chart.signs.to_coda.empty() && coda != nullptr) {
        form.coda_from = form.last_bar() + 1;
        unroller.play(*coda, ending_of(*coda, 1));
    }
    if (const auto& lead_in = form.chart.lead_in) {
        for (const auto& slot : lead_in->slots) {
            form.lead_in.push_back({slot.start - lead_in->length, slot.length, slot.chord, 0});
        }
    }
    place_signs(form);
    for (const auto& cue : form.chart.cues) {
        const auto bar = read_passage(form, cue.bars).from;
        form.bars[static_cast<std::size_t>(bar) - 1].cue = cue.words;
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

const Section& Form::section_of(const FormBar& bar) const {
    return *section_named(chart.sections, bar.section);
}

Rhythm rhythm_in(const Form& form, const FormBar& bar) {
    const auto& own = form.section_of(bar).rhythm;
    return own ? *own : form.chart.rhythm.value_or(Rhythm{});
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
