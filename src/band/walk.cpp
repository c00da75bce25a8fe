#include <compline/band/walk.hpp>

#include <algorithm>
#include <array>
#include <cassert>
#include <cstddef>
#include <cstdlib>
#include <limits>

namespace compline::band {

namespace {

// What the choices are weighed against: steps and thirds are what a line is made of, fourths and
// fifths are for roots; a tritone or a sixth is rare and a seventh hardly ever sung. The octave
// lifts a line into another register. A note struck twice running does not walk.
constexpr std::array<int, 13> leap_costs = {20, 1, 0, 1, 1, 2, 8, 3, 7, 8, 14, 18, 7};
constexpr int turn_cost = 1;        // changing direction
constexpr int turn_again_cost = 3;  // and again on the very next note: zigzag
constexpr int to_and_fro_cost = 9;  // the note before last again
constexpr int leap_on_cost = 5;     // a leap (a fourth or more) after one the same way
constexpr int leap_away_cost = 4;   // going on after a leap of a sixth or more
constexpr int leap = 5;
constexpr int wide_leap = 8;
constexpr int octave_leap = 12;
constexpr int never = std::numeric_limits<int>::max() / 4;

/// What three notes running cost, by their two intervals.
struct ThreeNoteCost {
    std::array<int, 2> cost = {0,
                               0};  // when the line did not turn on the first of them; when it did
    bool turns = false;
};

ThreeNoteCost shape_of(int before, int after) {
    ThreeNoteCost shape;
    shape.turns = before * after < 0;
    int cost = shape.turns ? turn_cost : 0;
    if (before != 0 && before == -after) cost += to_and_fro_cost;
    const bool same_way = before * after > 0;
    // Root, fifth, octave is one gesture.
    const bool fills_octave = std::abs(before + after) == octave_leap;
    if (same_way && std::abs(before) >= leap && std::abs(after) >= leap && !fills_octave) {
        cost += leap_on_cost;
    }
    if (same_way && std::abs(before) >= wide_leap) cost += leap_away_cost;
    shape.cost = {cost, cost + (shape.turns ? turn_again_cost : 0)};
    return shape;
}

constexpr int dearest_shape =
    turn_cost + turn_again_cost + to_and_fro_cost + leap_on_cost + leap_away_cost;

/// Intervals beyond the octave count as octaves: 0 to 24.
constexpr std::size_t intervals = 2 * octave_leap + 1;
std::size_t index_of(int interval) {
    return static_cast<std::size_t>(std::clamp(interval, -octave_leap, octave_leap) + octave_leap);
}

using ShapesAfter = std::array<ThreeNoteCost, intervals>;  // by the interval before

/// By the interval after.
const std::array<ShapesAfter, intervals>& shapes() {
    static const auto all = [] {
        std::array<ShapesAfter, intervals> table;
        for (int after = -octave_leap; after <= octave_leap; ++after) {
            for (int before = -octave_leap; before <= octave_leap; ++before) {
                table[index_of(after)][index_of(before)] = shape_of(before, after);
            }
        }
        return table;
    }();
    return all;
}

/// Cheapest lines so far by their last two notes and whether they turned between:
/// [to][from][turned].
struct Column {
    std::vector<int> cost;
    std::vector<std::uint8_t> back;  // the note before those two, and whether it turned before
    std::size_t rows = 0;            // how many notes `from` can be

    Column(std::size_t from, std::size_t to)
        : cost(from * to * 2, never), back(from * to * 2, 0), rows(from) {}
    [[nodiscard]] std::size_t at(std::size_t from, std::size_t to, bool turned) const {
        return (to * rows + from) * 2 + (turned ? 1 : 0);
    }
    [[nodiscard]] bool dead() const {
        return std::all_of(cost.begin(), cost.end(), [](int one) { return one == never; });
    }
};

int interval(const Choice& from, const Choice& to) { return to.note.number() - from.note.number(); }

using StepList = std::vector<const Step*>;

/// What a line keeps, and what it keeps where that cannot be.
enum class Keeps { reach, range, nothing };

bool reaches(const Choice& from, const Choice& to, Keeps keeps) {
    if (keeps == Keeps::nothing) return true;
    const int way = interval(from, to);
    if (std::abs(way) > octave_leap) return false;
    return keeps == Keeps::range || (from.reach & to.from & by(way)) != 0;
}

int move_cost(const Choice& from, const Choice& to, const Step& step) {
    const int distance = std::min(std::abs(interval(from, to)), octave_leap);
    return step.repeats && distance == 0 ? 0 : leap_costs[static_cast<std::size_t>(distance)];
}

Column first_column(const Step& from, const Step& to, Keeps keeps, bool turned) {
    Column column(from.choices.size(), to.choices.size());
    for (std::size_t j = 0; j < from.choices.size(); ++j) {
        for (std::size_t k = 0; k < to.choices.size(); ++k) {
            const auto& one = from.choices[j];
            const auto& two = to.choices[k];
            if (!reaches(one, two, keeps)) continue;
            column.cost[column.at(j, k, turned)] = one.cost + two.cost + move_cost(one, two, to);
        }
    }
    return column;
}

/// A line up to a note that may still turn out to be the cheapest.
struct OpenLine {
    int cost;
    std::uint8_t came;  // the interval to that note
    std::uint8_t turned;
    std::uint8_t back;  // as in Column
};

/// The open lines that end on choice j. Left out is what another line beats, whatever comes: one
/// that costs more by all that a shape can cost.
void find_open(const Column& last, const Step& before, const Choice& here, std::size_t j,
               std::vector<OpenLine>& open) {
    open.clear();
    int least = never;
    const int* const costs = last.cost.data() + last.at(0, j, false);
    for (std::size_t h = 0; h < before.choices.size(); ++h) {
        // A note struck again may not be struck a third time: such a line beats no other.
        if (before.choices[h].note == here.note) continue;
        least = std::min({least, costs[2 * h], costs[2 * h + 1]});
    }
    const int bound = least == never ? never : least + dearest_shape + 1;
    for (std::size_t h = 0; h < before.choices.size(); ++h) {
        const auto came = static_cast<std::uint8_t>(index_of(interval(before.choices[h], here)));
        for (const std::size_t turned : {0U, 1U}) {
            const int cost = costs[2 * h + turned];
            if (cost >= bound) continue;
            open.push_back({cost, came, static_cast<std::uint8_t>(turned),
                            static_cast<std::uint8_t>(2 * h + turned)});
        }
    }
}

/// The best of the open lines that go on by an interval, by whether they turn.
struct Best {
    std::array<int, 2> cost = {never, never};
    std::array<std::uint8_t, 2> back = {0, 0};
};

Best best_of(const std::vector<OpenLine>& open, int after, const Step& to, Keeps keeps) {
    static const ShapesAfter no_shapes{};
    const auto& shape = to.walks ? shapes()[index_of(after)] : no_shapes;
    const bool no_third_time = after == 0 && !to.stays && keeps != Keeps::nothing;
    Best best;
    for (const auto& line : open) {
        if (no_third_time && line.came == index_of(0)) continue;
        const auto& it = shape[line.came];
        const int cost = line.cost + it.cost[line.turned];
        const std::size_t turns = it.turns ? 1 : 0;
        if (cost >= best.cost[turns]) continue;
        best.cost[turns] = cost;
        best.back[turns] = line.back;
    }
    return best;
}

Column next_column(const Column& last, const Step& before, const Step& from, const Step& to,
                   Keeps keeps) {
    Column column(from.choices.size(), to.choices.size());
    std::vector<OpenLine> open;
    open.reserve(before.choices.size() * 2);
    for (std::size_t j = 0; j < from.choices.size(); ++j) {
        const auto& one = from.choices[j];
        find_open(last, before, one, j, open);
        if (open.empty()) continue;
        for (std::size_t k = 0; k < to.choices.size(); ++k) {
            const auto& two = to.choices[k];
            if (!reaches(one, two, keeps)) continue;
            const auto best = best_of(open, interval(one, two), to, keeps);
            const int move = two.cost + move_cost(one, two, to);
            for (const std::size_t turned : {0U, 1U}) {
                if (best.cost[turned] >= never) continue;
                const auto here = column.at(j, k, turned != 0);
                column.cost[here] = best.cost[turned] + move;
                column.back[here] = best.back[turned];
            }
        }
    }
    return column;
}

/// The first column that is not dead; the last is none.
template <typename Make>
Column living(Make make) {
    for (const auto keeps : {Keeps::reach, Keeps::range}) {
        auto column = make(keeps);
        if (!column.dead()) return column;
    }
    return make(Keeps::nothing);
}

std::vector<Column> columns_of(const StepList& steps, bool turned) {
    std::vector<Column> columns;
    columns.reserve(steps.size() - 1);
    columns.push_back(
        living([&](Keeps keeps) { return first_column(*steps[0], *steps[1], keeps, turned); }));
    for (std::size_t i = 2; i < steps.size(); ++i) {
        columns.push_back(living([&](Keeps keeps) {
            return next_column(columns.back(), *steps[i - 2], *steps[i - 1], *steps[i], keeps);
        }));
    }
    return columns;
}

/// columns[i] ends on step i + 1.
std::vector<Choice> trace_back(const StepList& steps, const std::vector<Column>& columns) {
    const auto& costs = columns.back().cost;
    auto state =
        static_cast<std::size_t>(std::min_element(costs.begin(), costs.end()) - costs.begin());
    assert(costs[state] < never);
    std::vector<Choice> line(steps.size(), Choice{lowest_bass});
    for (std::size_t i = steps.size() - 1; i > 0; --i) {
        const auto& column = columns[i - 1];
        const std::size_t to = state / 2 / column.rows;
        const std::size_t from = state / 2 % column.rows;
        line[i] = steps[i]->choices[to];
        line[i - 1] = steps[i - 1]->choices[from];
        if (i == 1) break;
        const auto back = column.back[state];
        state = columns[i - 2].at(back / 2, from, back % 2 != 0);
    }
    return line;
}

}  // namespace

std::vector<Choice> walk(const std::vector<Step>& steps, const LineSoFar& lead) {
    if (steps.empty()) return {};
    std::vector<Step> before;
    for (const auto note : lead.notes) before.push_back({{{note}}});  // no choice any more
    if (!before.empty()) before.back().choices.front().reach = lead.reach;
    StepList all;
    all.reserve(before.size() + steps.size());
    for (const auto& step : before) all.push_back(&step);
    for (const auto& step : steps) all.push_back(&step);
    if (all.size() == 1) {
        const auto& choices = steps[0].choices;
        return {*std::min_element(choices.begin(), choices.end(),
                                  [](const auto& a, const auto& b) { return a.cost < b.cost; })};
    }
    auto line = trace_back(all, columns_of(all, lead.turned));
    line.erase(line.begin(), line.begin() + static_cast<std::ptrdiff_t>(lead.notes.size()));
    return line;
}

LineSoFar lead_after(const LineSoFar& lead, const std::vector<Choice>& line) {
    if (line.empty()) return lead;
    auto notes = lead.notes;
    for (const auto& choice : line) notes.push_back(choice.note);
    const auto count = notes.size();
    LineSoFar after;
    after.reach = line.back().reach;
    if (count > 2) {
        const int came = notes[count - 2].number() - notes[count - 3].number();
        const int went = notes[count - 1].number() - notes[count - 2].number();
        after.turned = came * went < 0;
    }
    const auto kept = static_cast<std::ptrdiff_t>(std::min<std::size_t>(count, 2));
    after.notes.assign(notes.end() - kept, notes.end());
    return after;
}

}  // namespace compline::band
