#include "weeks_story.hpp"

#include "weeks_words.hpp"
#include "words.hpp"

#include <compline/history/trend.hpp>
#include <compline/report/day_words.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace compline::report {

namespace {

using history::Course;
using history::ThenAndNow;

/// What was played within a week is how it is now.
std::string now_words(const ThenAndNow& both, const std::string& today) {
    constexpr int week = 7;
    const auto last = history::days_of(both.now_to);
    const auto now = history::days_of(today);
    return last && now && *now - *last <= week ? "now" : on_day(both.now_to, today);
}

/// A tempo that nobody would call the same.
bool is_another_tempo(double then, double now) {
    constexpr double same_within = 0.04;
    return then > 0 && now > 0 && std::fabs(now - then) > same_within * then;
}

/// "71 % four weeks ago, 88 % now"; with the tempi where they are not the same: a faster one
/// explains a share that falls.
std::string then_and_now_words(const ThenAndNow& both, const std::string& today) {
    const bool tempi = is_another_tempo(both.then_bpm, both.now_bpm);
    return fmt::format("{} {}{}, {} {}{}", percent(both.then_share),
                       about_when(both.then_from, both.then_to, today),
                       tempi ? fmt::format(" at {} bpm", beats_words(both.then_bpm)) : "",
                       percent(both.now_share), now_words(both, today),
                       tempi ? fmt::format(" at {}", beats_words(both.now_bpm)) : "");
}

/// Where evenings differ more than they rise, a large step is no change that anybody could count
/// on.
std::string course_of(const history::TuneStory& story) {
    constexpr double large = 0.05;
    const auto& both = *story.then_and_now;
    const bool faster =
        story.tempo_trend.course == Course::better && is_another_tempo(both.then_bpm, both.now_bpm);
    if (faster && story.trend.course == Course::better) return "better, and faster";
    if (faster && story.trend.course == Course::worse) return "worse, but faster";
    if (faster && both.now_share >= both.then_share) return "as much in time, and faster";
    if (story.trend.course == Course::none &&
        std::fabs(both.now_share - both.then_share) >= large) {
        return "too uneven from evening to evening to call it a change";
    }
    return course_words(story.trend);
}

std::string tones_words(const TuneWeeks& tune) {
    if (tune.sound_lately) return "Heard by sound, so tones are not known.";
    return fmt::format("Right tones in {} of changes lately.",
                       percent(tune.story.lately.share_right()));
}

std::string time_words(const TuneWeeks& tune, const std::string& today) {
    const auto& story = tune.story;
    if (story.lately.of == 0) return "Of the last evenings nothing could be judged.";
    if (story.trend.course != Course::too_few && story.then_and_now) {
        return fmt::format(
            "{}: {}: {}. {}",
            story.by_whole_tunes && !story.tune.drill ? "Changes in time in the whole tune"
                                                      : "Changes in time",
            then_and_now_words(*story.then_and_now, today), course_of(story), tones_words(tune));
    }
    return fmt::format("Changes in time: {} lately. {} {}: too few to tell whether it gets better.",
                       percent(story.lately.share_in_time()), tones_words(tune),
                       evenings_words(std::max(story.trend.evenings, 1)));
}

/// Changes that are drilled are no tune to be played from end to end.
std::string clean_tempo_words(const history::TuneStory& story, const std::string& today) {
    if (!story.clean) return story.tune.drill ? "" : " The whole tune is not clean yet.";
    const auto& clean = *story.clean;
    const auto now = beats_words(clean.bpm);
    const auto before = clean.before ? beats_words(*clean.before) : now;
    return fmt::format(" Clean at {} bpm since {}{}.", now, day_words(clean.since, today),
                       before == now ? "" : fmt::format(", four weeks earlier at {}", before));
}

}  // namespace

std::string story_words(const TuneWeeks& tune, const WeeksAsked& asked) {
    return time_words(tune, asked.today) + clean_tempo_words(tune.story, asked.today);
}

std::string how_much_words(const TuneWeeks& tune, const WeeksAsked& asked) {
    const auto& story = tune.story;
    return fmt::format("last played {}, {}, {}", on_day(story.last_played, asked.today),
                       evenings_words(story.evenings), duration_words(story.seconds));
}

std::string brief_words(const TuneWeeks& tune, const WeeksAsked& asked) {
    const auto& story = tune.story;
    auto words = how_much_words(tune, asked);
    if (story.lately.of > 0) {
        words += fmt::format(", {} of changes in time", percent(story.lately.share_in_time()));
    }
    const auto course = course_words(story.trend);
    return words + (course.empty() ? "" : ": " + course);
}

std::string due_words(const TuneWeeks& tune, const WeeksAsked& asked) {
    const auto& due = tune.story.due;
    if (due.empty()) return "";
    const bool is_past = due < asked.today;  // ISO 8601 sorts by time
    return fmt::format("The whole tune {} due again {}.", is_past ? "was" : "is",
                       on_day(due, asked.today));
}

TuneWeeks weeks_of(const history::TuneHistory& tune, const std::string& since) {
    TuneWeeks weeks{history::story_of(tune, since), tune.bars, false, false};
    std::vector<const history::TuneEvening*> told;
    for (const auto& evening : tune.evenings) {
        if (evening.date >= since) told.push_back(&evening);
    }
    // The newest third, as the story has it.
    const auto newest = std::max<std::size_t>(1, told.size() / 3);
    for (std::size_t i = 0; i < told.size(); ++i) {
        if (!told[i]->by_sound) continue;
        weeks.sound_ever = true;
        weeks.sound_lately = weeks.sound_lately || i + newest >= told.size();
    }
    return weeks;
}

}  // namespace compline::report
