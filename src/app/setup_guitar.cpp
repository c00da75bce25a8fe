#include "setup_steps.hpp"

namespace compline::app {

std::vector<Question> guitar_questions(Setup setup) {
    return {
        setting_question(setup, "tuning",
                         "Your guitar's open strings, from the lowest on (4 to 8 notes with "
                         "their octaves)",
                         "E2 A2 D3 G3 B3 E4"),
        setting_question(setup, "capo", "A capo on which fret? 0 is none", "0"),
        yes_or_no_question(setup, "left-handed", "Do you play left-handed? yes or no"),
        setting_question(setup, "right-hand", "Do you play with a pick or with fingers?", "pick")};
}

std::vector<Question> view_questions(Setup setup) {
    return {setting_question(setup, "view",
                             "While you play the screen shows rows (of the chart) or the chord\n"
                             "large, to be read standing; v changes it: rows or large?",
                             "rows")};
}

}  // namespace compline::app
