#include <compline/practice/rows.hpp>

#include <algorithm>

namespace compline::practice {

chart::Passage row_of(const chart::Form& form, int bar) {
    constexpr int bars_a_row = 4;
    const int first = bar - (form.bar(bar).bar_in_section - 1) % bars_a_row;
    int last = first;
    const auto bars = static_cast<int>(form.bars.size());
    while (last < std::min(bars, first + bars_a_row - 1) &&
           form.bar(last + 1).bar_in_section != 1) {
        ++last;
    }
    return {first, last};
}

chart::Passage section_around(const chart::Form& form, int bar) {
    const int first = bar - form.bar(bar).bar_in_section + 1;
    int last = bar;
    while (last < form.last_bar() && form.bar(last + 1).bar_in_section != 1) ++last;
    return {first, last};
}

}  // namespace compline::practice
