#include "paper.hpp"

namespace compline::app {

Option paper_option(std::optional<report::Paper>& paper, report::Paper& usual) {
    const Choices<report::Paper> papers = {{"a4", report::Paper::a4},
                                           {"letter", report::Paper::letter}};
    return as_setting({"--paper", "PAPER", "a4 or letter.", "a4", one_of(papers, &paper)},
                      one_of(papers, &usual));
}

}  // namespace compline::app
