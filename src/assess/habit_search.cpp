#include "habit_search.hpp"

#include "habit_words.hpp"

#include <algorithm>

namespace compline::assess {

namespace {

constexpr int fewest_cases = 3;
constexpr double times_as_often = 2;
/// What goes well seven times of ten is no habit, however seldom it goes wrong elsewhere.
constexpr double fewest_of_all = 0.3;
/// How likely any group at all may look like a habit by chance, of each kind: measured, so that
/// hardly a take without habits has one (tools/bench habits).
constexpr double by_chance = 0.003;
/// A general description that holds at one place alone is that place.
constexpr double nearly_all = 0.8;
constexpr std::size_t most_habits = 8;

}  // namespace

HabitSearch::HabitSearch(const std::vector<Change>& changes, const std::vector<HabitGroup>& groups,
                         HabitMatter matter)
    : changes_(changes),
      groups_(groups),
      matter_(matter),
      tests_(changes.size()),
      faults_(faults_of(changes, matter)),
      is_open_(changes.size(), 0) {
    for (std::size_t i = 0; i < changes.size(); ++i) {
        if (is_judged_for_habits(changes[i]) && could_fail(changes[i], matter)) is_open_[i] = 1;
    }
    for (const auto& group : groups) ++tried_[static_cast<std::size_t>(group.kind)];
}

std::size_t HabitSearch::number_of(HabitFault fault) const {
    switch (matter_) {
        case HabitMatter::time:
            return static_cast<std::size_t>(fault) - static_cast<std::size_t>(HabitFault::late);
        case HabitMatter::tones:
            return static_cast<std::size_t>(fault) - static_cast<std::size_t>(HabitFault::wrong);
        default:
            return 0;
    }
}

/// What is left out is left out at a place.
bool HabitSearch::concerns(HabitKind kind) const {
    return matter_ != HabitMatter::absences || kind == HabitKind::place;
}

bool HabitSearch::is_case(std::size_t change, std::size_t fault) const {
    if (is_open_[change] == 0 || !faults_[change]) return false;
    return fault == fault_kinds || number_of(*faults_[change]) == fault;
}

HabitSearch::OpenCounts HabitSearch::count(const std::vector<std::size_t>& members) const {
    OpenCounts counts;
    for (const auto change : members) {
        if (is_open_[change] == 0) continue;
        ++counts.of;
        if (!faults_[change]) continue;
        ++counts.cases[number_of(*faults_[change])];
        ++counts.cases[fault_kinds];
    }
    return counts;
}

bool HabitSearch::is_habit(Share here, Share elsewhere, double groups_tried) const {
    const double least = std::max(fewest_of_all, times_as_often * elsewhere.rate());
    if (here.cases < fewest_cases || here.rate() < least) return false;
    // Of few changes elsewhere nobody knows how often it comes there: one more case than were seen.
    const double usual = (elsewhere.cases + 1.0) / (elsewhere.of + 2.0);
    return tests_.chance_of(here, usual) < by_chance / groups_tried;
}

double HabitSearch::groups_of(HabitKind kind) const {
    return std::max(1, tried_[static_cast<std::size_t>(kind)]);
}

/// Of two that tell it equally well, of tones the kind of chord rather than the way in, of time the
/// way in.
bool HabitSearch::is_better(const HabitGroup& group, double nats, const FoundGroup& than) const {
    if (nats != than.nats) return nats > than.nats;
    return matter_ != HabitMatter::tones && group.kind == HabitKind::transition &&
           than.group->kind != HabitKind::place;
}

std::optional<HabitSearch::FoundGroup> HabitSearch::best() const {
    std::vector<std::size_t> everything(changes_.size());
    for (std::size_t i = 0; i < everything.size(); ++i) everything[i] = i;
    const auto all = count(everything);
    std::optional<FoundGroup> best;
    for (const auto& group : groups_) {
        if (!concerns(group.kind)) continue;
        const auto here = count(group.members);
        for (std::size_t fault = 0; fault <= fault_kinds; ++fault) {
            const Share share = here.share(fault);
            const Share elsewhere{all.cases[fault] - share.cases, all.of - share.of};
            const double nats = nats_apart(share, elsewhere);
            if (best && !is_better(group, nats, *best)) continue;
            if (is_habit(share, elsewhere, groups_of(group.kind)))
                best = FoundGroup{&group, fault, nats};
        }
    }
    return best;
}

/// The place, where nearly all cases are at one.
HabitSearch::FoundGroup HabitSearch::narrowed(FoundGroup found) const {
    if (found.group->kind == HabitKind::place) return found;
    const auto cases = cases_of(found);
    for (const auto& group : groups_) {
        if (group.kind != HabitKind::place) continue;
        const auto here =
            std::count_if(group.members.begin(), group.members.end(), [&](std::size_t change) {
                return std::binary_search(cases.begin(), cases.end(), change);
            });
        if (static_cast<double>(here) < nearly_all * static_cast<double>(cases.size())) continue;
        found.group = &group;
        break;
    }
    return found;
}

std::vector<std::size_t> HabitSearch::cases_of(const FoundGroup& found) const {
    std::vector<std::size_t> cases;
    for (const auto change : found.group->members) {
        if (is_case(change, found.fault)) cases.push_back(change);
    }
    return cases;
}

Habit HabitSearch::habit_of(const FoundGroup& found) const {
    Habit habit;
    habit.kind = found.group->kind;
    habit.changes = cases_of(found);
    habit.of = count(found.group->members).of;
    return described(std::move(habit), changes_, faults_, matter_);
}

void HabitSearch::explain(const std::vector<std::size_t>& members) {
    for (const auto change : members) is_open_[change] = 0;
}

std::vector<Habit> HabitSearch::find() {
    std::vector<Habit> habits;
    while (habits.size() < most_habits) {
        const auto found = best();
        if (auto string = on_a_string(found ? found->nats : 0)) {
            explain(string->changes);
            habits.push_back(std::move(*string));
            continue;
        }
        if (!found) break;
        const auto habit = narrowed(*found);
        habits.push_back(habit_of(habit));
        explain(habit.group->members);
    }
    return habits;
}

}  // namespace compline::assess
