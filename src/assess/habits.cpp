#include "habits.hpp"

#include <map>
#include <string>

namespace compline::assess {

namespace {

/// Fewer cases than these are chance.
constexpr int fewest_of_habit = 3;

bool lands_when_due(const Change& change) {
    return change.verdict == Verdict::on_time || change.verdict == Verdict::pushed ||
           change.verdict == Verdict::late || change.verdict == Verdict::early;
}

bool is_laid_out(const Change& change) { return change.verdict == Verdict::laid_out; }
bool is_placed(const Change& change) { return change.verdict == Verdict::placed; }

/// Cases at one place, or of one transition.
struct Cases {
    int of = 0;
    int so = 0;
    int neighbours = 0;      ///< beside those that are so
    int neighbours_due = 0;  ///< of these, that land where they are due
    std::vector<std::size_t> which;

    [[nodiscard]] bool is_habit() const {
        return so >= fewest_of_habit && 2 * so > of && 2 * neighbours_due > neighbours;
    }
};

using Is = bool (*)(const Change&);

void count(const std::vector<Change>& changes, std::size_t i, Is is, Cases& cases) {
    ++cases.of;
    if (!is(changes[i])) return;
    ++cases.so;
    cases.which.push_back(i);
    const auto look_at = [&](std::size_t other) {
        ++cases.neighbours;
        if (lands_when_due(changes[other])) ++cases.neighbours_due;
    };
    if (i > 0) look_at(i - 1);
    if (i + 1 < changes.size()) look_at(i + 1);
}

/// Habits among changes that have the same key. of: which count at all.
template <typename Key>
void mark(std::vector<Change>& changes, Key key, Is of, Is is, bool Change::*flag) {
    std::map<decltype(key(changes.front())), Cases> all;
    for (std::size_t i = 0; i < changes.size(); ++i) {
        const auto& change = changes[i];
        if (!change.uncertain && !change.seam && of(change)) {
            count(changes, i, is, all[key(change)]);
        }
    }
    for (const auto& [place, cases] : all) {
        if (!cases.is_habit()) continue;
        for (const auto i : cases.which) changes[i].*flag = true;
    }
}

auto place(const Change& change) { return std::pair(change.bar, change.beat); }

auto transition(const Change& change) {
    return std::pair(change.from ? change.from->symbol() : std::string(), change.to.symbol());
}

/// Who places a third of his changes or more by as much means to: that is a way of comping.
void forgive_manner(std::vector<Change>& changes) {
    std::map<double, std::size_t> placed;
    std::size_t struck = 0;
    for (const auto& change : changes) {
        if (is_placed(change)) ++placed[*change.beats_in];
        if (is_placed(change) || lands_when_due(change)) ++struck;
    }
    for (auto& change : changes) {
        if (change.wait && 3 * placed[*change.beats_in] >= struck) change.wait = false;
    }
}

}  // namespace

void mark_habits(std::vector<Change>& changes) {
    const Is struck = [](const Change& c) { return lands_when_due(c) || is_placed(c); };
    const Is any = [](const Change& c) { return could_be_left_out(c); };
    mark(changes, place, struck, is_placed, &Change::wait);
    mark(changes, transition, struck, is_placed, &Change::wait);
    mark(changes, place, any, is_laid_out, &Change::left_out);
    forgive_manner(changes);
}

}  // namespace compline::assess
