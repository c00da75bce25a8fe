#pragma once

#include "intent.hpp"

#include <compline/simulate/guitarist.hpp>

#include <optional>
#include <vector>

namespace compline::simulate {

/// One movement of the right hand, before it is known how long it rings.
struct HandStroke {
    enum class Kind { grip, single, dead };
    time::Ticks at;
    time::Seconds off{0};  ///< from there, as meant
    guitar::Shape shape;
    Kind kind = Kind::grip;
    bool exact = false;                ///< `off` is all: the player's own time is left out
    std::optional<std::size_t> lands;  ///< change, from 0
    bool broken = false;               ///< goes on with what rings, as a string of a broken chord
    bool held = false;                 ///< rings on, however short the player cuts his chords
    bool up = false;                   ///< from the highest string to the lowest
};

/// When a stroke is meant.
[[nodiscard]] time::Seconds time_of(const Road& road, const HandStroke& stroke);
/// From one stroke to the next there, at least.
[[nodiscard]] time::Seconds hands_need(const Road& road, time::Ticks at);

/// What is done around a chord, or instead of its rhythm: it is broken, approached, passed through.
void add_gesture(const Road& road, const Intent& chord, std::vector<HandStroke>& own,
                 Chance& chance);

struct Strokes {
    std::vector<HandStroke> all;      ///< in order of what is meant
    std::vector<time::Seconds> cuts;  ///< whatever rings is let go here
};

/// What the right hand does with all intents.
[[nodiscard]] Strokes strokes_of(const Road& road, const Habits& habits, const Intents& intents,
                                 Chance& chance);

/// When they are played and how long they ring.
[[nodiscard]] std::vector<ScriptedStrum> rung(const Road& road, const Habits& habits,
                                              const Strokes& strokes, Chance& chance);

}  // namespace compline::simulate
