#include "laid.hpp"

#include <algorithm>
#include <cmath>

namespace compline::roadmap {

using time::Beats;
using time::Ticks;

namespace {

/// How far a rit has slowed down where a part of it (0 to 1) is over, as a share of the tempo
/// before it. The shape is that of final ritards, the cube root of a line (Friberg & Sundberg,
/// JASA 105(3), 1999, their mean exponent; from memory); it ends at three fifths (common practice,
/// no source).
double slowed(double over) {
    constexpr double at_the_end = 0.6;
    return std::cbrt(1 + (at_the_end * at_the_end * at_the_end - 1) * over);
}

time::Bpm within_range(double bpm) {
    return time::Bpm(std::clamp(bpm, chart::slowest_bpm, chart::fastest_bpm));
}

/// The last bars of a time through that slow down: where each of their beats stands in all of them.
class Rit {
  public:
    Rit(const chart::Form& form, const chart::Stretch& stretch)
        : from_(stretch.passage.to - stretch.rit + 1),
          start_(stretch.rit > 0 ? form.bar(from_).start : Ticks(0)),
          length_(form.bar(stretch.passage.to).end() - start_),
          is_one_(stretch.rit > 0) {}

    [[nodiscard]] bool has(int bar_of_form) const { return is_one_ && bar_of_form >= from_; }
    /// Of a beat by the middle of it.
    [[nodiscard]] double at(Ticks in_form, Ticks beat) const {
        const double middle = Beats(in_form - start_).count() + Beats(beat).count() / 2;
        return slowed(middle / Beats(length_).count());
    }

  private:
    int from_;
    Ticks start_;
    Ticks length_;
    bool is_one_;
};

}  // namespace

bool RoadMap::Laid::keeps_one_tempo() const {
    const auto& all = way.stretches;
    return std::none_of(form.bars.begin(), form.bars.end(),
                        [](const chart::FormBar& bar) { return bar.tempo.has_value(); }) &&
           std::none_of(all.begin(), all.end(), [](const auto& s) { return s.rit > 0; });
}

time::Bpm RoadMap::Laid::asked_tempo(std::int64_t bar) const {
    const auto later =
        std::upper_bound(asked_tempi.begin(), asked_tempi.end(), bar,
                         [](std::int64_t at, const TempoFrom& t) { return at < t.from_bar; });
    return std::prev(later)->tempo;
}

/// A section with a tempo of its own stands to the tune's as it does in the chart, whatever tempo
/// is asked for. What has slowed down stays slow until somebody says a tempo.
void RoadMap::Laid::lay_tempi() {
    if (keeps_one_tempo()) {
        for (const auto& asked_for : asked_tempi) {
            tempi.go_on(Beats(start_of_bar(asked_for.from_bar)), asked_for.tempo);
        }
        return;
    }
    const auto again = way.goes_on ? std::optional(loop()) : std::nullopt;
    const auto end = again ? again->to : first_bars.back();
    double slow = 1;
    for (std::int64_t number = 1; number < end; ++number) {
        const int time_through = time_through_of(number);
        const auto here = bar(time_through, number);
        const auto& stretch = way.stretch(time_through);
        if (stretch.a_tempo && number == first_bar(time_through)) slow = 1;
        const double own = here.written->tempo.value_or(form.chart.tempo).count();
        const double tempo = asked_tempo(number).count() * own / form.chart.tempo.count();
        const Rit rit(form, stretch);
        if (!rit.has(here.in_form())) {
            tempi.go_on(Beats(here.start), within_range(tempo * slow));
            continue;
        }
        const auto beat = here.meter().beat();
        for (Ticks at; here.start + at < here.end(); at += beat) {
            const double share = rit.at(here.written->start + at, beat);
            tempi.go_on(Beats(here.start + at), within_range(tempo * slow * share));
        }
        if (here.in_form() == stretch.passage.to) slow *= slowed(1);
    }
    if (again) tempi.repeat(Beats(start_of_bar(again->from)), Beats(start_of_bar(again->to)));
}

}  // namespace compline::roadmap
