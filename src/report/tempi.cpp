#include "words.hpp"

#include <compline/report/tempi.hpp>

#include <fmt/format.h>

#include <algorithm>

namespace compline::report {

namespace {

using roadmap::RoadMap;
using time::Bpm;
using Tempi = std::vector<Bpm>;

template <typename Take>
void for_each_bar(const RoadMap& map, Take take) {
    for (std::int64_t number = 1; number <= map.bars().value(); ++number) {
        if (const auto bar = map.bar(number); !bar.waits) take(bar);
    }
}

/// The tempi of each time through, in order.
std::vector<Tempi> by_time_through(const RoadMap& map) {
    std::vector<Tempi> all(static_cast<std::size_t>(map.times_through().value()));
    for_each_bar(map, [&](const roadmap::PlayedBar& bar) {
        auto& tempi = all.at(static_cast<std::size_t>(bar.time_through - 1));
        if (tempi.empty() || tempi.back() != bar.tempo) tempi.push_back(bar.tempo);
    });
    return all;
}

constexpr const char* no_tempo = "free time";

/// "132", "137 to 126", "between 126 and 137"; "free time" where there is none.
std::string tempo_course_words(const Tempi& tempi) {
    if (tempi.empty()) return no_tempo;
    const auto [slowest, fastest] = std::minmax_element(tempi.begin(), tempi.end());
    if (tempo_number(*slowest) == tempo_number(*fastest)) return tempo_number(tempi.front());
    const bool one_way =
        std::is_sorted(tempi.begin(), tempi.end()) || std::is_sorted(tempi.rbegin(), tempi.rend());
    if (one_way) return tempo_number(tempi.front()) + " to " + tempo_number(tempi.back());
    return fmt::format("between {} and {}", tempo_number(*slowest), tempo_number(*fastest));
}

/// Times through in a row that went alike; one alone where the tempo changed within it.
struct AlikeTempi {
    int from = 1;
    int to = 1;
    bool steady = true;
    std::string course;

    [[nodiscard]] std::string words() const {
        const auto* const time_word = from == 1 ? " time " : " ";
        if (from == to) return ordinal(from) + time_word + course;
        const auto* const up_to = to == from + 1 ? " and " : " to ";
        return ordinal(from) + up_to + ordinal(to) + time_word + course;
    }
};

std::vector<AlikeTempi> alike_in_a_row(const std::vector<Tempi>& times) {
    std::vector<AlikeTempi> all;
    for (std::size_t i = 0; i < times.size(); ++i) {
        const int time_through = static_cast<int>(i) + 1;
        const auto course = tempo_course_words(times[i]);
        const bool steady = times[i].empty() || course == tempo_number(times[i].front());
        if (steady && !all.empty() && all.back().steady && all.back().course == course) {
            all.back().to = time_through;
        } else {
            all.push_back({time_through, time_through, steady, course});
        }
    }
    return all;
}

/// The first so many, and the last.
std::string listed(const std::vector<AlikeTempi>& all, std::size_t first) {
    std::string text;
    for (std::size_t i = 0; i < first; ++i) text += all[i].words() + ", ";
    if (first + 1 < all.size()) text += "..., ";
    return text + all.back().words() + (all.back().course == no_tempo ? "" : " bpm");
}

}  // namespace

std::vector<TempoPlayed> tempi_played(const RoadMap& map) {
    std::vector<TempoPlayed> tempi;
    for_each_bar(map, [&](const roadmap::PlayedBar& bar) {
        if (!tempi.empty() && tempi.back().tempo == bar.tempo) return;
        tempi.push_back({bar.time_through, bar.number, bar.tempo});
    });
    return tempi;
}

std::string tempo_range(const RoadMap& map) {
    const auto tempi = tempi_played(map);
    if (tempi.empty()) return no_tempo;
    const auto [slowest, fastest] =
        std::minmax_element(tempi.begin(), tempi.end(),
                            [](const auto& one, const auto& two) { return one.tempo < two.tempo; });
    const auto least = tempo_number(slowest->tempo);
    const auto most = tempo_number(fastest->tempo);
    return (least == most ? least : least + " to " + most) + " bpm";
}

std::string tempi_by_time_through(const RoadMap& map, std::size_t columns) {
    const auto all = alike_in_a_row(by_time_through(map));
    if (all.size() == 1 && all.front().steady) return "";
    if (map.times_through() == 1) return all.front().course + " bpm";
    for (std::size_t first = all.size() - 1; first > 0; --first) {
        if (auto text = listed(all, first); text.size() <= columns) return text;
    }
    return listed(all, 0);
}

}  // namespace compline::report
