#include "as_written.hpp"
#include "diagram_svg.hpp"
#include "fret_window.hpp"
#include "lead_sheet_rows.hpp"
#include "page.hpp"
#include "page_part.hpp"
#include "svg.hpp"
#include "weeks_homework.hpp"
#include "weeks_lines.hpp"
#include "weeks_page_style.hpp"
#include "weeks_words.hpp"
#include "words.hpp"

#include <compline/report/weeks_page.hpp>

#include <fmt/format.h>

#include <algorithm>

namespace compline::report {

namespace {

constexpr std::size_t passage_bars_a_row = 2;  ///< as many as can be read on a phone
constexpr double piece_left = 8;
constexpr double piece_bar = 46;  ///< mm

/// Bars of a staff side by side, in mm of their own.
std::string staff_piece(const chart::Form& form, const StaffRow& row) {
    StaffPlace place;
    place.paper.margin = 0;
    place.paper.letters = piece_left;
    place.paper.width = piece_left + piece_bar * bars_a_staff;
    Drawing drawing;
    draw_staff(drawing, form, row, place);
    return fmt::format(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 2 {} {}\" "
        "aria-hidden=\"true\">\n{}</svg>\n",
        svg_number(piece_left + piece_bar * passage_bars_a_row + 1),
        svg_number(tallest_staff_row - 4), drawing.markup());
}

PagePart passage_part(const HomeworkSheet& sheet) {
    const auto& homework = sheet.homework;
    const chart::Passage bars{homework.from_bar, homework.to_bar};
    const auto never = [](chart::Passage, chart::Passage) { return false; };
    PagePart part{"passage", "The bars", "", "", "", ""};
    PageTable table("The bars", {"bar", "chords"});
    StaffRow row;
    const auto draw = [&] {
        if (!row.empty()) part.picture += staff_piece(sheet.form, row);
        row.clear();
    };
    for (const auto& bar : as_written(sheet.form, bars, never)) {
        std::string chords;
        for (const auto& span : sheet.form.spans_in(bar.number)) {
            chords += (chords.empty() ? "" : " ") + (span.chord ? span.chord->symbol() : "N.C.");
        }
        table.row({std::to_string(bar.number), chords});
        part.says += fmt::format("{}bar {}: {}", part.says.empty() ? "" : "; ", bar.number, chords);
        row.push_back(bar);
        if (row.size() == passage_bars_a_row) draw();
    }
    draw();
    part.picture = "<div class=\"staff\">\n" + part.picture + "</div>\n";
    part.table = table.markup();
    return part;
}

PagePart planned_part(const HomeworkSheet& sheet) {
    if (!sheet.grips || sheet.grips->plans.front().voicings.empty()) return {};
    const auto& plan = sheet.grips->plans.front();
    DiagramSize size;
    size.strings = plan.fretboard.strings();
    for (const auto& voicing : plan.voicings) {
        size.frets = std::max(size.frets, window_of(voicing.grip.shape).frets);
    }
    PagePart part{"grips", "Grips that lie well", "", "", "", ""};
    PageTable table("Grips, from the lowest string to the highest", {"bar", "chord", "grip"});
    for (const auto& voicing : plan.voicings) {
        const auto bar = std::to_string(voicing.change.bar);
        const auto chord = voicing.change.to.symbol();
        const auto grip = voicing.grip.shape.text();
        part.says +=
            fmt::format("{}bar {}, {}: {}", part.says.empty() ? "" : "; ", bar, chord, grip);
        part.picture += "<div>\n" + paragraph_markup("", bar + " · " + chord) +
                        diagram_alone(voicing.grip, size, sheet.hand) + "</div>\n";
        table.row({bar, chord, grip});
    }
    part.picture = "<div class=\"shelf\">\n" + part.picture + "</div>\n";
    part.below = "Over each: its bar and chord.";
    part.table = table.markup();
    return part;
}

std::string days_to_tick() {
    std::string markup = "<p class=\"days\">";
    for (const auto* day : {"First day", "Second day"}) {
        markup +=
            fmt::format("<span><span class=\"tick\">&#160;</span>{}: ______________</span>\n", day);
    }
    return markup + "</p>\n";
}

std::string homework_head(const HomeworkSheet& sheet) {
    const auto& homework = sheet.homework;
    const auto& title = homework.tune.title;
    const chart::Passage bars{homework.from_bar, homework.to_bar};
    return "<header>\n<h1>" + escaped(whose_words(homework)) + "</h1>\n" +
           paragraph_markup(
               "sentence",
               fmt::format("{}, {}, {} to {} bpm", title.empty() ? "A tune without a title" : title,
                           bars_words(bars), beats_words(homework.from_bpm),
                           beats_words(homework.to_bpm))) +
           paragraph_markup(
               "facts", fmt::format("key of {} · given {}",
                                    sheet.form.bar(homework.from_bar).key.name(), homework.given)) +
           "</header>\n";
}

}  // namespace

std::string homework_html(const HomeworkSheet& sheet, const WeeksAsked& asked) {
    const auto& homework = sheet.homework;
    const auto body =
        "<main class=\"sheet\">\n" + homework_head(sheet) + markup_of(passage_part(sheet)) +
        markup_of(planned_part(sheet)) +
        section_markup("todo", "What to do", paragraph_markup("", what_to_do(homework))) +
        section_markup("done", "Done when",
                       paragraph_markup("", done_when(homework)) + days_to_tick()) +
        section_markup("type", "Type", typed_markup(homework_line(homework, asked).in_one_line())) +
        section_markup("care", "Take care", paragraph_markup("", take_care)) + "</main>\n";
    return html_file(whose_words(homework) + ": " + homework.tune.title, For::screens,
                     weeks_page_style(), body);
}

}  // namespace compline::report
