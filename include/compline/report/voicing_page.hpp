#pragma once

#include <compline/report/voicings.hpp>

#include <string>

namespace compline::report {

// The best plan as a page for the music stand: a lead sheet with a fret diagram at each change,
// placed in time within its bar. A finger that stays has a ring, a finger that slides an arrow
// along its string from where it was. Black on white.
//
// The form is written as on a lead sheet (lead_sheet.hpp): what comes again stands there once,
// between repeat signs, its endings under brackets, where the hand holds the same each time; else
// it is written out. Its first diagram shows the way in of the first time. What a section has of
// its own stands over it, and so do segno, coda, fine, cues, kicks and fermatas; the road map at
// the foot. A passage that cuts a repeat is written out.
//
// Everything is drawn as large as lets the tune stand on one page (grids 13 to 22 mm wide, symbols
// of 14 pt and more). Where that is not to be had, one or two bars at a section's end stay in the
// row of four before them; then a section that comes again with the same voicings is named instead
// of drawn again; where that does not do either, there are several pages, and what is between
// repeat signs stands on one of them.

enum class Paper { a4, letter };

struct PageWishes {
    Paper paper = Paper::a4;
    Hand hand = Hand::right;
};

/// A file that needs nothing else: no scripts, no fonts, no other files. One sheet of paper a page
/// when printed. What the chart says is escaped; control characters are left out.
[[nodiscard]] std::string voicings_html(const Voicings& voicings, const PageWishes& wishes);

/// The same as one SVG file, lengths in mm; several pages stand below one another.
[[nodiscard]] std::string voicings_svg(const Voicings& voicings, const PageWishes& wishes);

}  // namespace compline::report
