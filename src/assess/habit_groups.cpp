#include "habit_groups.hpp"

#include "habits.hpp"

#include <map>
#include <set>
#include <utility>

namespace compline::assess {

namespace {

using Members = std::vector<std::size_t>;

/// Gathers groups of one kind by a key.
template <typename Key>
class GroupMaker {
  public:
    explicit GroupMaker(HabitKind kind) : kind_(kind) {}

    void add(const Key& key, std::size_t change) { members_[key].push_back(change); }

    void give(std::size_t fewest, std::vector<HabitGroup>& groups) {
        for (auto& [key, members] : members_) {
            if (members.size() >= fewest) groups.push_back({kind_, std::move(members)});
        }
    }

  private:
    HabitKind kind_;
    std::map<Key, Members> members_;
};

using Symbols = std::pair<std::string, std::string>;

struct GroupMakers {
    GroupMaker<std::pair<int, time::BeatOfBar>> places{HabitKind::place};
    GroupMaker<Symbols> transitions{HabitKind::transition};
    GroupMaker<int> wide_moves{HabitKind::wide_move};
    GroupMaker<int> after_fills{HabitKind::after_fill};
    GroupMaker<int> into_sections{HabitKind::into_section};
    GroupMaker<std::string> qualities{HabitKind::quality};

    void add(const Change& change, std::size_t i) {
        places.add({change.bar, change.beat}, i);
        if (change.from) transitions.add({change.from->symbol(), change.to.symbol()}, i);
        if (change.wide_move) wide_moves.add(0, i);
        if (change.after_fill) after_fills.add(0, i);
        if (change.into_section) into_sections.add(0, i);
        qualities.add(quality_words(change.to), i);
    }
};

/// Where a third of the struck changes or more are let in, that is a way of comping.
std::set<double> manners_of(const std::vector<Change>& changes) {
    std::map<double, std::size_t> placed;
    std::size_t struck = 0;
    for (const auto& change : changes) {
        if (!could_fail(change, HabitMatter::waits)) continue;
        ++struck;
        if (change.verdict == Verdict::placed) ++placed[*change.beats_in];
    }
    std::set<double> manners;
    for (const auto& [beats_in, count] : placed) {
        if (3 * count >= struck) manners.insert(beats_in);
    }
    return manners;
}

std::optional<HabitFault> fault_of(const Change& change, HabitMatter matter) {
    const auto is = [&](Verdict verdict) { return change.verdict == verdict; };
    switch (matter) {
        case HabitMatter::time:
            if (is(Verdict::late)) return HabitFault::late;
            if (is(Verdict::early)) return HabitFault::early;
            if (is(Verdict::missed)) return HabitFault::missed;
            break;
        case HabitMatter::tones:
            if (change.tones == Tones::wrong) return HabitFault::wrong;
            if (change.tones == Tones::incomplete) return HabitFault::incomplete;
            break;
        case HabitMatter::waits:
            if (is(Verdict::placed)) return HabitFault::wait;
            break;
        case HabitMatter::absences:
            if (is(Verdict::laid_out)) return HabitFault::left_out;
            break;
    }
    return std::nullopt;
}

}  // namespace

bool is_judged_for_habits(const Change& change) {
    return !change.uncertain && !change.seam && change.verdict != Verdict::astray;
}

bool could_fail(const Change& change, HabitMatter matter) {
    if (matter == HabitMatter::absences) return could_be_left_out(change);
    switch (change.verdict) {
        case Verdict::held:
        case Verdict::laid_out:
        case Verdict::astray:
            return false;
        case Verdict::missed:
            return matter == HabitMatter::time;
        default:
            return matter != HabitMatter::tones || change.tones != Tones::none;
    }
}

std::vector<std::optional<HabitFault>> faults_of(const std::vector<Change>& changes,
                                                 HabitMatter matter) {
    const auto manners = matter == HabitMatter::waits ? manners_of(changes) : std::set<double>{};
    std::vector<std::optional<HabitFault>> faults;
    for (const auto& change : changes) {
        auto fault = fault_of(change, matter);
        if (fault == HabitFault::wait && manners.count(*change.beats_in) > 0) fault.reset();
        faults.push_back(fault);
    }
    return faults;
}

double cost_of(const Change& change, HabitMatter matter) {
    constexpr double of_wait = 0.25;
    if (matter == HabitMatter::tones) return change.tones_cost();
    return matter == HabitMatter::time ? change.time_cost() : of_wait;
}

std::vector<HabitGroup> habit_groups(const std::vector<Change>& changes, std::size_t fewest) {
    GroupMakers makers;
    for (std::size_t i = 0; i < changes.size(); ++i) {
        if (is_judged_for_habits(changes[i])) makers.add(changes[i], i);
    }
    std::vector<HabitGroup> groups;
    makers.places.give(fewest, groups);
    makers.wide_moves.give(fewest, groups);
    makers.after_fills.give(fewest, groups);
    makers.into_sections.give(fewest, groups);
    makers.qualities.give(fewest, groups);
    makers.transitions.give(fewest, groups);
    return groups;
}

}  // namespace compline::assess
