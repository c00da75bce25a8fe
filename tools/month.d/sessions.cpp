#include "sessions.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <tuple>

namespace compline::month {

namespace {

using simulate::Chance;

constexpr int three_years = 1096;  // days
constexpr double noise = 0.04;
constexpr double a_step = 0.05;  // between shares that have music
constexpr int tunes_each = 2;
constexpr chart::Passage short_passage{1, 8};

struct Course {
    double from;
    double to;
};
constexpr std::array<Course, 3> courses = {{{0.50, 0.95}, {0.75, 0.75}, {0.90, 0.60}}};

/// Music by pupil, tune and steps of share.
class Repertoire {
  public:
    Repertoire(std::uint64_t seed, const std::filesystem::path& charts)
        : seed_(seed), charts_(charts) {}

    const DatedTake& take(std::size_t pupil, std::size_t work, int steps) {
        const auto [found, is_new] = made_.try_emplace({pupil, work, steps});
        if (is_new) found->second = make(pupil, work, steps);
        return *found->second;
    }

  private:
    std::optional<DatedTake> make(std::size_t pupil, std::size_t work, int steps) const {
        const auto& who = pupils().at(pupil);
        const auto& what = who.works.at(work);
        const auto own = seed_ * 1000003 + pupil * 101 + work * 11;
        Chance chance(own * 1009 + static_cast<std::uint64_t>(steps));
        Luck luck(chance);
        Skill skill;
        skill.in_time = steps * a_step;
        skill.at = time::Bpm(what.tempo);
        skill.wrong = who.wrong;
        skill.place = who.place;
        skill.scatter = who.scatter;
        skill.comping = what.comping;
        skill.own = own;
        AskedTake asked;
        asked.what = What::loop;
        asked.bars = short_passage;
        asked.tempo = skill.at;
        asked.times = 2;
        const auto tune = load_tune(charts_ / what.chart);
        return DatedTake{{}, what.chart, asked, play(tune, asked, skill, luck, chance), false};
    }

    std::uint64_t seed_;
    const std::filesystem::path& charts_;
    std::map<std::tuple<std::size_t, std::size_t, int>, std::optional<DatedTake>> made_;
};

}  // namespace

void play_sessions(int count, const Weeks& asked, const std::filesystem::path& charts,
                   const std::function<void(const Session&)>& session) {
    Chance chance(asked.seed);
    Repertoire repertoire(asked.seed, charts);
    const Day begins = asked.ends - std::chrono::days(three_years - 1);
    Moment when{begins, {}};
    for (int n = 0; n < count; ++n) {
        const auto day = begins + std::chrono::days(std::int64_t{n} * three_years / count);
        when = day == when.day && when.since_midnight.count() > 0
                   ? Moment{day, when.since_midnight + std::chrono::seconds(90 + chance.below(240))}
                   : first_take(day, chance);
        const auto pupil = chance.below(courses.size());
        const auto& course = courses.at(pupil);
        const double passed = static_cast<double>(n) / std::max(1, count - 1);
        const double true_share = course.from + (course.to - course.from) * passed;
        const double drawn = std::clamp(true_share + noise * chance.scatter(), 0.2, 1.0);
        const int steps = static_cast<int>(std::lround(drawn / a_step));
        auto take = repertoire.take(pupil, chance.below(tunes_each), steps);
        take.when = when;
        session({pupils().at(pupil).name, true_share, steps * a_step, std::move(take)});
    }
}

}  // namespace compline::month
