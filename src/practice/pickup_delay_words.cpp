#include "strings_in_words.hpp"

#include <compline/practice/pickup_delay.hpp>

#include <fmt/format.h>

#include <cmath>

namespace compline::practice {

namespace {

std::string counted(int count, const char* what) {
    return fmt::format("{} {}{}", count, what, count == 1 ? "" : "s");
}

std::string why_not_together(const PickupDelay& found) {
    return fmt::format(
        "The sound and the MIDI pickup do not belong together: {} pairs, {} sounds\n"
        "without a note, {} notes without a sound.\n"
        "Is it the guitar that is in this input, and nothing else? Play single notes,\n"
        "let each ring for a second, and try again.\n",
        found.used + found.left_out, found.sounds_alone, found.notes_alone);
}

std::string why_too_few(const PickupDelay& found) {
    if (found.lacking.empty()) {
        return fmt::format("Too few notes to go by: {}. Play more, and try again.\n", found.used);
    }
    return fmt::format(
        "Too few notes on {}: each needs {}, better {}.\n"
        "Play low and high ones there, soft and hard, and try again.\n",
        strings_in_words(found.lacking), fewest_notes, enough_notes);
}

std::string why(const PickupDelay& found) {
    switch (*found.fault) {
        case SoundFault::no_sound:
            return "Nothing is heard in the input. Is the guitar's ordinary output plugged in,\n"
                   "its volume up, and this the right input?\n";
        case SoundFault::no_notes:
            return "The MIDI pickup sends nothing. Is it on, and this the right port?\n";
        case SoundFault::not_together:
            return why_not_together(found);
        case SoundFault::too_few_notes:
            return why_too_few(found);
        case SoundFault::too_much_alike:
            break;
    }
    return "All notes are of about one pitch, so that what goes by pitch cannot be known.\n"
           "Play low and high ones, the open strings and the twelfth fret.\n";
}

std::string of_string(const StringDelay& one) {
    if (one.difference == time::Seconds(0)) return "";
    const double ms = one.difference.milliseconds();
    return fmt::format("String {}: {:.1f} ms {} than the others, give or take {:.1f}.\n",
                       one.string, std::fabs(ms), ms > 0 ? "later" : "sooner",
                       one.error.milliseconds());
}

std::string notes_alone(const PickupDelay& found) {
    if (found.sounds_alone == 0 && found.notes_alone == 0) return "";
    return fmt::format("{} had no note, {} no sound.\n", counted(found.sounds_alone, "sound"),
                       counted(found.notes_alone, "note"));
}

}  // namespace

std::string in_words(const PickupDelay& found) {
    if (found.fault) return why(found);
    const auto at = [&](int note) {
        return found.of(harmony::MidiNote(note), std::nullopt).milliseconds();
    };
    auto words = fmt::format(
        "Behind the sound the MIDI pickup sends a note by {:.1f} ms, give or take {:.1f},\n"
        "and {:.2f} cycles of its wave, give or take {:.2f}: E2 by {:.1f} ms, E4 by {:.1f}.\n",
        found.common.constant.milliseconds(), found.constant_error.milliseconds(),
        found.common.cycles, found.cycles_error, at(40), at(64));
    for (const auto& one : found.strings) words += of_string(one);
    if (found.strings.empty()) {
        words += "All strings come on one channel: what one of them adds is not known.\n";
    }
    words += fmt::format("By {}, each {:.1f} ms beside that on average; {} too far off.\n",
                         counted(found.used, "note"), found.sd.milliseconds(), found.left_out);
    words += notes_alone(found);
    return words + fmt::format("Sure to {:.1f} ms.\n", found.sure_within.milliseconds());
}

}  // namespace compline::practice
