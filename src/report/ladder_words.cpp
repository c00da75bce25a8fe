#include "ladder_words.hpp"

#include "words.hpp"

#include <compline/report/time_through_line.hpp>
#include <compline/text/printable.hpp>

#include <fmt/format.h>

#include <algorithm>

namespace compline::report {

namespace {

using practice::LadderCourse;
using roadmap::LadderStep;
using Rung = LadderCourse::Rung;

/// "section B", "the whole tune": what is played when the top is clean.
std::string section_words(const roadmap::RoadMap& map, int time_through) {
    const auto& form = map.form();
    const auto loop = map.way().stretch(time_through).passage;
    const auto around = practice::once_around(form, loop).stretches.front().passage;
    if (around == form.whole()) return "the whole tune";
    return "section " + text::printable(form.bar(around.from).section);
}

std::string clean_words(const LadderStep& step, const roadmap::RoadMap& map) {
    const auto next = tempo_number(step.next_tempo);
    if (step.next == LadderStep::Next::faster) return fmt::format("clean, {} next", next);
    const auto section = section_words(map, step.time_through);
    if (step.next == LadderStep::Next::section) return "the top is clean, once through " + section;
    return "clean, once more and " + (step.above ? tempo_number(*step.above) : "then " + section);
}

std::string not_clean_words(const LadderStep& step) {
    const auto next = tempo_number(step.next_tempo);
    if (step.next == LadderStep::Next::enough) return "enough for today, " + next;
    if (step.next == LadderStep::Next::slower) return "not clean, slower, " + next + " next";
    return "not clean, " + next + " again";
}

/// How far it went.
std::string how_far(const LadderCourse& course) {
    const auto top = tempo_number(course.asked.to);
    if (course.rungs.empty()) {
        return fmt::format("{} to {}, no time through counted", tempo_number(course.asked.from),
                           top);
    }
    const auto from = tempo_number(course.rungs.front().tempo);
    if (course.is_done) return fmt::format("from {} to {}, the top, clean", from, top);
    const auto reached = course.rungs.back().tempo;
    const bool clean = course.clean && *course.clean >= reached;
    return fmt::format("from {} to {} of {}, {} {}{}", from, tempo_number(reached), top,
                       tempo_number(reached), clean ? "clean" : "not yet clean",
                       course.was_enough ? ", enough for today" : "");
}

std::string row(const std::string& tempo, const Rung& rung, const std::string& best) {
    return fmt::format("  {:>7}  {:>13}  {:>5}  {}\n", tempo, rung.times, rung.clean, best);
}

std::string best_words(const Rung& rung) { return fmt::format("{} of {}", rung.right, rung.due); }

/// The slow ones together: of them nothing is to be learnt any more.
std::string folded(const std::vector<Rung>& rungs, std::size_t count) {
    Rung all;
    for (std::size_t i = 0; i < count; ++i) {
        all.times += rungs[i].times;
        all.clean += rungs[i].clean;
    }
    return row(tempo_number(rungs[0].tempo) + "-" + tempo_number(rungs[count - 1].tempo), all, "-");
}

}  // namespace

std::string ladder_line(const LadderStep& step, const roadmap::RoadMap& map,
                        listen::HeardBy heard_by) {
    const bool by_sound = heard_by == listen::HeardBy::sound;
    const std::string name = by_sound ? "the ladder, by time alone: " : "the ladder: ";
    const auto again = tempo_number(step.next_tempo) + " again";
    switch (step.judged) {
        case LadderStep::Judged::clean:
            return name + clean_words(step, map);
        case LadderStep::Judged::not_clean:
            return name + not_clean_words(step);
        case LadderStep::Judged::too_little:
            return name + "too little was heard to count, " + again;
        case LadderStep::Judged::not_whole:
            return name + "not whole in one tempo, does not count, " + again;
    }
    return name;
}

std::string ladder_text(const LadderCourse& course, std::size_t most, listen::HeardBy heard_by) {
    std::string text = "The ladder: " + how_far(course) + "\n";
    const auto& rungs = course.rungs;
    if (rungs.empty()) return text;
    const char* best = heard_by == listen::HeardBy::sound ? "in time" : "in time and right";
    text += fmt::format("    tempo  times through  clean  best: {}\n", best);
    const std::size_t together = rungs.size() > most ? rungs.size() - most + 1 : 0;
    if (together > 0) text += folded(rungs, together);
    for (std::size_t i = together; i < rungs.size(); ++i) {
        text += row(tempo_number(rungs[i].tempo), rungs[i], best_words(rungs[i]));
    }
    return text;
}

}  // namespace compline::report
