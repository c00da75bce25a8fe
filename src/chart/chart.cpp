#include "words.hpp"

#include <compline/chart/chart.hpp>

#include <fmt/format.h>

#include <utility>

namespace compline::chart {

namespace {

std::string message(const std::string& file, const std::vector<Problem>& problems) {
    std::string text;
    for (const auto& problem : problems) {
        if (!text.empty()) text += '\n';
        text += printable(file, file.size());
        if (problem.line > 0) text += fmt::format(":{}:{}", problem.line, problem.column);
        text += ": " + problem.what;
    }
    return text;
}

}  // namespace

std::string Key::name(harmony::Accidentals style) const {
    return tonic.name(style) + (minor ? "m" : "");
}

time::Swing Chart::swing_at(time::Bpm bpm) const { return swing_of(feel(), bpm); }

time::Swing Chart::swing_of(Feel feel, time::Bpm bpm) const {
    if (feel == Feel::straight || feel == Feel::bossa) return time::Swing::straight();
    return swing_ratio ? time::Swing(*swing_ratio) : time::Swing::at(bpm);
}

ChartError::ChartError(const std::string& file, std::vector<Problem> problems)
    : std::runtime_error(message(file, problems)), problems_(std::move(problems)) {}

}  // namespace compline::chart
