#include "support/catch.hpp"

#include <compline/live/device_choice.hpp>
#include <compline/text/bad_input.hpp>

using namespace compline::live;

namespace {

AudioOutputs outputs() {
    AudioOutputs all;
    all.found = {{"JACK", "system", 2, {}, true},
                 {"JACK", "recorder", 2, {}, false},
                 {"ALSA", "hw:HDMI,0", 8, {}, false},
                 {"ALSA", "default", 2, {}, true},
                 {"ALSA", "hw:Studio,0", 2, {}, false}};
    all.empty = {{"PulseAudio", "no PulseAudio server is running"}};
    return all;
}

MidiInputs inputs() {
    MidiInputs all;
    all.found = {{"ALSA", "Midi Through:Midi Through Port-0 14:0"},
                 {"ALSA", "Six Strings:Six Strings MIDI 1 20:0"},
                 {"JACK", "system:midi_capture_1"},
                 {"JACK", "system:midi_capture_10"},
                 {coarse_jack, "system:midi_capture_1"},
                 {coarse_jack, "system:midi_capture_10"}};
    return all;
}

template <typename Choose>
std::string refusal(Choose choose) {
    try {
        (void)choose();
    } catch (const compline::text::BadInput& error) {
        return error.what();
    }
    return "not refused";
}

bool contains(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

}  // namespace

TEST_CASE("an output is chosen by a part of its name, in whatever case") {
    CHECK(choose_output(outputs(), "studio").name == "hw:Studio,0");
    CHECK(choose_output(outputs(), "HDMI").name == "hw:HDMI,0");
    CHECK(choose_output(outputs(), "jack:sys").name == "system");
    CHECK(choose_output(outputs(), "hw:HDMI").name == "hw:HDMI,0");
    CHECK(choose_output(outputs(), "alsa:default").api == "ALSA");
}

TEST_CASE("without a wish the first API's default output is taken") {
    CHECK(choose_output(outputs(), "").name == "system");
    auto no_default = outputs();
    for (auto& output : no_default.found) output.is_default = false;
    CHECK(choose_output(no_default, "").name == "system");
}

TEST_CASE("a name that fits nothing, or several, is refused with what there is") {
    const auto none = refusal([] { return choose_output(outputs(), "piano"); });
    CHECK(contains(none, "--out piano: no such device; there are:\n  JACK:system\n"));
    CHECK(contains(none, "\n  ALSA:hw:Studio,0"));
    const auto several = refusal([] { return choose_output(outputs(), "hw:"); });
    CHECK(contains(several, "2 devices are called so"));
    CHECK(contains(several, "ALSA:hw:HDMI,0"));
    CHECK_FALSE(contains(several, "JACK:system"));
}

TEST_CASE("a whole name is meant even where it is part of another") {
    CHECK(choose_input(inputs(), "jack:system:midi_capture_1").name == "system:midi_capture_1");
    CHECK(choose_input(inputs(), "system:midi_capture_1").api == "JACK");
}

TEST_CASE("JACK through RtMidi is taken only when it is named") {
    CHECK(choose_input(inputs(), "capture_10").api == "JACK");
    CHECK(choose_input(inputs(), "RtMidi/JACK:capture_10").api == coarse_jack);
    auto only_coarse = inputs();
    only_coarse.found.erase(only_coarse.found.begin(), only_coarse.found.begin() + 4);
    CHECK(contains(refusal([&] { return choose_input(only_coarse, "capture_10"); }),
                   "no such device"));
}

TEST_CASE("without a wish the system's only MIDI input is taken, else one must be named") {
    CHECK(choose_input(inputs(), "").name == "Six Strings:Six Strings MIDI 1 20:0");
    auto two = inputs();
    two.found.push_back({"ALSA", "Keys 24:0"});
    const auto several = refusal([&] { return choose_input(two, ""); });
    CHECK(contains(several, "several MIDI inputs are here; say which by --in:"));
    CHECK(contains(several, "ALSA:Keys 24:0"));
    CHECK_FALSE(contains(several, "Midi Through"));
    auto jack = inputs();
    jack.found.erase(jack.found.begin(), jack.found.begin() + 2);
    CHECK(contains(refusal([&] { return choose_input(jack, ""); }), "JACK:system:midi_capture_1"));
    jack.found.erase(jack.found.begin() + 1);
    CHECK(choose_input(jack, "").name == "system:midi_capture_1");
}

TEST_CASE("without any device each API says why") {
    AudioOutputs no_outputs;
    no_outputs.empty = {{"JACK", "no JACK server is running"}};
    MidiInputs no_inputs;
    no_inputs.empty = {{"ALSA", "no MIDI on this machine"}};
    CHECK_THROWS_AS(choose_output(no_outputs, ""), DeviceError);
    CHECK_THROWS_AS(choose_output(no_outputs, "x"), DeviceError);
    CHECK_THROWS_AS(choose_input(no_inputs, ""), DeviceError);
    try {
        (void)choose_input(no_inputs, "");
    } catch (const DeviceError& error) {
        CHECK(contains(error.what(), "--in none"));
        CHECK(contains(error.what(), "\n  ALSA: no MIDI on this machine"));
    }
}

TEST_CASE("a long name that no device has is repeated cut") {
    const std::string endless(10000, 'x');
    const auto out = refusal([&] { return choose_output(outputs(), endless); });
    CHECK(out.starts_with("--out xxxx"));
    CHECK(out.size() < 500);
    CHECK(refusal([&] { return choose_input(inputs(), endless); }).size() < 500);
}
