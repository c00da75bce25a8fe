#include "words.hpp"

#include <compline/report/weakest.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cassert>

namespace compline::report {

namespace {

int faults_in(const practice::Report& report, const assess::Weakest& weakest) {
    const auto& changes = report.assessment.changes;
    return static_cast<int>(
        std::count_if(changes.begin(), changes.end(), [&](const assess::Change& change) {
            return !change.seam && !change.uncertain && change.cost() > 0 &&
                   change.bar >= weakest.from_bar && change.bar <= weakest.to_bar;
        }));
}

/// "B:5-8", as --bars takes it; empty where a section has no name of its own, or they are of two.
std::string in_section(const chart::Form& form, const assess::Weakest& weakest) {
    const auto& from = form.bar(weakest.from_bar);
    const auto& to = form.bar(weakest.to_bar);
    const bool one = from.section == to.section && from.occurrence == to.occurrence;
    const bool alone =
        form.bars.front().section == form.bars.back().section && form.bars.back().occurrence == 1;
    if (!one || alone) return "";
    const auto which = from.occurrence > 1 ? fmt::format("@{}", from.occurrence) : "";
    return fmt::format(" ({}{}:{}-{})", from.section, which, from.bar_in_section,
                       to.bar_in_section);
}

}  // namespace

std::string weakest_words(const practice::Report& report) {
    assert(report.assessment.weakest);
    const auto& weakest = *report.assessment.weakest;
    return fmt::format("{}{}: {} in {}", bars_words({weakest.from_bar, weakest.to_bar}),
                       in_section(report.map.form(), weakest),
                       plural(faults_in(report, weakest), "fault", "faults"),
                       plural(static_cast<int>(report.map.way().stretches.size()), "time through",
                              "times through"));
}

}  // namespace compline::report
