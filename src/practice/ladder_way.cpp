#include <compline/practice/ladder.hpp>
#include <compline/practice/rows.hpp>

#include <algorithm>
#include <cassert>
#include <cmath>
#include <utility>

namespace compline::practice {

// What a ladder makes of a road map, and what its steps tell afterwards.

using roadmap::Decision;
using roadmap::LadderStep;
using roadmap::RoadMap;
using time::Bpm;

/// A pause that is over at once: it has room for the sticks alone. In 9/8 half a quarter more.
std::vector<Decision> with_sticks(const chart::Form& form, std::int64_t from_bar, Bpm tempo,
                                  const chart::Way& way) {
    const auto meter = form.bar(way.stretches.front().passage.from).meter;
    const auto beats = static_cast<int>(std::ceil(time::Beats(meter.bar()).count()));
    return {{from_bar, roadmap::Paused{}},
            {from_bar, roadmap::NewTempo{tempo}},
            {from_bar, roadmap::Waited{beats, way}}};
}

chart::Way once_around(const chart::Form& form, chart::Passage loop) {
    if (loop == form.whole()) return chart::Way::through(form, loop, 1);
    return chart::Way::through(form, section_around(form, loop.from), 1);
}

RoadMap climbed(const chart::Form& form, roadmap::Asked asked) {
    assert(asked.ladder);
    const auto loop = asked.way.stretches.front().passage;
    asked.way = chart::Way::of(loop, std::nullopt);
    asked.tempo = asked.ladder->from;
    // Few bars, so that each rung is played twice.
    Ladder ladder(*asked.ladder, 1);
    RoadMap map(form, asked);
    for (int time_through = 1; !ladder.is_over(); ++time_through) {
        const auto step = ladder.count(time_through, {1, 1, 1, 0});
        if (step.next == LadderStep::Next::again) continue;
        const auto way = ladder.is_over() ? once_around(form, loop) : asked.way;
        for (const auto& decision :
             with_sticks(form, map.first_bar(time_through + 1), step.next_tempo, way)) {
            map = map.with(decision);
        }
    }
    return map;
}

LadderCourse ladder_course(const roadmap::AskedLadder& asked, std::span<const LadderStep> steps) {
    LadderCourse course;
    course.asked = asked;
    for (const auto& step : steps) {
        if (step.judged == LadderStep::Judged::not_whole) continue;
        auto& rungs = course.rungs;
        auto rung = std::lower_bound(rungs.begin(), rungs.end(), step.tempo,
                                     [](const auto& it, Bpm tempo) { return it.tempo < tempo; });
        if (rung == rungs.end() || rung->tempo != step.tempo) {
            rung = rungs.insert(rung, {step.tempo, 0, 0, 0, 0});
        }
        ++rung->times;
        rung->clean += step.judged == LadderStep::Judged::clean ? 1 : 0;
        // The greater share, and of equal shares that of more.
        const int now = step.right * rung->due;
        const int before = rung->right * step.due;
        if (rung->due == 0 || now > before || (now == before && step.due > rung->due)) {
            rung->right = step.right;
            rung->due = step.due;
        }
        course.is_done = course.is_done || step.next == LadderStep::Next::section;
        course.was_enough = course.was_enough || step.next == LadderStep::Next::enough;
        const bool further =
            step.next == LadderStep::Next::faster || step.next == LadderStep::Next::section;
        if (further) course.clean = std::max(course.clean.value_or(step.tempo), step.tempo);
    }
    return course;
}

Bpm LadderCourse::next_start() const {
    constexpr double share = 0.9;  // of what went well, to warm up to it (common practice)
    if (!clean) return asked.from;
    return Bpm(std::max(std::round(clean->count() * share), chart::slowest_bpm));
}

}  // namespace compline::practice
