#pragma once

#include "questions.hpp"

#include <compline/live/device_choice.hpp>
#include <compline/text/printable.hpp>
#include <compline/text/words.hpp>

#include <fmt/format.h>

#include <optional>
#include <string>
#include <vector>

namespace compline::app {

// A device of a numbered list, by its number or by a part of its name.

template <typename Device>
std::string full_name(const Device& device) {
    return fmt::format("{}:{}", device.api, device.name);
}

/// "  1  JACK:system", a line each. `before`: numbers that others have.
template <typename Device>
std::string numbered_list(const std::vector<Device>& devices, std::size_t before = 0) {
    std::string text;
    for (std::size_t i = 0; i < devices.size(); ++i) {
        text +=
            fmt::format("  {}  {}\n", before + i + 1, text::printable_lines(full_name(devices[i])));
    }
    return text;
}

/// Those whose whole name the words are, else those that have them in their name.
template <typename Device>
std::vector<Device> called(const std::vector<Device>& devices, const std::string& words) {
    std::vector<Device> exact;
    std::vector<Device> part;
    for (const auto& device : devices) {
        const auto name = full_name(device);
        if (text::same_but_for_capitals(name, words)) exact.push_back(device);
        if (text::has_but_for_capitals(name, words)) part.push_back(device);
    }
    return exact.empty() ? part : exact;
}

/// Throws BadInput where none or several are meant.
template <typename Device>
Device device_meant(const std::vector<Device>& devices, const std::string& answer) {
    if (const auto number = read_choice(answer, devices.size())) return devices[*number - 1];
    const auto fits = called(devices, answer);
    if (fits.size() == 1) return fits.front();
    const auto how = devices.size() == 1 ? std::string("write 1, or a part of its name")
                                         : fmt::format(
                                               "write a number from 1 to {}, or a part of "
                                               "one name alone",
                                               devices.size());
    throw BadInput(text::printable(answer),
                   fits.empty() ? "none is called so" : "several are called so", how);
}

}  // namespace compline::app
