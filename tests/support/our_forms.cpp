#include "support/our_forms.hpp"

#include <compline/chart/chart.hpp>

#include <algorithm>
#include <filesystem>

namespace compline::tests {

namespace {

bool goes_on_alike(const chart::Form& form) {
    return !form.coda_from &&
           std::all_of(form.bars.begin(), form.bars.end(), [&](const chart::FormBar& bar) {
               return bar.meter == form.chart.meter && bar.key == form.chart.key && !bar.tempo &&
                      !bar.rubato && bar.hold == time::Ticks(0);
           });
}

}  // namespace

std::vector<chart::Form> our_forms() {
    auto forms = all_our_forms();
    std::erase_if(forms, [](const chart::Form& form) { return !goes_on_alike(form); });
    return forms;
}

std::vector<chart::Form> all_our_forms() {
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
