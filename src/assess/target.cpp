#include "target.hpp"

#include <map>
#include <string>
#include <tuple>

namespace compline::assess {

Targets find_targets(const roadmap::RoadMap& map, time::Ticks from,
                     harmony::Strictness strictness) {
    Targets targets;
    targets.due = map.changes();
    std::erase_if(targets.due, [&](const Target& target) { return target.at < from; });
    std::map<std::tuple<std::string, bool, bool, bool, bool>, std::size_t> known;
    for (const auto& target : targets.due) {
        const auto& around = target.around;
        const auto [place, is_new] = known.try_emplace(
            {target.to.symbol(), around.falls, around.tonic_minor, around.blues, around.two_beats},
            targets.palettes.size());
        if (is_new) targets.palettes.emplace_back(target.to, around, strictness);
        targets.palette_of.push_back(place->second);
    }
    return targets;
}

}  // namespace compline::assess
