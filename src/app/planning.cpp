#include "planning.hpp"

#include "progress_line.hpp"

#include <compline/guitar/planning.hpp>
#include <compline/text/bad_input.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cstdint>
#include <new>
#include <stdexcept>

namespace compline::app {

std::vector<guitar::VoicingPlan> plan_for_player(const std::string& place,
                                                 const PlanningRequest& request) {
    const auto& [form, passage, tempo, fretboard, wishes, plans] = request;
    ProgressLine line("planning: ", ProgressLine::after_a_second);
    guitar::PlanningBounds bounds;
    bounds.progress = [&](std::int64_t done, std::int64_t all) {
        line.show(static_cast<double>(done) / static_cast<double>(std::max<std::int64_t>(all, 1)));
    };
    try {
        return guitar::plan_voicings(form, passage, tempo, fretboard, wishes, plans, bounds);
    } catch (const text::BadInput& error) {
        throw error.in(place);
    } catch (const std::bad_alloc&) {
        // What was kept is free again by now, so that there is room to say so.
        throw std::runtime_error(fmt::format("{}: out of memory while planning: ask for {}", place,
                                             guitar::less_to_plan(wishes, plans)));
    }
}

}  // namespace compline::app
