#include "sheet_bars.hpp"

#include "voicing_words.hpp"

#include <algorithm>

namespace compline::report {

namespace {

using chart::Span;
using time::Ticks;

class BarFiller {
  public:
    BarFiller(const chart::Form& form, const guitar::VoicingPlan& plan)
        : form_(form), plan_(plan) {}

    [[nodiscard]] SheetBar fill(const BarAsWritten& written) const {
        const int number = written.number;
        SheetBar bar;
        bar.number = number;
        bar.written = written;
        bar.ends_all = number == plan_.passage.to || number + 1 == form_.coda_from;
        bar.ends_section = bar.ends_all || form_.bar(number + 1).bar_in_section == 1;
        add_signs(bar);
        const auto spans = form_.spans_of({number, number});
        for (std::size_t i = 0; i < plan_.voicings.size(); ++i) {
            if (plan_.voicings[i].change.bar == number) add(bar, i);
        }
        bar.repeats = bar.changes.empty() && bar.kicks.empty() && !bar.held &&
                      number > plan_.passage.from &&
                      is_one_chord_twice(form_.spans_of({number - 1, number - 1}), spans);
        const auto* before = chord_before(number);
        for (const auto& span : spans) {
            if (!has_change_at(bar, share(bar, span.start))) add(bar, span, before);
            before = span.chord ? &*span.chord : nullptr;
        }
        std::sort(bar.changes.begin(), bar.changes.end(),
                  [](const SheetChange& a, const SheetChange& b) { return a.at < b.at; });
        return bar;
    }

  private:
    void add_signs(SheetBar& bar) const {
        const auto& there = form_.bar(bar.number);
        bar.meter = there.meter;
        const auto& before =
            bar.number == plan_.passage.from ? form_.chart.meter : form_.bar(bar.number - 1).meter;
        bar.begins_meter = there.meter.written() != before.written();
        for (const auto kick : there.kicks) bar.kicks.push_back(share(bar, kick));
        bar.held = there.hold > Ticks(0);
    }
    /// What sounds as a bar begins; null: nothing.
    [[nodiscard]] const harmony::Chord* chord_before(int number) const {
        if (number == plan_.passage.from) return nullptr;
        const auto& chord = form_.spans_in(number - 1).back().chord;
        return chord ? &*chord : nullptr;
    }
    static bool is_one_chord_twice(const std::vector<Span>& before, const std::vector<Span>& now) {
        return before.size() == 1 && now.size() == 1 && now[0].chord &&
               before[0].chord == now[0].chord;
    }
    static bool has_change_at(const SheetBar& bar, double at) {
        return std::any_of(bar.changes.begin(), bar.changes.end(),
                           [at](const SheetChange& change) { return change.at == at; });
    }
    /// A chord that was there before.
    static std::string in_brackets(const std::string& symbol) {
        std::string text = "(";
        return text + symbol + ")";
    }
    [[nodiscard]] double share(const SheetBar& bar, Ticks in_bar) const {
        return static_cast<double>(in_bar.count()) /
               static_cast<double>(form_.bar(bar.number).meter.bar().count());
    }
    void add(SheetBar& bar, std::size_t voicing) const {
        const auto& planned = plan_.voicings[voicing];
        const auto at = share(bar, planned.change.in_form - form_.bar(bar.number).start);
        const auto symbol =
            symbol_and_shape(planned.change.to, form_.bar(bar.number), plan_.fretboard);
        bar.changes.push_back(
            {at, planned.goes_on || planned.change.optional ? in_brackets(symbol) : symbol,
             &planned, &plan_.moves[voicing]});
    }
    /// A chord that goes on, or none; or one that is not planned for, where time is free.
    void add(SheetBar& bar, const Span& span, const harmony::Chord* before) const {
        std::string symbol = "N.C.";
        if (span.chord) {
            symbol = symbol_and_shape(*span.chord, form_.bar(bar.number), plan_.fretboard);
            const bool goes_on = before != nullptr && *before == *span.chord;
            if (goes_on || span.optional) symbol = in_brackets(symbol);
        }
        bar.changes.push_back({share(bar, span.start), symbol, nullptr, nullptr});
    }

    const chart::Form& form_;
    const guitar::VoicingPlan& plan_;
};

}  // namespace

std::vector<SheetBar> sheet_bars(const chart::Form& form, const guitar::VoicingPlan& plan,
                                 const std::vector<BarAsWritten>& written) {
    const BarFiller filler(form, plan);
    std::vector<SheetBar> bars;
    bars.reserve(written.size());
    for (const auto& bar : written) bars.push_back(filler.fill(bar));
    return bars;
}

}  // namespace compline::report
