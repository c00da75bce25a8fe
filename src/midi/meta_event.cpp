#include "smf_rules.hpp"

#include <compline/midi/smf.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <utility>

namespace compline::midi {

MetaEvent tempo_event(time::Bpm tempo) {
    const double microseconds = std::round(60e6 / tempo.count());
    if (!(microseconds >= 1 && microseconds <= 0xFFFFFF)) {  // NaN comes here too
        throw std::invalid_argument(
            fmt::format("a tempo event holds 3.6 to 60,000,000 bpm, not {}", tempo.count()));
    }
    const auto wire = static_cast<std::uint32_t>(microseconds);
    std::string data;
    for (const unsigned shift : {16U, 8U, 0U}) data += static_cast<char>((wire >> shift) & 0xFFU);
    return {meta::tempo, std::move(data)};
}

MetaEvent text_event(std::uint8_t type, std::string text) {
    if (type < 0x01 || type > 0x0F) {
        throw std::invalid_argument(fmt::format("meta type 0x{:02X} holds no text", type));
    }
    return {type, std::move(text)};
}

MetaEvent time_signature_event(int beats, int unit) {
    int power = 0;
    while (power < 6 && (1 << power) < unit) ++power;
    if (beats < 1 || beats > 255 || unit != 1 << power) {
        throw std::invalid_argument(fmt::format("{}/{} is no time signature", beats, unit));
    }
    // Numerator, power of two, MIDI clocks a click (24 to the quarter), 32nds a quarter.
    const int clocks_a_click = std::max(1, 96 / unit);
    std::string data;
    for (const int byte : {beats, power, clocks_a_click, 8}) data += static_cast<char>(byte);
    return {meta::time_signature, std::move(data)};
}

}  // namespace compline::midi
