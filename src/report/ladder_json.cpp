#include "ladder_json.hpp"

namespace compline::report {

namespace {

Json rung_json(const practice::LadderTold::Rung& rung) {
    return {{"tempo_bpm", shortest(rung.tempo.count())},
            {"times_through", rung.times},
            {"clean", rung.clean},
            {"best", {{"right", rung.right}, {"of", rung.due}}}};
}

}  // namespace

Json ladder_json(const std::optional<practice::LadderTold>& told) {
    if (!told) return nullptr;
    return {{"from_bpm", shortest(told->asked.from.count())},
            {"to_bpm", shortest(told->asked.to.count())},
            {"clean_bpm", told->clean ? shortest(told->clean->count()) : Json(nullptr)},
            {"top_is_clean", told->is_done},
            {"enough_for_today", told->was_enough},
            {"rungs", list_json(told->rungs, rung_json)}};
}

}  // namespace compline::report
