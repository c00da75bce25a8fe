#pragma once

#include <compline/practice/report.hpp>
#include <compline/report/fret_diagram.hpp>

#include <string>

namespace compline::guitar {
struct VoicingPlan;
}

namespace compline::report {

// The report of a take as a page to look at: on the stand at a metre, on a phone, on one sheet of
// paper for a teacher. In this order: the sentence that the report begins with, large; what to play
// next, as a line to type; the changes along the form; every time through; the grips of the worst
// faults, what was held and what was due; the hand beside a plan, where it was asked for; time by
// tempo, where there was more than one; the strums around the beat. Behind each picture stands a
// table, and headings lead a screen reader.
//
// Early and late are told apart by place, the rest by shapes: nothing is said by colour alone. It
// is light or dark as the reader's screen is. What charts and files call themselves is escaped, and
// the page's own policy forbids scripts and anything from elsewhere.

/// A file that needs nothing else. `shown`: the plan of voicings that was played by, whose grips
/// were due; null: none. Deterministic: the same report gives the same bytes.
[[nodiscard]] std::string take_html(const practice::Report& report, Hand hand = Hand::right,
                                    const guitar::VoicingPlan* shown = nullptr);

}  // namespace compline::report
