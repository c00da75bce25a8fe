#include "weeks_page_trend.hpp"

#include "picture.hpp"
#include "weeks_words.hpp"

#include <compline/history/evenings.hpp>
#include <compline/report/spoken_date.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace compline::report {

namespace {

using history::Course;
using history::EveningShare;
using history::Trend;
using history::TrendPoint;

// As in the picture of every time through: on a phone words are 40 high, and stand apart here.
constexpr double evenings_left = 100;
constexpr double evenings_right = 790;
constexpr double evenings_top = 22;
constexpr double evenings_height = 210;
constexpr double tempo_height = 90;
constexpr double days_height = 48;
constexpr double dot_radius = 7;
constexpr double clean_level = 0.9;

/// Evenings from left to right by their days, values from the foot up.
class EveningScale {
  public:
    EveningScale(const std::vector<TrendPoint>& points, double low, double high, double height)
        : first_(points.front().day),
          days_(points.back().day - first_),
          low_(low),
          high_(high),
          height_(height) {}

    [[nodiscard]] double x(double day) const {
        const double share = days_ > 0 ? (day - first_) / days_ : 0.5;
        return evenings_left + 14 + share * (evenings_right - evenings_left - 28);
    }
    [[nodiscard]] double y(double value) const {
        const double share = high_ > low_ ? (value - low_) / (high_ - low_) : 0.5;
        return evenings_top + height_ * (1 - std::clamp(share, 0.0, 1.0));
    }
    [[nodiscard]] double foot() const { return evenings_top + height_; }

    void draw(Picture& picture, const std::vector<TrendPoint>& points, const Trend& trend) const {
        if (trend.course == Course::better || trend.course == Course::worse) {
            picture.line({x(points.front().day), y(trend.first)},
                         {x(points.back().day), y(trend.last)}, "course");
        }
        for (const auto& point : points) {
            picture.ring({x(point.day), y(point.value)}, dot_radius, "evening");
        }
    }

  private:
    double first_;
    double days_;
    double low_;
    double high_;
    double height_;
};

void level(Picture& picture, double y, const std::string& words, const char* what) {
    picture.line({evenings_left, y}, {evenings_right, y}, what);
    picture.words({evenings_left - 8, y + 9}, words, "number end");
}

/// The first day and the last, with their years where these are two.
void days_below(Picture& picture, const std::vector<TrendPoint>& points, double y) {
    const auto first = history::date_of(static_cast<int>(points.front().day));
    const auto last = history::date_of(static_cast<int>(points.back().day));
    if (first == last) {
        picture.words({(evenings_left + evenings_right) / 2, y}, short_day(first), "number middle");
        return;
    }
    const bool one_year = first.substr(0, 4) == last.substr(0, 4);
    const auto words = [&](const std::string& day) {
        return one_year ? short_day(day) : spoken_day(day, WithYear::yes);
    };
    picture.words({evenings_left, y}, words(first), "number");
    picture.words({evenings_right, y}, words(last), "number end");
}

/// A round share below all of them, and no higher than a half.
double lowest_share(const std::vector<TrendPoint>& points) {
    double low = 0.5;
    for (const auto& point : points) low = std::min(low, std::floor(point.value * 10) / 10);
    return std::max(low, 0.0);
}

std::vector<TrendPoint> tempi_of(const std::vector<EveningShare>& evenings) {
    std::vector<TrendPoint> points;
    for (const auto& one : evenings) {
        if (one.bpm > 0) points.push_back({static_cast<double>(one.day), one.bpm});
    }
    return points;
}

/// The usual tempo of each evening; nothing where it is of one evening, or always the same.
std::string tempo_picture(const std::vector<TrendPoint>& tempi, const Trend& trend) {
    if (tempi.size() < 2) return "";
    const auto by_value = [](const auto& a, const auto& b) { return a.value < b.value; };
    const auto [least, most] = std::minmax_element(tempi.begin(), tempi.end(), by_value);
    const auto slow = beats_words(least->value);
    const auto fast = beats_words(most->value);
    if (slow == fast) return "";
    const EveningScale scale(tempi, least->value, most->value, tempo_height);
    Picture picture(800, scale.foot() + 16);
    level(picture, scale.y(most->value), fast, "barline");
    level(picture, scale.y(least->value), slow, "barline");
    scale.draw(picture, tempi, trend);
    return picture.svg("evenings tempo");
}

std::string evenings_table(const std::vector<EveningShare>& evenings) {
    PageTable table("Changes in time, evening by evening",
                    {"evening", "in time", "changes", "usual tempo, bpm"});
    for (const auto& one : evenings) {
        table.row({one.date, percent(one.share), std::to_string(one.of),
                   one.bpm > 0 ? beats_words(one.bpm) : "-"});
    }
    return table.markup();
}

std::string evening_sign() {
    Picture picture(20, 20);
    picture.ring({10, 10}, dot_radius, "evening");
    return picture.svg("sign");
}

std::string line_sign(const char* what) {
    Picture picture(20, 20);
    picture.line({0, 10}, {20, 10}, what);
    return picture.svg("sign");
}

std::string trend_key(const TuneWeeks& weeks, const std::vector<TrendPoint>& tempi, bool drawn) {
    const auto& story = weeks.story;
    const auto is_line = [](const Trend& trend) {
        return trend.course == Course::better || trend.course == Course::worse;
    };
    auto key = key_entry(evening_sign(), story.by_whole_tunes && !story.tune.drill
                                             ? "an evening's changes in time in the whole tune"
                                             : "an evening's changes in time, like for like") +
               key_entry(line_sign("wanted"), "nine in ten");
    if (is_line(story.trend) || (drawn && is_line(story.tempo_trend))) {
        key += key_entry(line_sign("course"), "where it goes");
    }
    if (drawn) return key + key_entry("", "below: the tempo, bpm");
    return tempi.empty()
               ? key
               : key + key_entry("", "all at " + beats_words(tempi.front().value) + " bpm");
}

}  // namespace

std::string evenings_picture(const std::vector<TrendPoint>& points, const Trend& trend, double low,
                             const std::string& name) {
    if (points.empty()) return "";
    const EveningScale scale(points, low, 1, evenings_height);
    Picture picture(800, scale.foot() + days_height);
    level(picture, scale.y(clean_level), percent(clean_level), "wanted");
    level(picture, scale.y(low), percent(low), "ground");
    scale.draw(picture, points, trend);
    days_below(picture, points, scale.foot() + 40);
    return picture.svg("evenings " + name);
}

PagePart trend_part(const history::TuneHistory& tune, const TuneWeeks& weeks,
                    const WeeksAsked& asked) {
    const auto evenings = history::evening_shares(tune, asked.since);
    if (evenings.empty()) return {};
    const auto shares = history::points_of(evenings);
    const auto tempi = tempi_of(evenings);
    const auto tempo = tempo_picture(tempi, weeks.story.tempo_trend);
    const auto course = course_words(weeks.story.trend);
    PagePart part{"trend", "Evening by evening", "", "", "", evenings_table(evenings)};
    part.says = fmt::format("Changes in time on {}, from {} on {} to {} on {}: {}.",
                            evenings_words(static_cast<int>(evenings.size())),
                            percent(evenings.front().share), evenings.front().date,
                            percent(evenings.back().share), evenings.back().date,
                            course.empty() ? "too few evenings to tell" : course);
    part.picture =
        evenings_picture(shares, weeks.story.trend, lowest_share(shares), "shares") + tempo;
    part.below = trend_key(weeks, tempi, !tempo.empty());
    return part;
}

}  // namespace compline::report
