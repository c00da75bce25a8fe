#include "command.hpp"

#include <fmt/format.h>

#include <charconv>
#include <cmath>
#include <cstdio>

namespace compline::app {

namespace {

std::string range(double least, double most) { return fmt::format("{:g} to {:g}", least, most); }

}  // namespace

void say(std::string_view line) { fmt::print(stderr, "{}\n", line); }

chart::Form load_form(const std::string& path) { return chart::unroll(chart::load_chart(path)); }

time::Groove groove_of(const chart::Form& form, std::optional<double> tempo) {
    const time::Bpm bpm = tempo ? time::Bpm(*tempo) : form.chart.tempo;
    return {time::Timeline(bpm), form.chart.swing_at(bpm)};
}

double read_number(std::string_view option, const std::string& text, double least, double most) {
    double value = 0;
    const auto* const end = text.data() + text.size();
    const auto read = std::from_chars(text.data(), end, value);
    if (read.ec != std::errc() || read.ptr != end || !std::isfinite(value) || value < least ||
        value > most) {
        throw BadInput(
            fmt::format("{} {}: expected a number from {}", option, text, range(least, most)));
    }
    return value;
}

int read_count(std::string_view option, const std::string& text, int least, int most) {
    const double value = read_number(option, text, least, most);
    if (value != std::floor(value)) {
        throw BadInput(fmt::format("{} {}: expected a whole number from {}", option, text,
                                   range(least, most)));
    }
    return static_cast<int>(value);
}

}  // namespace compline::app
