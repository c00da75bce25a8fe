#include "support/our_forms.hpp"

#include <compline/chart/chart.hpp>

#include <algorithm>
#include <filesystem>

namespace compline::tests {

std::vector<chart::Form> our_forms() {
    std::vector<std::filesystem::path> paths;
    const auto folder = std::filesystem::path(COMPLINE_SOURCE_DIR) / "charts";
    for (const auto& entry : std::filesystem::directory_iterator(folder)) {
        if (entry.path().extension() == ".yaml") paths.push_back(entry.path());
    }
    std::sort(paths.begin(), paths.end());
    std::vector<chart::Form> forms;
    for (const auto& path : paths) forms.push_back(chart::unroll(chart::load_chart(path)));
    return forms;
}

}  // namespace compline::tests
