#include "take_page_grips.hpp"

#include "change_words.hpp"
#include "grip_pair.hpp"
#include "svg.hpp"

#include <compline/practice/fault_grips.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cstddef>

namespace compline::report {

namespace {

using practice::FaultGrips;

/// There is little to be worked on in one evening.
constexpr std::size_t most_pairs = 4;

/// All of it stands in the table.
std::string short_fault(const assess::Change& change, const roadmap::RoadMap& map) {
    if (change.tones == assess::Tones::wrong) return "wrong tone";
    if (change.tones == assess::Tones::incomplete) return "tone missing";
    return timing_words(change, map);
}

std::string pair_of(const practice::Report& report, const FaultGrips& grips, Hand hand) {
    const auto& change = report.assessment.changes[grips.change];
    const auto what = fmt::format("{}, {}: {}", place_of(change, false), move_of(change),
                                  short_fault(change, report.map));
    return grip_pair(what, {&grips.held, "held", grips.foreign}, {&grips.due, "due", {}},
                     report.heard.fretboard.strings(), hand);
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

PagePart grips_part(const practice::Report& report, Hand hand, const guitar::VoicingPlan* shown) {
    const auto all = practice::worst_grips(report, most_pairs, shown);
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
