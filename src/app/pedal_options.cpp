#include "pedal_options.hpp"

#include <compline/practice/pedal.hpp>
#include <compline/text/bad_input.hpp>

namespace compline::app {

using text::BadInput;

std::vector<Option> options_of(PedalOptions& options) {
    return {{"--pedal", "SWITCHES",
             "What the switches of a MIDI pedal ask for: \"64=loop here, 67=pause\". A\n"
             "number is a controller's; program 3 and note 36 are switches too. They\n"
             "ask to loop here, leave the loop, pause, go on, cue (the same), slower,\n"
             "faster, drums, bass (out, or in again), from the top, start over or\n"
             "stop.",
             "none", as_typed(&options.switches)},
            {"--pedal-in", "INPUT", "Where the pedal's MIDI comes in, as --in says it.",
             "the guitar's input", as_typed(&options.in)}};
}

void check_pedal(const PedalOptions& options, const std::string& guitar) {
    if (options.switches.empty() && options.in.empty()) return;
    if (options.switches.empty()) {
        throw BadInput(
            "--pedal-in says where the pedal is, not what it asks for: write --pedal "
            "\"64=loop here\" too");
    }
    if (guitar == "none" && options.in.empty()) {
        throw BadInput(
            "--pedal with --in none: nobody listens to the guitar's port: say where the pedal is "
            "by --pedal-in");
    }
    if (options.in == "none")
        throw BadInput(
            "--pedal-in none: a pedal that nobody hears asks for nothing: leave out both");
    text::read_at(text::option_place("--pedal", options.switches),
                  [&] { return practice::Pedal(options.switches); });
}

}  // namespace compline::app
