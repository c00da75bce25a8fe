#include "take_page_grips.hpp"

#include "change_words.hpp"
#include "diagram_svg.hpp"
#include "fret_window.hpp"

#include <compline/practice/fault_grips.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cstddef>

namespace compline::report {

namespace {

using practice::FaultGrips;

/// There is little to be worked on in one evening.
constexpr std::size_t most_pairs = 4;

/// A diagram alone; lengths in its own mm, as large as the page gives it.
std::string diagram_alone(const guitar::Grip& grip, const DiagramSize& size,
                          const std::vector<int>& foreign, Hand hand) {
    Drawing drawing;
    draw_diagram(drawing, {0, 0}, size, grip, {}, hand, foreign);
    return fmt::format(
        "<svg class=\"grip\" xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {} {}\" "
        "aria-hidden=\"true\">\n{}</svg>\n",
        svg_number(size.width()), svg_number(size.height()), drawing.markup());
}

std::string with_caption(const std::string& diagram, const std::string& words) {
    return "<div>\n" + diagram + "<p>" + escaped(words) + "</p>\n</div>\n";
}

/// All of it stands in the table.
std::string short_fault(const assess::Change& change, const roadmap::RoadMap& map) {
    if (change.tones == assess::Tones::wrong) return "wrong tone";
    if (change.tones == assess::Tones::incomplete) return "tone missing";
    return timing_words(change, map);
}

std::string pair_of(const practice::Report& report, const FaultGrips& grips, Hand hand) {
    const auto& change = report.assessment.changes[grips.change];
    DiagramSize size;
    size.strings = report.heard.fretboard.strings();
    size.frets = std::max(window_of(grips.held.shape).frets, window_of(grips.due.shape).frets);
    const auto what = fmt::format("{}, {}: {}", place_of(change, false), move_of(change),
                                  short_fault(change, report.map));
    return "<div class=\"pair\">\n<p class=\"what\">" + escaped(what) +
           "</p>\n<div class=\"two\">\n" +
           with_caption(diagram_alone(grips.held, size, grips.foreign, hand), "held") +
           with_caption(diagram_alone(grips.due, size, {}, hand), "due") + "</div>\n</div>\n";
}

std::string grips_table(const practice::Report& report, const std::vector<FaultGrips>& all) {
    PageTable table("Grips, from the lowest string to the highest",
                    {"where", "change", "what went wrong", "held", "due"});
    for (const auto& grips : all) {
        const auto& change = report.assessment.changes[grips.change];
        const auto timing = timing_words(change, report.map);
        auto words = tone_words_of(change);
        if (!timing.empty()) words.insert(words.begin(), timing);
        table.row({place_of(change, true), move_of(change),
                   fmt::format("{}", fmt::join(words, "; ")), grips.held.shape.text(),
                   grips.due.shape.text()});
    }
    return table.markup();
}

}  // namespace

PagePart grips_part(const practice::Report& report, Hand hand) {
    const auto all = practice::worst_grips(report, most_pairs);
    if (all.empty()) return {};
    PagePart part{"grips", "What the hand held, and what was due", "", "", "", ""};
    for (const auto& grips : all) {
        const auto& change = report.assessment.changes[grips.change];
        part.says += fmt::format("{}{}, {}: held {}, due {}", part.says.empty() ? "" : "; ",
                                 place_of(change, false), move_of(change), grips.held.shape.text(),
                                 grips.due.shape.text());
        part.picture += pair_of(report, grips, hand);
    }
    part.picture = "<div class=\"pairs\">\n" + part.picture + "</div>\n";
    const bool foreign = std::any_of(all.begin(), all.end(),
                                     [](const auto& grips) { return !grips.foreign.empty(); });
    if (foreign) part.below = "A diamond is a tone that is not in the chord.";
    part.table = grips_table(report, all);
    return part;
}

}  // namespace compline::report
