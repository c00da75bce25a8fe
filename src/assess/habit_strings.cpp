#include "habit_search.hpp"
#include "habit_words.hpp"

#include <algorithm>

namespace compline::assess {

namespace {

constexpr int fewest_on_string = 3;
/// Most fingers slip on the string that most thirds lie on: a string stands out against the next.
constexpr double as_often_on_string = 2;
constexpr double by_chance_on_string = 0.005;  // measured: tools/bench habits
constexpr int most_strings = 8;

/// Foreign tones by the string they sound on, and how often each string was struck.
struct OnStrings {
    std::array<Share, most_strings> strings{};

    [[nodiscard]] Share all() const {
        Share all;
        for (const auto& one : strings) {
            all.cases += one.cases;
            all.of += one.of;
        }
        return all;
    }
    [[nodiscard]] Share without(std::size_t string) const {
        const Share sum = all();
        return {sum.cases - strings.at(string).cases, sum.of - strings.at(string).of};
    }
    [[nodiscard]] std::size_t worst() const {
        const auto worse = [](const Share& a, const Share& b) { return a.rate() < b.rate(); };
        return static_cast<std::size_t>(std::max_element(strings.begin(), strings.end(), worse) -
                                        strings.begin());
    }
    /// Of any other string.
    [[nodiscard]] double next_rate(std::size_t string) const {
        double rate = 0;
        for (std::size_t n = 0; n < strings.size(); ++n) {
            if (n != string) rate = std::max(rate, strings[n].rate());
        }
        return rate;
    }
};

}  // namespace

bool HabitSearch::is_on_string(std::size_t change, int string) const {
    const auto& wrong = changes_[change].wrong;
    return is_open_[change] != 0 &&
           std::any_of(wrong.begin(), wrong.end(),
                       [&](const WrongTone& w) { return w.string == string; });
}

std::optional<Habit> HabitSearch::on_a_string(double nats) const {
    if (matter_ != HabitMatter::tones) return std::nullopt;
    OnStrings on;
    for (std::size_t i = 0; i < changes_.size(); ++i) {
        if (is_open_[i] == 0) continue;
        for (int string = 1; string <= most_strings; ++string) {
            auto& share = on.strings.at(static_cast<std::size_t>(string - 1));
            if ((changes_[i].strings >> (string - 1) & 1) != 0) ++share.of;
            if (is_on_string(i, string)) ++share.cases;
        }
    }
    const auto worst = on.worst();
    const Share here = on.strings.at(worst);
    const Share elsewhere = on.without(worst);
    const bool stands_out = here.cases >= fewest_on_string &&
                            here.rate() >= as_often_on_string * on.next_rate(worst) &&
                            nats_apart(here, elsewhere) > nats;
    // Of so many foreign tones, as often as each string was struck.
    const Share all = on.all();
    const double usual = static_cast<double>(here.of) / std::max(1, all.of);
    const bool chance =
        tests_.chance_of({here.cases, all.cases}, usual) >= by_chance_on_string / most_strings;
    if (!stands_out || chance) return std::nullopt;
    Habit habit;
    habit.kind = HabitKind::string;
    habit.string = static_cast<int>(worst) + 1;
    habit.of = here.of;
    for (std::size_t i = 0; i < changes_.size(); ++i) {
        if (is_on_string(i, *habit.string)) habit.changes.push_back(i);
    }
    return described(std::move(habit), changes_, faults_, matter_);
}

}  // namespace compline::assess
