// Which MIDI input is the guitar's and which the pedal's.

#include "../../src/app/evening_gear.hpp"

#include "live/stderr_catcher.hpp"
#include "support/catch.hpp"
#include "support/forms.hpp"

#include <compline/live/device_choice.hpp>
#include <compline/text/bad_input.hpp>

using namespace compline;

namespace {

const live::MidiInput strings{"ALSA", "Six Strings:Six Strings MIDI 1 20:0"};
const live::MidiInput board{"ALSA", "Floor Board:Floor Board MIDI 1 24:0"};

/// Its name, or "none".
std::string name_of(const std::optional<live::MidiInput>& input) {
    return input ? input->name.substr(0, input->name.find(':')) : "none";
}

/// "Six Strings / Floor Board": the guitar's and the pedal's.
std::string chosen(const std::string& in, const std::string& pedal_in,
                   const std::vector<live::MidiInput>& found = {strings, board}) {
    const auto form = tests::make_form(time::Meter(4), time::Bpm(120), {"F7"});
    app::AskedEvening asked({form, roadmap::Asked::of(form.whole(), 1)});
    asked.in = {in, "--in"};
    asked.pedal = {"64=loop here", "--pedal"};
    asked.pedal_in = {pedal_in, "--pedal-in"};
    const live::MidiInputs inputs{found, {}};
    try {
        const auto ports = app::choose_ports(asked, inputs, inputs);
        return name_of(ports.guitar) + " / " + name_of(ports.pedal);
    } catch (const std::exception& error) {
        return error.what();
    }
}

}  // namespace

TEST_CASE("a pedal has a port of its own, or is among what the guitar's brings") {
    CHECK(chosen("strings", "floor") == "Six Strings / Floor Board");
    CHECK(chosen("strings", "") == "Six Strings / none");
    CHECK(chosen("strings", "ALSA:six") == "Six Strings / none");
    CHECK(chosen("none", "floor") == "none / Floor Board");
}

TEST_CASE("of two MIDI inputs the guitar's is the one that was not said to be the pedal's") {
    CHECK(chosen("", "floor") == "Six Strings / Floor Board");
    CHECK(chosen("", "strings") == "Floor Board / Six Strings");
    CHECK(chosen("", "strings", {strings}) == "Six Strings / none");
}

TEST_CASE("a pedal's port that is not there is refused with what there is") {
    CHECK(
        chosen("strings", "foot").find("--pedal-in foot: no such device; there are:\n  ALSA:Six") ==
        0);
    CHECK(chosen("none", "foot", {}).find("there is no MIDI input for the pedal:") == 0);
}

TEST_CASE("a round trip that was measured on something else is not used, and the player is told") {
    const practice::SoundPath open{48000, 256, "JACK:system"};
    const auto used = [&](const std::string& words, std::string& told) {
        const tests::StderrCatcher caught;
        const auto trip = app::round_trip_on(open, practice::read_round_trip(words));
        told = caught.text();
        return trip ? trip->milliseconds() : -1;
    };
    std::string told;
    CHECK(used("11.354 at 48000/256 by JACK:system", told) == Approx(11.354));
    CHECK(told.empty());
    CHECK(used("11.354", told) == Approx(11.354));
    CHECK(told.empty());
    CHECK(used("11.354 at 48000/128 by JACK:system", told) == -1);
    CHECK(told ==
          "the round trip was measured at 48000/128 by JACK:system\n"
          "and is not used at 48000/256 by JACK:system:\n"
          "the latency that the system tells is taken;\n"
          "compline calibrate wire measures it anew\n");
    CHECK(!app::round_trip_on(open, std::nullopt));
}
