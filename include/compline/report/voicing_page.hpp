#pragma once

#include <compline/report/voicings.hpp>

#include <string>

namespace compline::report {

// The best plan as a page for the music stand: a lead sheet with a fret diagram at each change,
// placed in time within its bar. A finger that stays has a ring, a finger that slides an arrow
// along its string from where it was. Black on white.
//
// Everything is drawn as large as lets the tune stand on one page (grids 13 to 22 mm wide, symbols
// of 14 pt and more). Where that is not to be had, a section that comes again with the same
// voicings is named instead of drawn again; where that does not do either, there are several pages.

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
