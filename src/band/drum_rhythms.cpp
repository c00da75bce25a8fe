#include "drum_rhythms.hpp"

#include "bar_grid.hpp"

#include <algorithm>

namespace compline::band {

namespace {

using time::Ticks;

constexpr int skip = 70;
constexpr int back_beat = 88;  // in 6/8, 9/8, 12/8
constexpr int triple_beat = 82;
constexpr int triple_middle = 62;

void leave_out(DrumRhythm& rhythm, Ticks at) {
    rhythm.erase(std::remove_if(rhythm.begin(), rhythm.end(),
                                [&](const Touch& touch) { return touch.at == at; }),
                 rhythm.end());
}

/// All three eighths of a beat, the last one leading on.
DrumRhythm in_triples(const time::Meter& meter, Cell cell) {
    const BarGrid grid(meter);
    DrumRhythm rhythm;
    for (int i = 0; i < grid.pulses; ++i) {
        const bool last = i + 1 == grid.pulses;
        const bool lighter = cell == Cell::quarters || (cell == Cell::leads_on && !last) ||
                             (cell == Cell::leads_in && last);
        rhythm.push_back({grid.on(i), is_back_beat(i + 1, meter) ? back_beat : triple_beat});
        if (!lighter) rhythm.push_back({grid.on(i) + grid.short_note, triple_middle});
        rhythm.push_back({grid.off(i), skip});
    }
    return rhythm;
}

/// Six is twice three, unless double-time makes it of three times two.
bool is_twice_three(const time::Meter& meter) { return !meter.is_strong(2); }

/// The usual bar: of twos, with a skip ahead of every other beat, or of threes.
DrumRhythm usual_rhythm(const time::Meter& meter) {
    const BarGrid grid(meter);
    const auto on = [&](int number) { return grid.on(number - 1); };
    const auto off = [&](int number) { return grid.off(number - 1); };
    if (grid.pulses == 1) return {{on(1), 84}, {off(1), skip}};
    if (grid.pulses == 3) return {{on(1), 86}, {on(2), 82}, {off(2), skip}, {on(3), 82}};
    if (grid.pulses == 5) {
        return {{on(1), 84}, {on(2), 82}, {off(2), skip}, {on(3), 80},
                {on(4), 84}, {on(5), 88}, {off(5), skip}};
    }
    if (grid.pulses == 6 && is_twice_three(meter)) {
        return {{on(1), 86}, {on(2), 82}, {off(2), skip}, {on(3), 82},
                {on(4), 84}, {on(5), 82}, {off(5), skip}, {on(6), 82}};
    }
    DrumRhythm rhythm;
    for (int number = 1; number < grid.pulses; number += 2) {
        rhythm.push_back({on(number), 80});
        rhythm.push_back({on(number + 1), 90});
        rhythm.push_back({off(number + 1), skip});
    }
    return rhythm;
}

DrumRhythm in_a_cell(const time::Meter& meter, Cell cell) {
    auto rhythm = usual_rhythm(meter);
    if (cell == Cell::usual) return rhythm;
    const BarGrid grid(meter);
    const auto is_skip = [&](const Touch& touch) { return !grid.is_on(touch.at); };
    if (cell == Cell::quarters) {
        rhythm.erase(std::remove_if(rhythm.begin(), rhythm.end(), is_skip), rhythm.end());
        return rhythm;
    }
    if (grid.pulses == 3) {
        rhythm.push_back({grid.off(2), skip});
        if (cell == Cell::leads_on) leave_out(rhythm, grid.off(1));
        return rhythm;
    }
    const auto first = std::find_if(rhythm.begin(), rhythm.end(), is_skip)->at;
    const auto last = std::find_if(rhythm.rbegin(), rhythm.rend(), is_skip)->at;
    // A short bar has one skip alone, and keeps it.
    if (first != last) leave_out(rhythm, cell == Cell::leads_on ? first : last);
    return rhythm;
}

/// In threes: a kick on 1 (12/8: and 3), the stick where the bar leans, every second bar an eighth
/// ahead.
BossaBar bossa_in_triples(const time::Meter& meter, bool first) {
    const BarGrid grid(meter);
    BossaBar bar;
    for (int i = 0; i < grid.pulses; ++i) {
        if (is_back_beat(i + 1, meter)) {
            bar.sticks.push_back(first ? grid.on(i) : grid.off(i - 1));
        } else {
            bar.kicks.push_back({grid.on(i), 52});
        }
    }
    return bar;
}

/// Four pulses of it, from `from`.
void add_bossa_of_four(const BarGrid& grid, int from, bool first, BossaBar& bar) {
    const auto sticks = first ? std::vector{grid.on(from), grid.off(from + 1), grid.on(from + 3)}
                              : std::vector{grid.on(from + 1), grid.off(from + 2)};
    bar.sticks.insert(bar.sticks.end(), sticks.begin(), sticks.end());
    bar.kicks.push_back({grid.on(from), 52});
    bar.kicks.push_back({grid.off(from + 1), 46});
    bar.kicks.push_back({grid.on(from + 2), 54});
    bar.kicks.push_back({grid.off(from + 3), 46});
}

}  // namespace

DrumRhythm time_rhythm(const time::Meter& meter, Cell cell) {
    return meter.is_compound() ? in_triples(meter, cell) : in_a_cell(meter, cell);
}

DrumRhythm tap_rhythm(const time::Meter& meter, Cell cell) {
    return time_rhythm(meter, meter.is_compound() ? Cell::quarters : cell);
}

DrumRhythm every_pulse(const time::Meter& meter, int velocity) {
    const BarGrid grid(meter);
    DrumRhythm rhythm;
    for (int i = 0; i < grid.pulses; ++i) rhythm.push_back({grid.on(i), velocity});
    return rhythm;
}

DrumRhythm every_eighth(const time::Meter& meter, int on, int off, Cell cell) {
    const BarGrid grid(meter);
    DrumRhythm rhythm;
    for (Ticks at; at < grid.bar; at += grid.short_note) {
        rhythm.push_back({at, grid.is_on(at) ? on : off});
    }
    if (cell == Cell::leads_on || cell == Cell::quarters) leave_out(rhythm, grid.off(0));
    if (cell == Cell::leads_in || cell == Cell::quarters) leave_out(rhythm, grid.off(2));
    return rhythm;
}

BossaBar bossa_bar(const time::Meter& meter, bool first) {
    if (meter.is_compound()) return bossa_in_triples(meter, first);
    const BarGrid grid(meter);
    BossaBar bar;
    if (grid.pulses % 4 == 0) {
        const bool both = grid.pulses == 8;
        add_bossa_of_four(grid, 0, first || both, bar);
        if (both) add_bossa_of_four(grid, 4, false, bar);
        return bar;
    }
    for (int i = 0; i < meter.beats(); ++i) {
        if (!meter.is_strong(i)) continue;
        bar.kicks.push_back({grid.on(i), 52});
        if (i + 1 == grid.pulses) continue;  // a bar of a single beat has no room
        bar.sticks.push_back(first ? grid.off(i + 1) : grid.on(i + 1));
    }
    return bar;
}

bool is_back_beat(int number, const time::Meter& meter) {
    const int beats = meter.beats();
    if (beats == 3 && meter.is_compound()) return number != 1;
    if (beats == 3) return number == 2;
    if (beats == 5 || (beats == 6 && is_twice_three(meter))) return number == 2 || number == 5;
    return number % 2 == 0;
}

}  // namespace compline::band
