#include "section_words.hpp"

#include "words.hpp"

#include <compline/chart/manner.hpp>

#include <fmt/format.h>

#include <algorithm>

namespace compline::report {

namespace {

using chart::FormBar;
using chart::TimeFeel;

/// Who comes from more than one place is told what is new to him from any of them.
class SectionDescriber {
  public:
    SectionDescriber(const chart::Form& form, const FormBar& bar, const std::vector<int>& before)
        : form_(form), bar_(bar), section_(form.section_of(bar)) {
        for (const int number : before) before_.push_back(&form.bar(number));
    }

    std::string describe() {
        if (bar_.key != form_.chart.key || any([&](auto& b) { return b.key != bar_.key; })) {
            add("key of " + bar_.key.name());
        }
        if (section_.meter ||
            any([&](auto& b) { return b.meter.written() != bar_.meter.written(); })) {
            add(meter_words(bar_.meter));
        }
        add(tempo());
        if (bar_.rubato) add("rubato");
        add(time_feel());
        add(chart::in_words(manner()));
        add(rhythm());
        return words_;
    }

  private:
    void add(const std::string& more) {
        if (!more.empty()) words_ += (words_.empty() ? "" : ", ") + more;
    }

    template <typename Condition>
    [[nodiscard]] bool any(const Condition& holds) const {
        return std::any_of(before_.begin(), before_.end(),
                           [&](const FormBar* bar) { return holds(*bar); });
    }

    [[nodiscard]] std::string tempo() const {
        if (bar_.tempo) return fmt::format("{:g} bpm", bar_.tempo->count());
        if (bar_.rubato) return "";
        if (any([](auto& b) { return b.tempo.has_value(); })) {
            return fmt::format("{:g} bpm", form_.chart.tempo.count());
        }
        return any([](auto& b) { return b.rubato; }) ? "a tempo" : "";
    }

    [[nodiscard]] std::string time_feel() const {
        const auto felt = [&](TimeFeel feel) {
            return any([&](auto& b) { return form_.section_of(b).time_feel == feel; });
        };
        if (section_.time_feel == TimeFeel::half_time) return "half-time";
        if (section_.time_feel == TimeFeel::double_time) return "double-time";
        if (felt(TimeFeel::half_time)) return "end of half-time";
        return felt(TimeFeel::double_time) ? "end of double-time" : "";
    }

    /// Where the chart names no drums and no bass, its feel says that they play as before.
    [[nodiscard]] chart::AskedManner manner() const {
        auto shown = section_.manner;
        const auto& charts = form_.chart.manner;
        for (const auto* bar : before_) {
            const auto& gone = form_.section_of(*bar).manner;
            const bool drums = gone.drums && !section_.manner.drums;
            const bool bass = (gone.bass || gone.plain_bass) && !section_.manner.bass;
            const bool unnamed = (drums && !charts.drums) || (bass && !charts.bass);
            if ((gone.feel || unnamed) && !shown.feel)
                shown.feel = bar_.manner.feel.value_or(form_.chart.feel());
            if (drums) shown.drums = charts.drums;
            if (bass) shown.bass = charts.bass;
            if (gone.phrasing && !shown.phrasing) {
                shown.phrasing = charts.phrasing.value_or(chart::Phrasing::even);
            }
        }
        return shown;
    }

    [[nodiscard]] std::string rhythm() const {
        const auto now = chart::rhythm_in(form_, bar_);
        const bool ends = any([&](auto& b) {
            return form_.section_of(b).rhythm && chart::rhythm_in(form_, b) != now;
        });
        return section_.rhythm || ends ? "comp " + now.name() : "";
    }

    const chart::Form& form_;
    const FormBar& bar_;
    const chart::Section& section_;
    std::vector<const FormBar*> before_;
    std::string words_;
};

}  // namespace

std::string section_words(const chart::Form& form, int number, const std::vector<int>& before) {
    return SectionDescriber(form, form.bar(number), before).describe();
}

}  // namespace compline::report
