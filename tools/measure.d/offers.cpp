#include "measure.d/offers.hpp"

#include "measure.d/between.hpp"
#include "measure.d/pupils.hpp"

#include <compline/chart/pins.hpp>
#include <compline/chart/transpose.hpp>
#include <compline/practice/offers.hpp>
#include <compline/simulate/chance.hpp>
#include <compline/simulate/played.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>

namespace compline::measure {

namespace {

using practice::HintKind;
using practice::ScoreRequest;
using simulate::Chance;
using simulate::Comping;
using time::Seconds;

constexpr std::array<std::string_view, ways_to_misplay> names = {
    "a bar later",       "two bars later",      "a bar or two earlier", "half a beat late",
    "90 to 220 ms late", "... off-beats alone", "transposed",           "half the tempo",
    "twice the tempo",   "2 to 8 % off",        "another chart",        "nothing"};

/// What is done to a take, and what is to be offered for it.
struct Plant {
    Seconds later{0};
    int semitones = 0;
    double faster = 1;
    std::size_t judged_by = 0;  ///< which of the charts
};

/// A file from elsewhere.
struct Planted {
    practice::Take take;
    chart::Form judged_by;
    ScoreRequest request;
    std::string words;
};

int either_way(Chance& chance, int most) {
    const int far = 1 + static_cast<int>(chance.below(static_cast<std::uint64_t>(most)));
    return chance.below(2) == 0 ? far : -far;
}

bool strikes_off_beats_alone(Comping comping) {
    return comping == Comping::pushes || comping == Comping::off_beats;
}

Comping comping_for(Misplayed misplayed, Chance& chance) {
    const auto any = [&] { return static_cast<Comping>(chance.below(simulate::comping_count)); };
    if (misplayed == Misplayed::off_beats_delayed) {
        return chance.below(2) == 0 ? Comping::pushes : Comping::off_beats;
    }
    const bool late = misplayed == Misplayed::half_a_beat || misplayed == Misplayed::delayed;
    auto comping = any();
    while (late && strikes_off_beats_alone(comping)) comping = any();
    return comping;
}

simulate::Habits habits_of(Misplayed misplayed, Chance& chance) {
    simulate::Habits habits;
    habits.comping = comping_for(misplayed, chance);
    habits.scatter = Seconds(between(chance, 0.010, 0.020));
    habits.place = Seconds(chance.below(2) == 0 ? 0 : between(chance, 0, 0.020));
    habits.rates.fill(0.02);
    return habits;
}

bool swings(const chart::Form& form) {
    const roadmap::RoadMap map(form, roadmap::Asked::of(form.whole(), 1));
    for (std::int64_t bar = 1; bar <= *map.bars(); ++bar) {
        if (map.bar(bar).swing.ratio() < 1.5) return false;
    }
    return true;
}

Plant plant_of(Misplayed misplayed, const roadmap::RoadMap& map, Chance& chance) {
    const auto first = map.bar(1);
    switch (misplayed) {
        case Misplayed::bar_later:
            return {first.lasts()};
        case Misplayed::two_bars:
            return {first.lasts() * 2};
        case Misplayed::bar_earlier:
            return {-first.lasts() * static_cast<double>(1 + chance.below(2))};
        case Misplayed::half_a_beat:
            return {first.tempo.beat() * 0.5};
        case Misplayed::delayed:
        case Misplayed::off_beats_delayed:
            return {Seconds(between(chance, 0.090, 0.220))};
        case Misplayed::transposed:
            return {Seconds(0), either_way(chance, 6)};
        case Misplayed::half_tempo:
            return {Seconds(0), 0, 0.5};
        case Misplayed::twice_tempo:
            return {Seconds(0), 0, 2};
        case Misplayed::few_percent:
            return {Seconds(0), 0, 1 + either_way(chance, 1) * between(chance, 0.02, 0.08)};
        default:
            return {};
    }
}

std::vector<midi::TimedMessage> displaced(std::vector<midi::TimedMessage> messages,
                                          const Plant& plant) {
    for (auto& timed : messages) {
        timed.at = timed.at + plant.later;
        const bool note = timed.message.starts_note() || timed.message.ends_note();
        if (note)
            timed.message.data1 = static_cast<std::uint8_t>(timed.message.data1 + plant.semitones);
    }
    // A file begins with its beginning.
    std::erase_if(messages, [](const auto& timed) { return timed.at < Seconds(-0.05); });
    return messages;
}

std::string words_of(const roadmap::RoadMap& map, const simulate::Habits& habits,
                     const Plant& plant) {
    return fmt::format("{}, {}, place {:.0f} ms: {:+.0f} ms, {:+d} semitones, x {:.4f}",
                       map.form().chart.title, name_of(habits.comping), habits.place.milliseconds(),
                       plant.later.milliseconds(), plant.semitones, plant.faster);
}

std::optional<roadmap::RoadMap> road(const chart::Form& form, double faster) {
    constexpr int bars_enough = 24;
    auto asked = roadmap::Asked::of(form.whole(), form.whole().bars() < bars_enough ? 3 : 2);
    asked.tempo = time::Bpm(form.chart.tempo.count() * faster);
    try {
        return roadmap::RoadMap(form, asked);
    } catch (const text::BadInput&) {
        return std::nullopt;  // a section's tempo is out of range
    }
}

practice::Take take_of(const roadmap::RoadMap& map, const simulate::PlayedTune& played,
                       const Plant& plant) {
    practice::Take take;
    take.messages =
        displaced(simulate::perform(played.script, map, guitar::Fretboard::standard()), plant);
    take.end = map.time_of(map.end()) + plant.later + Seconds(1);
    return take;
}

/// A kind of hint, and the figure in it.
struct Wanted {
    HintKind kind = HintKind::offset;
    double value = 0;
    double at_most_off = 0;
    std::string chart;
};

double figure_of(const std::string& option) {
    return std::stod(option.substr(option.find(' ') + 1));
}

bool is_as_wanted(const practice::Hint& hint, const Wanted& wanted) {
    if (hint.kind != wanted.kind) return false;
    if (wanted.kind == HintKind::chart) return hint.option == "--chart " + wanted.chart;
    const double off = figure_of(hint.option) - wanted.value;
    if (wanted.kind == HintKind::transpose) return std::fmod(off + 24, 12) == 0;
    return std::fabs(off) <= wanted.at_most_off;
}

std::vector<practice::OtherChart> others(const std::vector<chart::Form>& forms, std::size_t but) {
    std::vector<practice::OtherChart> charts;
    for (std::size_t i = 0; i < forms.size(); ++i) {
        if (i != but) charts.push_back({fmt::format("chart-{}", i), forms[i]});
    }
    return charts;
}

/// As `score` does.
std::optional<practice::Hint> offered(const practice::Take& take, const chart::Form& form,
                                      const std::vector<practice::OtherChart>& charts,
                                      const ScoreRequest& request) {
    const auto report = practice::hear_and_judge(form, take, request);
    if (auto chart = practice::offer_among(charts, take, request, report)) return chart;
    if (report.hints.empty()) return std::nullopt;
    return report.hints.front();
}

Wanted wanted_for(Misplayed misplayed, const Plant& plant, const roadmap::RoadMap& map,
                  std::size_t played) {
    const double off_ms = 45;  // where a player stands beside the beat is in it
    switch (misplayed) {
        case Misplayed::transposed:
            return {HintKind::transpose, static_cast<double>(plant.semitones), 0, {}};
        case Misplayed::half_tempo:
        case Misplayed::twice_tempo:
        case Misplayed::few_percent:
            return {HintKind::tempo, map.tempo().count(), map.tempo().count() * 0.001, {}};
        case Misplayed::other_chart:
            return {HintKind::chart, 0, 0, fmt::format("chart-{}", played)};
        default:
            return {HintKind::offset, plant.later.milliseconds(), off_ms, {}};
    }
}

/// What would be right by what was planted.
practice::RightChanges right_by(const Plant& plant, const practice::Take& take,
                                const chart::Form& played_to, const roadmap::RoadMap& map) {
    ScoreRequest request;
    request.offset = plant.later;
    request.tempo = map.tempo();
    auto chart = played_to.chart;
    if (plant.semitones != 0) {
        const auto key = chart::key_apart(chart.key, plant.semitones);
        chart = chart::transposed(chart, key, chart::highest_fret).chart;
    }
    const auto form = chart::unroll(std::move(chart));
    return practice::right_changes(practice::hear_and_judge(form, take, request));
}

/// Nothing is to be offered: enough is right as it is, or not twice as much by what was planted.
/// Or something else is offered by which as much is right.
bool is_doubtful(const std::optional<practice::Hint>& hint, practice::RightChanges now,
                 practice::RightChanges planted) {
    constexpr double no_difference = 0.03;
    if (!hint) return !now.are_few() || planted.share() < 2 * now.share() || planted.are_few();
    return practice::RightChanges{hint->right, hint->of}.share() >= planted.share() - no_difference;
}

void count(const std::optional<practice::Hint>& hint, bool right, const std::string& words,
           OfferFigures& figures) {
    ++figures.takes;
    if (right) {
        ++figures.right;
        return;
    }
    figures.other += hint ? 1 : 0;
    figures.slips.push_back(words + "\n    " + (hint ? hint->words : "nothing is offered"));
}

/// False: such a take cannot be.
bool plant_one(const std::vector<chart::Form>& forms, Misplayed misplayed, std::uint64_t seed,
               OfferFigures& figures) {
    Chance chance(seed);
    const auto played_to = chance.below(forms.size());
    const auto& form = forms[played_to];
    if (misplayed == Misplayed::half_a_beat && !swings(form)) return false;
    const auto own = road(form, 1);
    const auto plant = plant_of(misplayed, *own, chance);
    const auto map = road(form, plant.faster);
    if (!map) return false;
    auto judged_by = played_to;
    if (misplayed == Misplayed::other_chart) {
        judged_by = (played_to + 1 + chance.below(forms.size() - 1)) % forms.size();
    }
    const auto habits = habits_of(misplayed, chance);
    const auto take = take_of(*map, simulate::play(*map, habits, seed), plant);
    const auto hint = offered(take, forms[judged_by], others(forms, judged_by), {});
    const auto wanted = wanted_for(misplayed, plant, *map, played_to);
    const bool right = hint && is_as_wanted(*hint, wanted);
    if (!right) {
        const auto now = practice::right_changes(
            practice::hear_and_judge(forms[judged_by], take, ScoreRequest{}));
        const bool doubt = is_doubtful(hint, now, right_by(plant, take, form, *map));
        figures.doubtful += doubt ? 1 : 0;
    }
    count(hint, right, words_of(*map, habits, plant), figures);
    return true;
}

void play_one(const std::vector<chart::Form>& forms, std::uint64_t seed, int n,
              OfferFigures& figures) {
    const auto one = pupil(forms, seed, n);
    const auto take = take_of(one.map, simulate::play(one.map, one.habits, one.seed), {});
    ScoreRequest request;
    request.tempo = one.map.tempo();
    // The feel is the player's wish, which a file from elsewhere does not tell.
    auto form = one.map.form();
    if (one.habits.comping == Comping::bossa) form.chart.manner.feel = chart::Feel::bossa;
    form = chart::unroll(form.chart);
    const auto hint = offered(take, form, others(forms, forms.size()), request);
    count(hint, !hint, words_of(one.map, one.habits, {}), figures);
}

}  // namespace

std::string_view name_of(Misplayed misplayed) {
    return names.at(static_cast<std::size_t>(misplayed));
}

std::array<OfferFigures, ways_to_misplay> offers_made(const std::vector<chart::Form>& forms,
                                                      int takes, std::uint64_t seed) {
    std::array<OfferFigures, ways_to_misplay> all;
    for (int way = 0; way < ways_to_misplay - 1; ++way) {
        auto& figures = all.at(static_cast<std::size_t>(way));
        for (std::uint64_t n = 0; figures.takes < takes; ++n) {
            const auto own = (seed * 1000003 + n) * 16 + static_cast<std::uint64_t>(way);
            plant_one(forms, static_cast<Misplayed>(way), own, figures);
        }
    }
    for (int n = 0; n < 4 * takes; ++n) play_one(forms, seed, n, all.back());
    return all;
}

}  // namespace compline::measure
