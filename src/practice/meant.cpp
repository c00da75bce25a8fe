#include "meant.hpp"

#include <compline/text/bad_input.hpp>

#include <utility>
#include <variant>

namespace compline::practice {

namespace {

using roadmap::RoadMap;

bool is_new_tempo(const TimedDecision& decided) {
    return std::holds_alternative<roadmap::NewTempo>(decided.decision.what);
}

bool lays_out(const TimedDecision& decided) {
    return std::holds_alternative<roadmap::LaysOut>(decided.decision.what);
}

TakeInfo info_for(const chart::Form& form, const Take& take, const ScoreRequest& request) {
    TakeInfo info;
    if (take.info) {
        info = *take.info;
    } else {
        info.asked = roadmap::Asked::of(form.whole(), std::nullopt);
    }
    if (request.tempo) {
        info.asked.tempo = request.tempo;
        std::erase_if(info.decided, is_new_tempo);
    }
    return info;
}

/// The bars that are asked for, where more than these was played: then they are a part of it. A
/// take of ours says what was played, of one from elsewhere the player does.
std::optional<MeantRoad> part_of(const chart::Form& form, const Take& take,
                                 const ScoreRequest& request, const TakeInfo& info) {
    if (!take.info && !request.whole_form) return std::nullopt;
    std::optional<RoadMap> map;
    try {
        map = map_of(info, form);
    } catch (const text::BadInput&) {
        return std::nullopt;  // what the take says it was played by is not in this chart
    }
    const auto reach = map->way().reach();
    const auto asked = *request.passage;
    const bool within = reach.from <= asked.from && asked.to <= reach.to;
    if (!within || reach == asked) return std::nullopt;
    return MeantRoad{*map, asked, take.info && take.info->ended};
}

}  // namespace

MeantRoad what_was_meant(const chart::Form& form, const Take& take, const ScoreRequest& request) {
    auto info = info_for(form, take, request);
    if (!request.passage) return {map_of(info, form), {}, info.ended};
    if (auto part = part_of(form, take, request, info)) return *part;
    info.asked.way = chart::Way::of(*request.passage, std::nullopt);
    // Nothing is as long as it was then: what is played goes on until the take ends.
    std::erase_if(info.decided,
                  [](const TimedDecision& it) { return !is_new_tempo(it) && !lays_out(it); });
    return {map_of(info, form), {}, false};
}

}  // namespace compline::practice
