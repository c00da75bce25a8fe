#include "other_charts.hpp"

#include "command.hpp"

#include <compline/text/printable.hpp>

#include <algorithm>
#include <exception>
#include <filesystem>
#include <system_error>

namespace compline::app {

namespace fs = std::filesystem;

namespace {

constexpr std::size_t most_charts = 200;

/// Nothing that could steer a terminal: the name may be shown.
bool is_called_a_chart(const fs::path& file) {
    if (text::has_control_characters(file.string())) return false;
    return file.extension() == ".yaml" || file.extension() == ".yml";
}

std::vector<fs::path> files_beside(const fs::path& chart) {
    const auto folder = chart.has_parent_path() ? chart.parent_path() : fs::path(".");
    std::vector<fs::path> files;
    std::error_code error;
    for (fs::directory_iterator at(folder, error), end; !error && at != end; at.increment(error)) {
        std::error_code unknown;
        const bool other = is_called_a_chart(at->path()) && at->is_regular_file(unknown) &&
                           !fs::equivalent(at->path(), chart, unknown);
        if (other) files.push_back(chart.parent_path() / at->path().filename());
    }
    std::sort(files.begin(), files.end());
    files.resize(std::min(files.size(), most_charts));
    return files;
}

}  // namespace

std::vector<practice::OtherChart> charts_beside(const std::string& chart) {
    std::vector<practice::OtherChart> charts;
    for (const auto& file : files_beside(chart)) {
        try {
            charts.push_back({file.string(), load_form(file.string())});
        } catch (const std::exception&) {
            continue;  // nobody asked for this one
        }
    }
    return charts;
}

}  // namespace compline::app
