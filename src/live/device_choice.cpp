#include <compline/live/device_choice.hpp>
#include <compline/text/bad_input.hpp>
#include <compline/text/numbers.hpp>
#include <compline/text/printable.hpp>
#include <compline/text/words.hpp>

#include <fmt/format.h>

#include <algorithm>

namespace compline::live {

namespace {

template <typename Listing>
std::vector<std::string> apis_of(const Listing& listing) {
    std::vector<std::string> apis;
    for (const auto& device : listing.found) apis.push_back(device.api);
    for (const auto& api : listing.empty) apis.push_back(api.api);
    return apis;
}

template <typename Device>
std::string list(const std::vector<Device>& devices) {
    std::string text;
    for (const auto& device : devices) text += fmt::format("\n  {}:{}", device.api, device.name);
    return text;
}

/// Those that the wish fits; those whose whole name it is, if there are any.
template <typename Device>
std::vector<Device> fitting(const std::vector<Device>& devices, const DeviceWish& wish) {
    std::vector<Device> fits;
    std::vector<Device> exact;
    for (const auto& device : devices) {
        if (wish.api && !text::same_but_for_capitals(device.api, *wish.api)) continue;
        if (text::same_but_for_capitals(device.name, wish.part)) exact.push_back(device);
        if (text::has_but_for_capitals(device.name, wish.part)) fits.push_back(device);
    }
    return exact.empty() ? fits : exact;
}

template <typename Device>
Device only(const std::vector<Device>& fits, const std::vector<Device>& all, std::string_view text,
            const char* option) {
    if (fits.size() == 1) return fits.front();
    if (fits.empty()) {
        throw text::BadInput(fmt::format("{} {}: no such device; there are:{}", option,
                                         text::printable(text), list(all)));
    }
    throw text::BadInput(fmt::format("{} {}: {} devices are called so; say more of the name:{}",
                                     option, text::printable(text), fits.size(), list(fits)));
}

/// The default one, else the first.
template <typename Device>
Device usual(const std::vector<Device>& devices) {
    const auto chosen = std::find_if(devices.begin(), devices.end(),
                                     [](const Device& device) { return device.is_default; });
    return chosen == devices.end() ? devices.front() : *chosen;
}

/// "JACK:system/2": the name, and the channel behind its last slash if that is a number.
std::pair<std::string_view, std::optional<int>> before_channel(std::string_view wish,
                                                               const char* option) {
    const auto slash = wish.rfind('/');
    if (slash == std::string_view::npos) return {wish, std::nullopt};
    const auto number = wish.substr(slash + 1);
    const auto channel = text::read_count(number);
    if (!channel) return {wish, std::nullopt};  // a name with a slash
    if (*channel < 1) {
        throw text::BadInput(
            fmt::format("{} {}: channels count from 1", option, text::printable(wish)));
    }
    return {wish.substr(0, slash), channel};
}

bool is_exact_enough(const MidiInput& input) { return input.api != coarse_jack; }

/// ALSA's loop-back; every machine has one.
bool is_through(const MidiInput& input) { return input.name.rfind("Midi Through", 0) == 0; }

template <typename Keep>
std::vector<MidiInput> those(const std::vector<MidiInput>& inputs, Keep keep) {
    std::vector<MidiInput> kept;
    std::copy_if(inputs.begin(), inputs.end(), std::back_inserter(kept), keep);
    return kept;
}

constexpr const char* no_input =
    "there is no MIDI input to hear you from: plug the guitar's interface in, or play with "
    "--in none (the band alone)";

MidiInput named_input(const MidiInputs& inputs, std::string_view wish, const char* option) {
    const DeviceWish read = read_wish(wish, apis_of(inputs));
    auto fits = fitting(inputs.found, read);
    if (!read.api) fits = those(fits, is_exact_enough);
    return only(fits, inputs.found, wish, option);
}

MidiInput only_input(const MidiInputs& inputs) {
    auto likely = those(inputs.found, [](const MidiInput& input) {
        return is_exact_enough(input) && !is_through(input);
    });
    const auto outside_jack =
        those(likely, [](const MidiInput& input) { return input.api != "JACK"; });
    if (!outside_jack.empty()) likely = outside_jack;
    if (likely.size() == 1) return likely.front();
    if (likely.empty()) throw DeviceError(no_input + reasons(inputs.empty));
    throw text::BadInput("several MIDI inputs are here; say which by --in:" + list(likely));
}

}  // namespace

std::string reasons(const std::vector<EmptyApi>& empty) {
    std::string text;
    for (const auto& api : empty) text += fmt::format("\n  {}: {}", api.api, api.reason);
    return text;
}

DeviceWish read_wish(std::string_view text, const std::vector<std::string>& apis) {
    const auto colon = text.find(':');
    if (colon == std::string_view::npos) return {std::nullopt, std::string(text)};
    const auto before = text.substr(0, colon);
    const auto api = std::find_if(apis.begin(), apis.end(), [&](const std::string& a) {
        return text::same_but_for_capitals(a, before);
    });
    if (api == apis.end()) return {std::nullopt, std::string(text)};
    return {*api, std::string(text.substr(colon + 1))};
}

AudioOutput choose_output(const AudioOutputs& outputs, std::string_view wish) {
    if (outputs.found.empty()) {
        throw DeviceError("there is nothing to play through:" + reasons(outputs.empty));
    }
    if (wish.empty()) return usual(outputs.found);
    return only(fitting(outputs.found, read_wish(wish, apis_of(outputs))), outputs.found, wish,
                "--out");
}

MidiInput choose_input(const MidiInputs& inputs, std::string_view wish) {
    if (wish.empty()) return only_input(inputs);
    if (inputs.found.empty()) throw DeviceError(no_input + reasons(inputs.empty));
    return named_input(inputs, wish, "--in");
}

SoundInput choose_sound_input(const SoundInputs& inputs, std::string_view wish,
                              const char* option) {
    if (inputs.found.empty()) {
        throw DeviceError("there is nothing to hear sound from:" + reasons(inputs.empty));
    }
    const auto [part, channel] = before_channel(wish, option);
    SoundInput chosen = part.empty() ? usual(inputs.found)
                                     : only(fitting(inputs.found, read_wish(part, apis_of(inputs))),
                                            inputs.found, part, option);
    if (channel && *channel > chosen.channels) {
        throw text::BadInput(fmt::format(
            "{} {}: {}:{} has {} channel{}, and no channel {}", option, text::printable(wish),
            chosen.api, chosen.name, chosen.channels, chosen.channels == 1 ? "" : "s", *channel));
    }
    chosen.channel = channel;
    return chosen;
}

MidiInput choose_pedal(const MidiInputs& inputs, std::string_view wish) {
    if (inputs.found.empty()) {
        throw DeviceError("there is no MIDI input for the pedal:" + reasons(inputs.empty));
    }
    return named_input(inputs, wish, "--pedal-in");
}

}  // namespace compline::live
