#include <compline/band/walk.hpp>

#include <array>
#include <cassert>
#include <cstddef>
#include <cstdlib>
#include <limits>

namespace compline::band {

namespace {

// What the costs are weighed against: a step is free, a third nearly so, a tritone or a sixth is
// rare in a walking line, and a note struck twice running does not walk.
constexpr std::array<int, 13> leap_costs = {14, 0, 0, 1, 1, 2, 6, 3, 7, 8, 9, 10, 6};
constexpr int turn_cost = 1;          // changing direction
constexpr int to_and_fro_cost = 5;    // the note before last again
constexpr int unsettled_cost = 3;     // a semitone outside the settled register
constexpr int middle = 41;            // of the settled register: F2
constexpr int semitones_a_point = 3;  // the gentle pull towards the middle
constexpr int widest_leap = 12;
constexpr int never = std::numeric_limits<int>::max() / 4;

struct Candidate {
    int note;
    int cost;
};
using Candidates = std::vector<Candidate>;

int register_cost(int note) {
    int cost = std::abs(note - middle) / semitones_a_point;
    if (note < settled_low.number()) cost += unsettled_cost * (settled_low.number() - note);
    if (note > settled_high.number()) cost += unsettled_cost * (note - settled_high.number());
    return cost;
}

Candidates candidates_of(const Step& step) {
    assert(!step.choices.empty());
    Candidates candidates;
    for (int note = lowest_bass.number(); note <= highest_bass.number(); ++note) {
        for (const auto& choice : step.choices) {
            if (note % 12 != choice.pitch_class) continue;
            candidates.push_back({note, choice.cost + register_cost(note)});
        }
    }
    return candidates;
}

int move_cost(int from, int to, int limit) {
    const int leap = std::abs(to - from);
    return leap > limit ? never : leap_costs[static_cast<std::size_t>(leap)];
}

int shape_cost(int before, int from, int to) {
    if (before == to) return to_and_fro_cost;
    return (from - before) * (to - from) < 0 ? turn_cost : 0;
}

/// Cheapest lines so far by their last two notes, and the note before each of those pairs.
struct Column {
    std::size_t width = 0;          // how many last notes there are
    std::vector<int> cost;          // [last but one][last]
    std::vector<std::size_t> back;  // index of the last but two
    [[nodiscard]] std::size_t at(std::size_t from, std::size_t to) const {
        return from * width + to;
    }
};

Column column_of(std::size_t rows, std::size_t width) {
    return {width, std::vector<int>(rows * width, never), std::vector<std::size_t>(rows * width)};
}

Column first_column(const Candidates& from, const Candidates& to, int limit) {
    Column column = column_of(from.size(), to.size());
    for (std::size_t j = 0; j < from.size(); ++j) {
        for (std::size_t k = 0; k < to.size(); ++k) {
            const int move = move_cost(from[j].note, to[k].note, limit);
            if (move != never) column.cost[column.at(j, k)] = from[j].cost + to[k].cost + move;
        }
    }
    return column;
}

Column next_column(const Column& last, const Candidates& before, const Candidates& from,
                   const Candidates& to, int limit) {
    Column column = column_of(from.size(), to.size());
    for (std::size_t j = 0; j < from.size(); ++j) {
        for (std::size_t k = 0; k < to.size(); ++k) {
            const int move = move_cost(from[j].note, to[k].note, limit);
            if (move == never) continue;
            const std::size_t here = column.at(j, k);
            for (std::size_t h = 0; h < before.size(); ++h) {
                const int so_far = last.cost[last.at(h, j)];
                if (so_far == never) continue;
                const int cost = so_far + move + to[k].cost +
                                 shape_cost(before[h].note, from[j].note, to[k].note);
                if (cost >= column.cost[here]) continue;
                column.cost[here] = cost;
                column.back[here] = h;
            }
        }
    }
    return column;
}

std::size_t cheapest(const std::vector<int>& cost) {
    std::size_t best = 0;
    for (std::size_t i = 1; i < cost.size(); ++i) {
        if (cost[i] < cost[best]) best = i;
    }
    assert(cost[best] != never);  // every pitch class has a note within an octave of any other
    return best;
}

/// columns[i] ends on step i + 1.
std::vector<harmony::MidiNote> trace_back(const std::vector<Candidates>& notes,
                                          const std::vector<Column>& columns) {
    std::vector<harmony::MidiNote> line(notes.size(), lowest_bass);
    const std::size_t pair = cheapest(columns.back().cost);
    std::size_t to = pair % columns.back().width;
    std::size_t from = pair / columns.back().width;
    for (std::size_t i = notes.size() - 1; i > 0; --i) {
        line[i] = harmony::MidiNote(notes[i][to].note);
        line[i - 1] = harmony::MidiNote(notes[i - 1][from].note);
        const std::size_t before = columns[i - 1].back[columns[i - 1].at(from, to)];
        to = from;
        from = before;
    }
    return line;
}

std::vector<harmony::MidiNote> single_note(const Candidates& notes) {
    std::vector<int> costs;
    for (const auto& note : notes) costs.push_back(note.cost);
    return {harmony::MidiNote(notes[cheapest(costs)].note)};
}

}  // namespace

std::vector<harmony::MidiNote> walk(const std::vector<Step>& steps, const Lead& lead) {
    if (steps.empty()) return {};
    std::vector<Candidates> notes;
    std::vector<int> leaps;  // from each note to the next
    notes.reserve(lead.notes.size() + steps.size());
    for (const auto note : lead.notes) {
        notes.push_back({{note.number(), 0}});  // no choice any more
        leaps.push_back(lead.leap_to_next);
    }
    for (const auto& step : steps) {
        notes.push_back(candidates_of(step));
        leaps.push_back(step.leap_to_next);
    }
    if (notes.size() == 1) return single_note(notes[0]);
    if (lead.notes.size() > 1) leaps.front() = widest_leap;  // it was made long ago

    // Costs are kept relative to the cheapest, so that no length of form can overflow them.
    std::vector<Column> columns{first_column(notes[0], notes[1], leaps[0])};
    for (std::size_t i = 2; i < notes.size(); ++i) {
        columns.push_back(
            next_column(columns.back(), notes[i - 2], notes[i - 1], notes[i], leaps[i - 1]));
        auto& costs = columns.back().cost;
        const int least = costs[cheapest(costs)];
        for (int& cost : costs) {
            if (cost != never) cost -= least;
        }
    }
    auto line = trace_back(notes, columns);
    line.erase(line.begin(), line.begin() + static_cast<std::ptrdiff_t>(lead.notes.size()));
    return line;
}

}  // namespace compline::band
