#include "month.hpp"

#include "evening_plan.hpp"

#include <algorithm>
#include <cmath>
#include <map>

namespace compline::month {

namespace {

using simulate::Chance;
using std::chrono::seconds;

struct Tunes {
    std::vector<Tune> works;
    Tune drill;
};

Tunes tunes_of(const Pupil& pupil, const std::filesystem::path& charts) {
    Tunes tunes;
    for (const auto& work : pupil.works) tunes.works.push_back(load_tune(charts / work.chart));
    tunes.drill = typed_changes(pupil.drill, pupil.drill_key);
    return tunes;
}

/// A bar that stays bad is one of the first tune alone.
std::vector<StaysBad> stays_bad_in(const Pupil& pupil, std::size_t work, What what) {
    auto all = pupil.stays_bad;
    if (work != 0 || what == What::drill) {
        std::erase_if(all, [](const StaysBad& bad) { return bad.bar != 0; });
    }
    return all;
}

/// As it goes on an evening: with its noise, which all takes of it share.
Skill skill_of(const Pupil& pupil, const PlannedTake& take, double noise, int evening,
               std::uint64_t own) {
    const auto& work = pupil.works[take.work];
    Skill skill;
    skill.in_time = std::clamp(true_share(work, evening) + noise, 0.2, 0.99);
    skill.at = time::Bpm(true_tempo(work, evening));
    if (take.asked.what == What::drill) skill.at = take.asked.tempo;
    skill.wrong = pupil.wrong;
    if (take.asked.what != What::tune) skill.learns = 0.9;
    if (take.hardly_plays) skill.struck = 0.06;
    skill.place = pupil.place;
    skill.scatter = pupil.scatter;
    skill.comping = work.comping;
    skill.stays_bad = stays_bad_in(pupil, take.work, take.asked.what);
    skill.own = own + take.work;
    return skill;
}

/// A look at the strings, a sip of tea.
Moment after(const Moment& when, const MadeTake& made, Chance& chance) {
    const auto lasted = (made.map.lead() + made.take.end).count();
    const auto rest = 40 + static_cast<long>(chance.below(200));
    return {when.day, when.since_midnight + seconds(std::lround(lasted) + rest)};
}

}  // namespace

void play_weeks(const Pupil& pupil, int number, const Weeks& asked,
                const std::filesystem::path& charts,
                const std::function<void(const PupilsEvening&)>& evening) {
    const auto own = asked.seed * 1000003 + static_cast<std::uint64_t>(number) * 101;
    Chance chance(own);
    const auto tunes = tunes_of(pupil, charts);
    for (const auto& date : evenings(asked.ends, asked.weeks, chance)) {
        PupilsEvening made{date, {}, {}};
        Luck luck(chance);
        const double noise = pupil.noise * chance.scatter();
        auto when = first_take(date.day, chance);
        const auto plan = plan_evening(pupil, tunes.works, tunes.drill, date, asked.weeks, chance);
        std::map<std::size_t, Skill> tunes_played;
        for (const auto& planned : plan) {
            const bool is_drill = planned.asked.what == What::drill;
            const auto& tune = is_drill ? tunes.drill : tunes.works[planned.work];
            const auto skill = skill_of(pupil, planned, noise, date.number, own);
            if (!is_drill) tunes_played.emplace(planned.work, skill);
            auto take = play(tune, planned.asked, skill, luck, chance);
            const auto next = after(when, take, chance);
            made.takes.push_back({when, is_drill ? pupil.drill : tune.file, planned.asked,
                                  std::move(take), planned.hardly_plays});
            when = next;
        }
        for (const auto& [work, skill] : tunes_played) {
            made.tunes.push_back({pupil.works[work].chart,
                                  true_share(pupil.works[work], date.number), skill.in_time,
                                  skill.at.count()});
        }
        evening(made);
    }
}

}  // namespace compline::month
