#include "drum_figures.hpp"

#include "keyed_chance.hpp"

#include <compline/band/drums.hpp>

#include <array>
#include <cassert>

namespace compline::band {

namespace {

using Figure = std::vector<FillStroke>;

constexpr auto snare = Drum::snare;
constexpr auto tom = Drum::tom;
constexpr auto kick = Drum::kick;
constexpr auto tap = Drum::brush_tap;
constexpr auto sweep = Drum::brush_sweep;

const std::array<Figure, fill_figures> with_sticks = {
    Figure{{0, snare, 78}, {1, snare, 70}, {2, tom, 78}, {3, tom, 84}},
    Figure{{0, snare, 74}, {1, snare, 66}, {2, snare, 74}, {3, snare, 84}},
    Figure{{0, snare, 80}, {1, tom, 72}, {2, kick, 60}, {3, tom, 84}},
    Figure{{0, kick, 56}, {1, snare, 78}, {2, kick, 58}, {3, snare, 86}},
    Figure{{2, snare, 76}, {3, tom, 84}},
    Figure{{2, tom, 76}, {3, snare, 86}},
    Figure{{0, tom, 76}, {1, snare, 80}, {3, snare, 84}},
};

const std::array<Figure, fill_figures> with_brushes = {
    Figure{{0, tap, 78}, {1, tap, 70}, {2, tap, 78}, {3, tap, 84}},
    Figure{{0, sweep, 72}, {2, tap, 74}, {3, tap, 82}},
    Figure{{0, tap, 78}, {1, tap, 70}, {2, kick, 56}, {3, tap, 82}},
    Figure{{0, kick, 52}, {1, tap, 76}, {2, kick, 54}, {3, tap, 82}},
    Figure{{2, tap, 76}, {3, tap, 82}},
    Figure{{0, tap, 74}, {1, tap, 68}, {2, sweep, 76}},
    Figure{{0, tap, 76}, {1, tap, 78}, {3, tap, 82}},
};

// One hand goes on with the time.
const std::array<Figure, light_figures> light_sticks = {
    Figure{{1, snare, 52}, {3, snare, 60}},
    Figure{{2, snare, 50}, {3, snare, 60}},
    Figure{{1, snare, 54}, {2, snare, 48}, {3, tom, 60}},
    Figure{{0, snare, 46}, {3, snare, 60}},
    Figure{{2, tom, 54}, {3, tom, 60}},
};

const std::array<Figure, light_figures> light_brushes = {
    Figure{{1, tap, 62}, {3, tap, 76}},
    Figure{{2, sweep, 64}, {3, tap, 76}},
    Figure{{1, tap, 58}, {2, sweep, 62}, {3, tap, 78}},
    Figure{{1, sweep, 60}, {3, tap, 74}},
    Figure{{1, tap, 64}, {3, sweep, 60}},
};

constexpr auto usual = Cell::usual;
constexpr auto leads_on = Cell::leads_on;
constexpr auto leads_in = Cell::leads_in;
constexpr auto quarters = Cell::quarters;

/// Quarters stand in third bars alone; the fourth bar leads on.
constexpr std::array<std::array<Cell, bars_of_phrase>, 6> phrases = {{
    {usual, usual, leads_on, usual},
    {usual, leads_in, usual, usual},
    {leads_on, usual, quarters, usual},
    {usual, usual, quarters, leads_on},
    {leads_in, usual, leads_on, usual},
    {usual, leads_on, usual, usual},
}};

}  // namespace

const std::vector<FillStroke>& fill_figure(int figure, bool brushed) {
    assert(figure >= 0 && figure < fill_figures);
    return (brushed ? with_brushes : with_sticks)[static_cast<std::size_t>(figure)];
}

const std::vector<FillStroke>& light_figure(int figure, bool brushed) {
    assert(figure >= 0 && figure < light_figures);
    return (brushed ? light_brushes : light_sticks)[static_cast<std::size_t>(figure)];
}

Cell cell_of(std::uint64_t phrase, int bar) {
    const int chosen = KeyedChance(phrase).below(static_cast<int>(phrases.size()));
    return phrases[static_cast<std::size_t>(chosen)][static_cast<std::size_t>(bar)];
}

int swell(time::Ticks in_phrase, time::Ticks bar) {
    // So a phrase's last bar is two to three decibels louder than its first: heard, and no
    // crescendo.
    constexpr int softest = -10;
    constexpr int loudest = 10;
    constexpr int last = -9;
    const time::Ticks top = bar * (bars_of_phrase - 1);
    if (in_phrase <= top) {
        return softest + static_cast<int>(in_phrase * (loudest - softest) / top);
    }
    return loudest - static_cast<int>((in_phrase - top) * (loudest - last) / bar);
}

}  // namespace compline::band
