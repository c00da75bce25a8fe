#include "strokes.hpp"

#include <algorithm>

namespace compline::simulate {

namespace {

using time::Seconds;

/// Two strums of a comping hand are hardly nearer than that.
constexpr Seconds hand_time{0.090};
/// Fingers leave the strings as the next grip is struck, or a little later.
constexpr Seconds slowest_lift{0.012};
constexpr Seconds shortest_ring{0.090};
constexpr Seconds shortest_dead{0.030};
constexpr Seconds longest_dead{0.052};

/// The stroke that takes the fingers away.
std::optional<Seconds> next_grip(const std::vector<Stroke>& strokes, std::size_t i,
                                 bool rings_under_lines) {
    const bool line = strokes[i].kind == Stroke::Kind::line;
    for (std::size_t j = i + 1; j < strokes.size(); ++j) {
        if (line || !rings_under_lines || strokes[j].kind != Stroke::Kind::line) {
            return strokes[j].on;
        }
    }
    return std::nullopt;
}

}  // namespace

void put_in_order(std::vector<Stroke>& strokes) {
    std::stable_sort(strokes.begin(), strokes.end(),
                     [](const Stroke& a, const Stroke& b) { return a.on < b.on; });
    for (std::size_t i = 0; i < strokes.size();) {
        const bool after = i > 0 && strokes[i].on - strokes[i - 1].on < hand_time;
        const bool before = i + 1 < strokes.size() && strokes[i + 1].on - strokes[i].on < hand_time;
        if (strokes[i].may_go && (after || before)) {
            strokes.erase(strokes.begin() + static_cast<std::ptrdiff_t>(i));
        } else {
            ++i;
        }
    }
}

std::vector<ScriptedStrum> let_ring(const std::vector<Stroke>& strokes, const Hand& hand,
                                    Chance& chance) {
    std::vector<ScriptedStrum> script;
    for (std::size_t i = 0; i < strokes.size(); ++i) {
        const Stroke& stroke = strokes[i];
        ScriptedStrum strum = stroke.strum;
        const double u = chance.uniform();
        const bool rings_under_lines = stroke.held || chance.below(2) == 0;
        const Seconds lift = slowest_lift * chance.uniform();
        if (stroke.kind == Stroke::Kind::dead) {
            strum.length = shortest_dead + (longest_dead - shortest_dead) * u;
        } else {
            strum.length = std::max(hand.beat() * (0.35 + 1.25 * u), shortest_ring);
            const auto next = next_grip(strokes, i, rings_under_lines);
            if (stroke.until) {
                const Seconds most = *stroke.until - stroke.on;
                strum.length = stroke.held ? most : std::min(strum.length, most);
            }
            if (next) strum.length = std::min(strum.length, *next - stroke.on + lift);
        }
        script.push_back(strum);
    }
    return script;
}

}  // namespace compline::simulate
