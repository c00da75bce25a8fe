#include "target.hpp"

namespace compline::assess {

Targets find_targets(const chart::Form& form, const chart::Route& route,
                     harmony::Strictness strictness) {
    Targets targets;
    targets.due = chart::due_changes(form, route);
    for (const auto& target : targets.due) {
        targets.palettes.emplace_back(target.to, target.around, strictness);
    }
    return targets;
}

}  // namespace compline::assess
