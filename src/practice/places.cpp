#include <compline/practice/places.hpp>

#include <cmath>

namespace compline::practice {

using assess::Change;
using assess::Tones;
using assess::Verdict;

namespace {

constexpr std::array<std::string_view, place_faults> fault_names = {
    "late", "early", "missed", "astray", "wait", "left_out", "wrong", "incomplete"};

PlaceFigures figures_of(const Change& change) {
    PlaceFigures figures;
    figures.of = 1;
    figures.cost = change.cost();
    const auto note_if = [&](bool so, PlaceFault fault) {
        figures.faults[static_cast<std::size_t>(fault)] = so ? 1 : 0;
    };
    note_if(change.verdict == Verdict::late, PlaceFault::late);
    note_if(change.verdict == Verdict::early, PlaceFault::early);
    note_if(change.verdict == Verdict::missed, PlaceFault::missed);
    note_if(change.verdict == Verdict::astray, PlaceFault::astray);
    note_if(change.wait, PlaceFault::wait);
    note_if(change.left_out, PlaceFault::left_out);
    note_if(change.tones == Tones::wrong, PlaceFault::wrong);
    note_if(change.tones == Tones::incomplete, PlaceFault::incomplete);
    const bool laid_out = change.verdict == Verdict::laid_out;
    figures.laid_out = laid_out && !change.left_out ? 1 : 0;
    figures.right = !laid_out && change.has_right_tones() && figures.cost == 0 ? 1 : 0;
    const double off = change.lateness ? std::fabs(change.lateness->milliseconds()) : 0;
    if (change.verdict == Verdict::late) figures.late_sum = off;
    if (change.verdict == Verdict::early) figures.early_sum = off;
    return figures;
}

std::optional<double> average(double sum, int count) {
    return count > 0 ? std::optional(sum / count) : std::nullopt;
}

}  // namespace

std::string_view name_of(PlaceFault fault) { return fault_names[static_cast<std::size_t>(fault)]; }

std::optional<double> PlaceFigures::late_ms() const {
    return average(late_sum, count(PlaceFault::late));
}

std::optional<double> PlaceFigures::early_ms() const {
    return average(early_sum, count(PlaceFault::early));
}

PlaceFigures& PlaceFigures::operator+=(const PlaceFigures& more) {
    of += more.of;
    right += more.right;
    for (std::size_t i = 0; i < place_faults; ++i) faults[i] += more.faults[i];
    laid_out += more.laid_out;
    cost += more.cost;
    late_sum += more.late_sum;
    early_sum += more.early_sum;
    return *this;
}

Places places_of(const Report& report) {
    Places places;
    for (const auto& change : report.assessment.changes) {
        if (change.uncertain || change.seam) continue;
        add({{{change.bar, change.beat},
              {change.section, change.from, change.to, figures_of(change)}}},
            places);
    }
    return places;
}

void add(const Places& later, Places& all) {
    for (const auto& [where, place] : later) {
        const auto [known, is_new] = all.try_emplace(where, place);
        if (is_new) continue;
        const auto before = known->second.figures;
        known->second = place;
        known->second.figures += before;
    }
}

}  // namespace compline::practice
