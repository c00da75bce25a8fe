#include <compline/history/advice.hpp>

#include <algorithm>

namespace compline::history {

void Spacing::played(const std::string& evening, bool clean) {
    if (begun_) days_ = clean ? std::min(2 * days_, longest) : std::max(days_ / 2, 1);
    begun_ = true;
    last_ = evening;
}

std::string Spacing::due() const {
    const auto day = days_of(last_);
    return day ? date_of(*day + days_) : "";
}

Spacing spacing_of(const TuneHistory& tune) {
    constexpr double nearly_as_fast = 0.9;
    Spacing spacing;
    double fastest = 0;
    for (const auto& evening : tune.evenings) {
        if (evening.whole_times == 0) continue;
        const double clean = evening.clean_bpm.value_or(0);
        spacing.played(evening.date, clean > 0 && clean >= nearly_as_fast * fastest);
        fastest = std::max(fastest, clean);
    }
    return spacing;
}

}  // namespace compline::history
