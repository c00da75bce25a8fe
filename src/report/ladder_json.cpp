#include "ladder_json.hpp"

namespace compline::report {

namespace {

Json rung_json(const practice::LadderCourse::Rung& rung) {
    return {{"tempo_bpm", shortest(rung.tempo.count())},
            {"times_through", rung.times},
            {"clean", rung.clean},
            {"best", {{"right", rung.right}, {"of", rung.due}}}};
}

}  // namespace

Json ladder_json(const std::optional<practice::LadderCourse>& course) {
    if (!course) return nullptr;
    return {{"from_bpm", shortest(course->asked.from.count())},
            {"to_bpm", shortest(course->asked.to.count())},
            {"clean_bpm", course->clean ? shortest(course->clean->count()) : Json(nullptr)},
            {"top_is_clean", course->is_done},
            {"enough_for_today", course->was_enough},
            {"rungs", list_json(course->rungs, rung_json)}};
}

}  // namespace compline::report
