#include "habit_words.hpp"

#include <compline/harmony/quality.hpp>

#include <algorithm>
#include <array>

namespace compline::assess {

using harmony::Degree;

namespace {

/// Of all cases: then it is that and nothing else.
constexpr double mostly = 2.0 / 3;
/// A tone stands for its kind of chord where little else goes wrong in it.
constexpr double nearly_all_of_them = 0.8;
constexpr std::size_t fewest_to_say = 3;

using Indexes = std::vector<std::size_t>;
using Faults = std::vector<std::optional<HabitFault>>;

double sum_of_costs(const Indexes& cases, const std::vector<Change>& changes, HabitMatter matter) {
    double sum = 0;
    for (const auto i : cases) sum += cost_of(changes[i], matter);
    return sum;
}

HabitFault fault_of_most(const Indexes& cases, const Faults& faults) {
    std::array<int, habit_faults> counts{};
    for (const auto i : cases) ++counts.at(static_cast<std::size_t>(*faults[i]));
    const auto most = std::max_element(counts.begin(), counts.end());
    const bool all = *most >= mostly * static_cast<double>(cases.size());
    return all ? static_cast<HabitFault>(most - counts.begin()) : HabitFault::mixed;
}

/// Of the degree that most of these changes have at fault, those that have it; all where none is
/// that frequent.
std::optional<Degree> degree_of_most(const Indexes& cases, const std::vector<Change>& changes) {
    std::vector<std::pair<Degree, std::size_t>> counts;
    for (const auto i : cases) {
        for (const auto& degree : degrees_at_fault(changes[i])) {
            const auto same = [&](const auto& count) { return count.first == degree; };
            const auto known = std::find_if(counts.begin(), counts.end(), same);
            if (known == counts.end()) {
                counts.emplace_back(degree, 1);
            } else {
                ++known->second;
            }
        }
    }
    const auto most =
        std::max_element(counts.begin(), counts.end(),
                         [](const auto& a, const auto& b) { return a.second < b.second; });
    if (most == counts.end() || most->second < fewest_to_say) return std::nullopt;
    const bool all =
        static_cast<double>(most->second) >= nearly_all_of_them * static_cast<double>(cases.size());
    return all ? std::optional(most->first) : std::nullopt;
}

bool has_at_fault(const Change& change, const Degree& degree) {
    const auto degrees = degrees_at_fault(change);
    return std::find(degrees.begin(), degrees.end(), degree) != degrees.end();
}

void narrow_to_tone(Habit& habit, const std::vector<Change>& changes) {
    habit.tone = degree_of_most(habit.changes, changes);
    if (!habit.tone) return;
    habit.kind = HabitKind::tone;
    std::erase_if(habit.changes,
                  [&](std::size_t i) { return !has_at_fault(changes[i], *habit.tone); });
}

void say_where(Habit& habit, const std::vector<Change>& changes) {
    const auto& first = changes[habit.changes.front()];
    const auto alike = [&](auto part) {
        return std::all_of(habit.changes.begin(), habit.changes.end(),
                           [&](std::size_t i) { return part(changes[i]) == part(first); });
    };
    switch (habit.kind) {
        case HabitKind::place:
            habit.bar = first.bar;
            habit.beat = first.beat;
            habit.section = first.section;
            // The first time through it comes from nowhere.
            habit.from = changes[habit.changes.back()].from;
            habit.to = first.to;
            break;
        case HabitKind::transition:
            habit.from = first.from;
            habit.to = first.to;
            break;
        case HabitKind::into_section:
            if (alike([](const Change& c) { return c.section; })) habit.section = first.section;
            break;
        case HabitKind::quality:
        case HabitKind::tone:
            habit.quality = quality_words(first.to);
            break;
        default:
            break;
    }
}

std::optional<double> mean_lateness(const Indexes& cases, const std::vector<Change>& changes) {
    double sum = 0;
    int count = 0;
    for (const auto i : cases) {
        const auto& change = changes[i];
        const bool off = change.verdict == Verdict::late || change.verdict == Verdict::early ||
                         change.verdict == Verdict::placed;
        if (!off || !change.lateness) continue;
        sum += change.lateness->milliseconds();
        ++count;
    }
    return count == 0 ? std::nullopt : std::optional(sum / count);
}

}  // namespace

std::vector<Degree> degrees_at_fault(const Change& change) {
    if (!change.missing.empty()) return change.missing;
    std::vector<Degree> degrees;
    const auto tones = harmony::chord_tones(change.to);
    for (const auto& wrong : change.wrong) {
        if (!wrong.nearest_fret) continue;
        const auto meant = std::find_if(tones.begin(), tones.end(), [&](const Degree& degree) {
            return harmony::spell(change.to.root, degree).pitch_class() ==
                   wrong.nearest.pitch_class();
        });
        const bool known = meant == tones.end() ||
                           std::find(degrees.begin(), degrees.end(), *meant) != degrees.end();
        if (!known) degrees.push_back(*meant);
    }
    return degrees;
}

Habit described(Habit habit, const std::vector<Change>& changes, const Faults& faults,
                HabitMatter matter) {
    if (habit.kind == HabitKind::quality && matter == HabitMatter::tones) {
        narrow_to_tone(habit, changes);
    }
    habit.fault = fault_of_most(habit.changes, faults);
    habit.cases = static_cast<int>(habit.changes.size());
    habit.cost = sum_of_costs(habit.changes, changes, matter);
    if (matter != HabitMatter::tones) habit.mean_ms = mean_lateness(habit.changes, changes);
    say_where(habit, changes);
    const bool somewhere = habit.kind == HabitKind::place || habit.kind == HabitKind::transition;
    if (matter == HabitMatter::waits && somewhere) habit.kind = HabitKind::wait;
    if (matter == HabitMatter::absences) habit.kind = HabitKind::left_out;
    return habit;
}

}  // namespace compline::assess
