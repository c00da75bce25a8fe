#include "support/booking.hpp"

#include "support/forms.hpp"

#include <utility>

namespace compline::tests {

Booking Booking::of(chart::Passage passage, std::optional<int> times_through, int count_in_bars) {
    Booking booking;
    booking.asked = roadmap::Asked::of(passage, times_through);
    booking.asked.count_in_bars = count_in_bars;
    return booking;
}

roadmap::RoadMap Booking::map(const chart::Form& form,
                              std::vector<roadmap::Decision> decided) const {
    auto all = asked;
    all.melody = !players.melody.empty();
    all.guitar = players.voicings.has_value();
    return {form, std::move(all), std::move(decided)};
}

band::Part Booking::play(const chart::Form& form) const {
    return band::arrange(map(form), players);
}

std::vector<std::int64_t> silent_bars(const roadmap::RoadMap& map) {
    std::vector<std::int64_t> silent;
    for (std::int64_t number = 1; number <= *map.bars(); ++number) {
        if (map.bar(number).is_silent()) silent.push_back(number);
    }
    return silent;
}

roadmap::RoadMap time_alone(time::Bpm tempo, double swing_ratio) {
    auto asked = roadmap::Asked::of({1, 1}, std::nullopt);
    asked.swing = roadmap::AskedSwing{swing_ratio};
    return {make_form(time::Meter(4), tempo, {"F7"}), std::move(asked)};
}

}  // namespace compline::tests
