#pragma once

#include <compline/assess/assessment.hpp>
#include <compline/chart/form.hpp>

#include <cmath>

namespace compline::practice {

/// Where a change stands in the form, from its first beat.
inline time::Ticks in_form(const chart::Form& form, const assess::Change& change) {
    const auto& bar = form.bar(change.bar);
    const auto counted = static_cast<double>(bar.meter.counted().count());
    return bar.start + time::Ticks(std::llround((change.beat.number() - 1) * counted));
}

}  // namespace compline::practice
