#include "shifts.hpp"

#include <algorithm>
#include <utility>

namespace compline::assess {

using time::Ticks;

namespace {

/// Of a form with more the first ones; nobody takes the eighth part for the ninth.
constexpr std::size_t most_sections = 8;

/// A section where it stands in the form.
struct SectionBars {
    int first_bar = 1;
    int bars = 0;
};

std::vector<SectionBars> sections_of(const chart::Form& form) {
    std::vector<SectionBars> sections;
    for (const auto& bar : form.bars) {
        if (bar.bar_in_section == 1) sections.push_back({bar.number, 0});
        if (!sections.empty()) ++sections.back().bars;
    }
    return sections;
}

}  // namespace

Shifts::Shifts(const Targets& targets, const roadmap::RoadMap& map) : targets_(targets), map_(map) {
    by_changes(0);
    by_changes(1);
    by_changes(-1);
    by([](time::Meter meter) { return meter.bar(); });
    by([](time::Meter meter) { return meter.bar() * 2; });
    by([](time::Meter meter) { return meter.beat() * 2; });
    const auto sections = sections_of(map.form()).size();
    for (std::size_t n = 0; sections > 1 && n < std::min(sections, most_sections); ++n) {
        to_section(n);
    }
}

std::optional<std::size_t> Shifts::at(Ticks position) const {
    const auto after = std::partition_point(targets_.due.begin(), targets_.due.end(),
                                            [&](const Target& t) { return t.at <= position; });
    if (after == targets_.due.begin()) return std::nullopt;
    const auto target = static_cast<std::size_t>(after - targets_.due.begin()) - 1;
    if (position >= targets_.end(target)) return std::nullopt;
    return target;
}

void Shifts::by_changes(int n) {
    Meant meant;
    const auto count = static_cast<int>(targets_.size());
    for (int target = 0; target < count; ++target) {
        const int other = target + n;
        const bool there = other >= 0 && other < count;
        meant.push_back(there ? std::optional(static_cast<std::size_t>(other)) : std::nullopt);
    }
    add(std::move(meant));
}

/// On, and back, by what a function makes of the meter there.
template <typename Distance>
void Shifts::by(Distance distance) {
    for (const int way : {1, -1}) {
        Meant meant;
        for (const auto& target : targets_.due) {
            const auto meter = map_.form().bar(target.bar).meter;
            meant.push_back(at(target.at + distance(meter) * way));
        }
        add(std::move(meant));
    }
}

void Shifts::to_section(std::size_t section) {
    const auto& form = map_.form();
    const auto sections = sections_of(form);
    const auto& there = sections[section];
    Meant meant;
    for (const auto& target : targets_.due) {
        meant.emplace_back();
        const int here = target.bar - form.bar(target.bar).bar_in_section + 1;
        const int bar = there.first_bar + target.bar - here;
        const auto played = map_.way().stretch(target.time_through).passage;
        const bool exists = here != there.first_bar && bar < there.first_bar + there.bars &&
                            bar >= played.from && bar <= played.to;
        if (exists) {
            meant.back() = at(target.at + form.bar(bar).start - form.bar(target.bar).start);
        }
    }
    add(std::move(meant));
}

/// Only what differs from the ways known so far.
void Shifts::add(Meant meant) {
    const bool known = std::find(meant_.begin(), meant_.end(), meant) != meant_.end();
    if (!known) meant_.push_back(std::move(meant));
}

}  // namespace compline::assess
