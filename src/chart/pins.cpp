#include <compline/chart/pins.hpp>
#include <compline/text/bad_input.hpp>
#include <compline/text/numbers.hpp>
#include <compline/text/printable.hpp>
#include <compline/text/words.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cstddef>
#include <string>
#include <tuple>

namespace compline::chart {

namespace {

constexpr std::string_view how_to_pin =
    "write a fret or x for each string from the lowest to string 1, such as x5x56x, with hyphens "
    "when a fret has two digits, such as x-10-12-11-x-x";

[[noreturn]] void refuse(std::string_view text, const std::string& why) {
    throw text::BadInput(fmt::format("{} is not a shape: {}", text::quoted(text), why));
}

/// The text of each string.
std::vector<std::string_view> strings_of(std::string_view text) {
    std::vector<std::string_view> strings;
    if (text.find('-') == std::string_view::npos) {
        for (std::size_t i = 0; i < text.size(); ++i) strings.push_back(text.substr(i, 1));
        return strings;
    }
    for (std::size_t from = 0; from <= text.size();) {
        const std::size_t to = std::min(text.find('-', from), text.size());
        strings.push_back(text.substr(from, to - from));
        from = to + 1;
    }
    return strings;
}

std::optional<int> read_fret(std::string_view fret, std::string_view whole) {
    if (fret == "x" || fret == "X") return std::nullopt;
    const auto number = text::read_count(fret);
    if (!number) {
        const auto found = fret.empty() ? "a fret is missing beside a hyphen"
                                        : fmt::format("{} is no fret", text::quoted(fret));
        refuse(whole, fmt::format("{}: {}", found, how_to_pin));
    }
    if (*number > highest_fret) {
        refuse(whole, fmt::format("there is no fret {}, the highest is {}", *number, highest_fret));
    }
    return number;
}

/// The bars that a pin is for.
Passage bars_of(const Form& form, const Pin& pin) {
    return pin.bars.empty() ? form.whole() : read_passage(form, pin.bars);
}

}  // namespace

std::vector<std::optional<int>> read_shape_text(std::string_view text) {
    const auto strings = strings_of(text);
    std::vector<std::optional<int>> frets;
    frets.reserve(strings.size());
    for (const auto& string : strings) frets.push_back(read_fret(string, text));
    const auto count = static_cast<int>(std::min(strings.size(), text.size()));
    if (count < fewest_strings || count > most_strings) {
        refuse(text, fmt::format("{} string{} where {} to {} were expected: {}", count,
                                 count == 1 ? "" : "s", fewest_strings, most_strings, how_to_pin));
    }
    if (std::none_of(frets.begin(), frets.end(),
                     [](const auto& fret) { return fret.has_value(); })) {
        refuse(text, "no string sounds, one must have a fret at least");
    }
    return frets;
}

const Pin* pin_for(const Form& form, int bar, const harmony::Chord& chord) {
    const Pin* closest = nullptr;
    std::tuple<bool, bool, int> how_close;  // the greater, the closer
    for (const auto& pin : form.chart.voicings) {
        if (pin.chord && !(*pin.chord == chord)) continue;
        const auto bars = bars_of(form, pin);
        if (bar < bars.from || bar > bars.to) continue;
        const std::tuple close(!pin.bars.empty(), pin.chord.has_value(), -bars.bars());
        if (closest != nullptr && close < how_close) continue;
        closest = &pin;
        how_close = close;
    }
    return closest;
}

}  // namespace compline::chart
