#pragma once

#include <compline/guitar/grip.hpp>
#include <compline/report/fret_diagram.hpp>

#include <string>
#include <vector>

namespace compline::report {

/// A grip with what it is: "held".
struct CaptionedGrip {
    const guitar::Grip* grip;
    std::string caption;
    std::vector<int> foreign;  ///< strings whose tone is not the chord's: a diamond
};

/// Markup of two grips side by side, as large as the page gives them; `what` stands above.
[[nodiscard]] std::string grip_pair(const std::string& what, const CaptionedGrip& left,
                                    const CaptionedGrip& right, int strings, Hand hand);

}  // namespace compline::report
