#include <compline/chart/difference.hpp>

#include <fmt/format.h>

#include <algorithm>

namespace compline::chart {

namespace {

std::string symbol_of(const Span& span) {
    const auto symbol = span.chord ? span.chord->symbol(harmony::Accidentals::letters) : "N.C.";
    return span.optional ? fmt::format("({})", symbol) : symbol;
}

std::string bar_in_words(const Form& form, int number) {
    if (number > static_cast<int>(form.bars.size())) return "";
    std::string words;
    for (const auto& span : form.spans_in(number)) {
        words += (words.empty() ? "" : " ") + symbol_of(span);
    }
    return words;
}

bool is_same(const Form& one, const Form& other, int number) {
    const auto& here = one.bar(number);
    const auto& there = other.bar(number);
    if (here.meter != there.meter || here.kicks != there.kicks || here.key != there.key ||
        here.hold != there.hold || here.tempo != there.tempo || here.rubato != there.rubato) {
        return false;
    }
    if (here.manner.feel.value_or(Feel::swing) != there.manner.feel.value_or(Feel::swing)) {
        return false;
    }
    // They fill the bar without a gap: as long is as late.
    const auto spans = one.spans_in(number);
    const auto others = other.spans_in(number);
    return std::equal(spans.begin(), spans.end(), others.begin(), others.end(),
                      [](const Span& a, const Span& b) {
                          return a.length == b.length && symbol_of(a) == symbol_of(b);
                      });
}

}  // namespace

std::vector<BarDifference> differences(const Form& one, const Form& other) {
    const auto bars = static_cast<int>(one.bars.size());
    const auto others = static_cast<int>(other.bars.size());
    std::vector<BarDifference> found;
    for (int number = 1; number <= std::max(bars, others); ++number) {
        if (number <= std::min(bars, others) && is_same(one, other, number)) continue;
        found.push_back({number, bar_in_words(one, number), bar_in_words(other, number)});
    }
    return found;
}

}  // namespace compline::chart
