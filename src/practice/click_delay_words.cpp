#include "strings_in_words.hpp"

#include <compline/practice/click_delay.hpp>

#include <fmt/format.h>

#include <cmath>

namespace compline::practice {

namespace {

std::string why(const ClickDelay& found) {
    switch (*found.fault) {
        case PlayingFault::no_notes:
            return "No note came near a click. Is the MIDI pickup on, and can you hear the "
                   "click?\n";
        case PlayingFault::one_channel:
            return "All strings come on one channel: they cannot be told apart, so that there is\n"
                   "no difference between them to find.\n";
        case PlayingFault::not_in_time:
            return fmt::format(
                "That was too uneven to say anything: a note lies {:.0f} ms beside the mean of\n"
                "its string. Take a slower click, play one note on each, and try again.\n",
                found.sd.milliseconds());
        case PlayingFault::too_few_notes:
            break;
    }
    return fmt::format("Too few notes on {}: play {} on each.\n", strings_in_words(found.lacking),
                       notes_on_clicks);
}

std::string row_of(const StringOnClick& one) {
    return fmt::format("  string {:<2}{:>+10.1f}{:>+16.1f}{:>15.1f}{}\n", one.string,
                       one.difference.milliseconds(), one.remains.milliseconds(),
                       one.error.milliseconds(), one.is_sure() ? "" : "  not sure");
}

}  // namespace

std::string in_words(const ClickDelay& found) {
    if (found.fault) return why(found);
    auto words = fmt::format(
        "Later (+) or sooner (-) than the mean of all strings, in ms:\n"
        "             as played{:>16}{:>15}\n",
        fmt::format("-{:g} cycles", found.cycles), "give or take");
    for (const auto& one : found.strings) words += row_of(one);
    return words +
           fmt::format(
               "By {} notes, each {:.0f} ms beside the mean of its string; {} left out.\n"
               "All together you come {:.0f} ms {} the click, give or take {:.1f}. That is the\n"
               "delay and your own place in one, and nobody can take them apart: only the\n"
               "differences are set, not the sum.\n",
               found.used, found.sd.milliseconds(), found.left_out,
               std::fabs(found.sum.milliseconds()),
               found.sum < time::Seconds(0) ? "before" : "behind", found.sum_error.milliseconds());
}

}  // namespace compline::practice
