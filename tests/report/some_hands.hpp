#pragma once

// What the hand did beside a plan, as values made by hand.

#include "report/planned.hpp"

#include <compline/practice/hand_against_plan.hpp>

#include <vector>

namespace compline::tests {

/// Bar 7, Am7♭5 to D7: the hand jumps though a finger could stay.
inline practice::HandMove a_jump(int bar = 7) {
    const auto neck = guitar::Fretboard::standard();
    practice::HandMove move;
    move.bar = bar;
    move.from = harmony::read_chord("Am7b5");
    move.to = harmony::read_chord("D7");
    move.of = move.times = 2;
    move.held_before = held("x x 7 8 8 8", "xx1234");
    move.held = held("x x 10 11 10 x", "xx132x");
    move.move = guitar::move_between(neck, move.held_before, move.held);
    move.frets = move.move.travel();
    move.planned_before = move.held_before;
    move.planned = held("x x 7 7 7 8", "xx1112");
    move.plan_move = guitar::move_between(neck, move.planned_before, move.planned);
    move.plan_frets = move.plan_move.travel();
    practice::NearerGrip nearer{move.planned, move.plan_move, {move.plan_move.fingers.front()}};
    move.nearer = nearer;
    return move;
}

inline practice::HandAgainstPlan hand_of(const std::vector<practice::HandMove>& moves) {
    practice::HandAgainstPlan hand;
    hand.moves = moves;
    hand.hand = {118.2, 9};
    hand.plan = {45.8, 20};
    return hand;
}

}  // namespace compline::tests
