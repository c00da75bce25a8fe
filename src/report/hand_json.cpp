#include "hand_json.hpp"

namespace compline::report {

namespace {

using practice::HandMove;
using practice::HandUnknown;

Json unknown_json(HandUnknown unknown) {
    switch (unknown) {
        case HandUnknown::one_channel:
            return "one_channel";
        case HandUnknown::by_sound:
            return "sound";
        case HandUnknown::no:
            break;
    }
    return nullptr;
}

Json grip_json(const guitar::Grip& grip) {
    return {{"shape", grip.shape.text()}, {"fingers", grip.finger_text()}};
}

Json way_json(const guitar::Grip& from, const guitar::Grip& to, const guitar::Move& move) {
    return {{"from", grip_json(from)},
            {"to", grip_json(to)},
            {"frets", move.travel()},
            {"hand", move.hand},
            {"guided", move.is_guided()}};
}

Json guide_json(const guitar::FingerMove& guide) {
    return {{"finger", guitar::name_of(guide.finger)},
            {"string", guide.to_string},
            {"frets", guide.frets}};
}

Json nearer_json(const HandMove& move) {
    if (!move.nearer) return nullptr;
    auto json = way_json(move.held_before, move.nearer->grip, move.nearer->move);
    json["lifted_guides"] = list_json(move.nearer->guides, guide_json);
    return json;
}

Json hand_move_json(const HandMove& move) {
    return {{"bar", move.bar},
            {"beat", beat(move.beat)},
            {"from", move.from.symbol(as_letters)},
            {"to", move.to.symbol(as_letters)},
            {"moves", move.of},
            {"frets", rounded(move.frets)},
            {"plan_frets", rounded(move.plan_frets)},
            {"usual_times", move.times},
            {"usual", way_json(move.held_before, move.held, move.move)},
            {"plan", way_json(move.planned_before, move.planned, move.plan_move)},
            {"nearer", nearer_json(move)}};
}

Json hand_totals_json(const practice::HandTotals& totals) {
    return {{"frets", rounded(totals.frets)}, {"guided", rounded(totals.guided)}};
}

}  // namespace

Json hand_json(const practice::HandAgainstPlan& hand) {
    const auto& passed = hand.passed;
    return {{"unknown", unknown_json(hand.unknown)},
            {"voicings", hand.voicings},
            {"changes", hand.changes},
            {"passed_over",
             {{"not_struck", passed.not_struck},
              {"wrong", passed.wrong},
              {"uncertain", passed.uncertain},
              {"no_hand", passed.no_hand},
              {"no_plan", passed.no_plan}}},
            {"totals", hand_totals_json(hand.hand)},
            {"plan_totals", hand_totals_json(hand.plan)},
            {"moves", list_json(hand.moves, hand_move_json)}};
}

}  // namespace compline::report
