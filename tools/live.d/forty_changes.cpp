#include "forty_changes.hpp"

#include <compline/simulate/guitarist.hpp>

#include <nlohmann/json.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

namespace compline::outside {

namespace {

constexpr double frames_a_ms = 48;

guitar::Shape grip(int change) {
    constexpr std::nullopt_t x = std::nullopt;
    static const std::array<guitar::Shape, 5> grips{{
        {{x, 6, 5, x, 5, x}},  // Dm7: x5x56x
        {{x, x, 4, 3, x, 3}},  // G7: 3x34xx
        {{x, 5, 4, x, 3, x}},  // Cmaj7: x3x45x
        {{x, x, 6, 5, x, 5}},  // A7: 5x56xx
        {{x, x, 4, 4, x, 3}},  // G with F sharp: 3x44xx
    }};
    if (change == FortyChanges::wrong_change) return grips[4];
    if (change == FortyChanges::missed_change) return grips[1];  // G7 again
    return grips[static_cast<std::size_t>(change % 4)];
}

/// From the beat to where the strum is meant to be, in frames.
int meant(int change) {
    return change == FortyChanges::pushed_change ? -FortyChanges::frames_a_beat / 2 : 0;
}

}  // namespace

const char* const FortyChanges::chart =
    "title: Forty Gates\nkey: C\nmeter: 4/4\ntempo: 200\nfeel: straight\n"
    "form: [A, A, A, A, A, A, A, A, A, A]\nsections:\n"
    "  A: |\n    Dm7 G7 Cmaj7 A7\n";

int FortyChanges::lateness(int change) const {
    if (change == pushed_change) return meant(change);
    return change % 3 * 1440 - change % changes * period / changes;
}

std::vector<jack::ScriptedMessage> FortyChanges::script(int count) const {
    std::vector<simulate::ScriptedStrum> strums;
    for (int change = 0; change < count; ++change) {
        simulate::ScriptedStrum strum;
        strum.at = time::quarter_note * change;
        strum.lateness = time::from_milliseconds(lateness(change) / frames_a_ms);
        strum.shape = grip(change);
        strum.length = time::Seconds(0.08);  // over before a pushed one
        strums.push_back(strum);
    }
    const auto form = chart::unroll(chart::read_chart(chart, "gates.yaml"));
    auto asked = roadmap::Asked::of(form.whole(), std::nullopt);
    asked.tempo = time::Bpm(bpm);
    const roadmap::RoadMap map(form, asked);
    std::vector<jack::ScriptedMessage> messages;
    for (const auto& timed : simulate::perform(strums, map, guitar::Fretboard::standard())) {
        messages.push_back(
            {count_in + std::llround(timed.at.count() * 1000 * frames_a_ms), timed.message});
    }
    return messages;
}

std::vector<double> FortyChanges::errors(const nlohmann::json& report) const {
    std::vector<double> all;
    int change = 0;
    for (const auto& judged : report.at("changes")) {
        const auto& late = judged.at("lateness_ms");
        if (!late.is_null() && !judged.at("uncertain").get<bool>()) {
            all.push_back(late.get<double>() - (lateness(change) - meant(change)) / frames_a_ms);
        }
        ++change;
    }
    return all;
}

Spread spread(const std::vector<double>& values) {
    Spread found{values.size(), 0, 0, 0};
    if (values.empty()) return found;
    const auto count = static_cast<double>(values.size());
    for (const double value : values) found.mean += value / count;
    for (const double value : values) {
        const double off = std::fabs(value - found.mean);
        found.deviation += off * off / count;
        found.farthest = std::max(found.farthest, off);
    }
    found.deviation = std::sqrt(found.deviation);
    return found;
}

}  // namespace compline::outside
