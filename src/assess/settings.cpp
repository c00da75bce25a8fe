#include <compline/assess/settings.hpp>

#include <algorithm>

namespace compline::assess {

using time::Seconds;

std::string_view name_of(Against against) { return against == Against::own ? "own" : "beat"; }

std::optional<Against> read_against(std::string_view name) {
    for (const auto against : {Against::own, Against::beat}) {
        if (name == name_of(against)) return against;
    }
    return std::nullopt;
}

std::string rhythm_words(const Settings& settings, const chart::Chart& chart) {
    if (settings.rhythm) return settings.rhythm->name();
    const bool own = std::any_of(chart.sections.begin(), chart.sections.end(),
                                 [](const chart::Section& section) { return section.rhythm; });
    if (own) return "as written";
    return chart.rhythm ? chart.rhythm->name() : Rhythm{}.name();
}

Seconds auto_tolerance(time::Bpm tempo, const time::Swing& swing) {
    const double tenth = std::clamp(tempo.beat().count() * 0.1, 0.025, 0.060);
    return Seconds(std::min(tenth, swing.short_note(tempo).count() / 3));
}

}  // namespace compline::assess
