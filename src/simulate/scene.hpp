#pragma once

#include "intent.hpp"

#include <string>
#include <vector>

namespace compline::simulate {

/// One change at which something may be done, and all that it depends on.
struct Scene {
    std::vector<Intent>& chords;
    std::size_t i;
    const Road& road;
    const Habits& habits;
    Chance& chance;

    [[nodiscard]] Intent& now() const { return chords[i]; }
    [[nodiscard]] const Intent& before() const { return chords[i - 1]; }
    [[nodiscard]] InContext here() const { return spot_of(chords, i).now; }
    [[nodiscard]] bool lands_on_it() const { return now().entry == time::Ticks(0); }
    [[nodiscard]] time::Seconds due() const { return road.time_of(now().area.start); }
    [[nodiscard]] time::Seconds beat() const { return road.beat_at(now().area.start); }
    [[nodiscard]] time::Seconds tolerance() const { return road.tolerance_at(now().area.start); }
    [[nodiscard]] bool lasts(int beats) const {
        return now().area.length() >= time::quarter_note * beats;
    }
    [[nodiscard]] bool lasted(int beats) const {
        return before().area.length() >= time::quarter_note * beats;
    }

    bool done(Deed deed, std::string words) const {
        now().deed = deed;
        now().words = std::move(words);
        return true;
    }
    [[nodiscard]] std::string symbol() const { return now().area.chord.symbol(); }
};

/// Each does its deed where it is possible and plain to hear, and says so; false: it is not, and
/// nothing has changed.
[[nodiscard]] bool late(const Scene& scene);
[[nodiscard]] bool early(const Scene& scene);
/// One of these spoilt grips; how often it is mended when it is struck again, 0 to 1.
[[nodiscard]] bool slips(const Scene& scene, Deed deed, const std::vector<Slip>& ways,
                         double mended);
[[nodiscard]] bool missed(const Scene& scene);
[[nodiscard]] bool take_liberty(const Scene& scene, Deed deed);

[[nodiscard]] inline double between(Chance& chance, double from, double to) {
    return from + (to - from) * chance.uniform();
}

}  // namespace compline::simulate
