#include "command.hpp"

#include <compline/chart/printable.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <cstdio>

namespace compline::app {

namespace {

std::string range(double least, double most) { return fmt::format("{:g} to {:g}", least, most); }

}  // namespace

Option needed(Option option) {
    option.needed = true;
    return option;
}

std::vector<Option> grouped(const std::string& heading, std::vector<Option> options) {
    for (auto& option : options) option.group = heading;
    return options;
}

std::vector<Option> joined(std::initializer_list<std::vector<Option>> lists) {
    std::vector<Option> all;
    for (const auto& list : lists) all.insert(all.end(), list.begin(), list.end());
    return all;
}

void say(std::string_view line) noexcept {
    try {
        say_as_is(printable(line) + '\n');
    } catch (...) {
        say_as_is("out of memory\n");
    }
}

void say_as_is(std::string_view text) noexcept {
    (void)std::fwrite(text.data(), 1, text.size(), stderr);
    (void)std::fflush(stderr);
}

std::string printable(std::string_view text) {
    std::string safe;
    while (true) {
        const auto end = std::min(text.find('\n'), text.size());
        safe += chart::printable(text.substr(0, end), end);
        if (end == text.size()) break;
        safe += '\n';
        text.remove_prefix(end + 1);
    }
    return safe;
}

chart::Form load_form(const std::string& path) { return chart::unroll(chart::load_chart(path)); }

time::Groove groove_of(const chart::Form& form, std::optional<double> tempo) {
    const time::Bpm bpm = tempo ? time::Bpm(*tempo) : form.chart.tempo;
    return chart::groove_of(form, chart::Route::of(form.whole(), std::nullopt), {}, bpm);
}

double read_number(std::string_view option, const std::string& text, double least, double most) {
    double value = 0;
    const auto* const end = text.data() + text.size();
    const bool plus = text.size() > 1 && text[0] == '+' && text[1] != '-';
    const auto read = std::from_chars(text.data() + (plus ? 1 : 0), end, value);
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

std::optional<double> read_tempo(const std::string& text) {
    if (text.empty()) return std::nullopt;
    return read_number("--tempo", text, chart::slowest_bpm, chart::fastest_bpm);
}

std::optional<chart::Passage> read_bars(const chart::Form& form, const std::string& text) {
    if (text.empty()) return std::nullopt;
    try {
        return chart::read_passage(form, text);
    } catch (const chart::PassageError& error) {
        throw BadInput(fmt::format("--bars {}: {}", text, error.what()));
    }
}

}  // namespace compline::app
