#include "app/quick_chart.hpp"
#include "month.d/evening_plan.hpp"
#include "month.d/sessions.hpp"
#include "support/catch.hpp"

#include <compline/chart/write_chart.hpp>
#include <compline/midi/smf.hpp>
#include <compline/practice/scoring.hpp>

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <map>
#include <set>
#include <string>
#include <utility>
#include <vector>

// Weeks of takes of three pupils (tools/month): judged, they are what they were meant to be.

using namespace compline;
using month::DatedTake;
using month::Fate;
using month::PupilsEvening;

namespace fs = std::filesystem;

namespace {

const fs::path charts = fs::path(COMPLINE_SOURCE_DIR) / "charts";
enum Who { gets_better, does_not_change, is_uneven };

std::vector<PupilsEvening> weeks_of(Who who, int weeks, std::uint64_t seed = 1) {
    std::vector<PupilsEvening> all;
    play_weeks(month::pupils().at(who), who, {*month::read_day("2026-11-30"), weeks, seed}, charts,
               [&](const auto& evening) { all.push_back(evening); });
    return all;
}

std::vector<std::uint8_t> bytes_of(const DatedTake& take) {
    return to_bytes(take.made, "Somebody", take.when.made());
}

/// Through its file, by its own chart.
practice::Report judged(const DatedTake& take) {
    const auto read = practice::read_take(midi::read_smf(bytes_of(take)).file);
    return practice::hear_and_judge(practice::form_of(*read.info, "take"), read, {});
}

struct Share {
    int in_time = 0;
    int all = 0;
    void add(bool good) {
        in_time += good ? 1 : 0;
        ++all;
    }
    [[nodiscard]] double share() const { return all == 0 ? 0 : double(in_time) / all; }
};

bool is_in_time(const assess::Change& change) {
    using assess::Verdict;
    return change.verdict == Verdict::on_time || change.verdict == Verdict::pushed ||
           change.verdict == Verdict::held;
}

Share in_time(const DatedTake& take) {
    Share share;
    for (const auto& change : judged(take).assessment.changes) share.add(is_in_time(change));
    return share;
}

int meant(const DatedTake& take, Fate fate) {
    return static_cast<int>(std::count_if(take.made.meant.begin(), take.made.meant.end(),
                                          [&](const auto& change) { return change.fate == fate; }));
}

bool is_whole_tune(const DatedTake& take) {
    return take.asked.what == month::What::tune && !take.hardly_played;
}

/// Least squares, an evening.
double slope(const std::vector<std::pair<int, double>>& points) {
    double n = 0, x = 0, y = 0, xx = 0, xy = 0;
    for (const auto& [evening, share] : points) {
        n += 1;
        x += evening;
        y += share;
        xx += double(evening) * evening;
        xy += evening * share;
    }
    return (n * xy - x * y) / (n * xx - x * x);
}

/// As it is judged, over the whole tunes of each evening.
double slope_of(Who who, int weeks) {
    std::vector<std::pair<int, double>> points;
    for (const auto& evening : weeks_of(who, weeks)) {
        Share share;
        for (const auto& take : evening.takes) {
            if (!is_whole_tune(take)) continue;
            const auto one = in_time(take);
            share.in_time += one.in_time;
            share.all += one.all;
        }
        points.emplace_back(evening.date.number, share.share());
    }
    return slope(points);
}

}  // namespace

TEST_CASE("every take of a pupil is judged as it was meant: tunes, loops, ladders and drills") {
    std::set<month::What> kinds;
    int changes = 0;
    int apart = 0;
    for (const auto who : {gets_better, does_not_change, is_uneven}) {
        for (const auto& evening : weeks_of(who, 1)) {
            for (const auto& take : evening.takes) {
                INFO(take.when.file() << " " << name_of(take.asked.what));
                kinds.insert(take.asked.what);
                const auto share = in_time(take);
                CHECK(std::abs(share.all - int(take.made.meant.size())) <= 2);
                const int here = std::abs(share.in_time - meant(take, Fate::in_time));
                CHECK(here <= 6);
                changes += share.all;
                apart += here;
            }
        }
    }
    CHECK(kinds.size() == 4);
    CHECK(changes > 2000);
    CHECK(apart * 100 < changes);
}

TEST_CASE("who gets better by ten points in eight evenings is seen to, who does not is not") {
    CHECK(slope_of(gets_better, 3) == Approx(0.0125).margin(0.006));
    CHECK(slope_of(does_not_change, 2) == Approx(0).margin(0.006));
}

TEST_CASE("a bar and two chords stay bad in the tunes of a pupil who is good at the rest") {
    std::map<std::string, std::map<std::string, Share>> shares;
    for (const auto& evening : weeks_of(is_uneven, 3)) {
        for (const auto& take : evening.takes) {
            if (!is_whole_tune(take)) continue;
            for (const auto& change : judged(take).assessment.changes) {
                const auto symbol = [](const harmony::Chord& chord) {
                    return chord.symbol(harmony::Accidentals::letters);
                };
                const bool these =
                    change.from && symbol(*change.from) == "Cm7" && symbol(change.to) == "F7";
                const auto place = these ? "Cm7 to F7" : change.bar == 8 ? "bar 8" : "the rest";
                shares[take.chart][place].add(is_in_time(change));
            }
        }
    }
    auto& blues = shares["blue-kettle-on-the-back-stairs.yaml"];
    auto& bossa = shares["salt-on-the-harbour-steps.yaml"];
    CHECK(blues["bar 8"].share() < 0.4);
    CHECK(blues["Cm7 to F7"].share() < 0.45);
    CHECK(bossa["Cm7 to F7"].share() < 0.45);
    CHECK(blues["the rest"].share() > 0.8);
    CHECK(shares["waltz-for-a-leaning-chimney.yaml"]["the rest"].share() > 0.9);
}

TEST_CASE("in one take hardly anything is struck, and a tune is left for three weeks") {
    const auto& pupil = month::pupils()[is_uneven];
    std::vector<month::Tune> tunes;
    for (const auto& work : pupil.works) tunes.push_back(month::load_tune(charts / work.chart));
    const auto drill = month::typed_changes(pupil.drill, pupil.drill_key);
    for (std::uint64_t seed = 1; seed <= 20; ++seed) {
        simulate::Chance chance(seed);
        int sparse = 0;
        std::set<int> weeks_played;
        for (const auto& date : month::evenings(*month::read_day("2026-11-30"), 5, chance)) {
            const auto plan = plan_evening(pupil, tunes, drill, date, 5, chance);
            CHECK((plan.size() >= 2 && plan.size() <= 5));
            for (const auto& take : plan) {
                sparse += take.hardly_plays ? 1 : 0;
                if (pupil.works[take.work].left_for_weeks) weeks_played.insert(date.week);
            }
        }
        CHECK(sparse == 1);
        CHECK(weeks_played == std::set<int>{0, 4});
    }
}

TEST_CASE("who hardly plays strikes a chord here and there, and the judge hears no more") {
    simulate::Chance chance(1);
    month::Luck luck(chance);
    month::Skill skill;
    skill.struck = 0.06;
    const auto tune = month::load_tune(charts / "blue-kettle-on-the-back-stairs.yaml");
    month::AskedTake asked;
    asked.bars = tune.form.whole();
    asked.times = 3;
    const auto made = play(tune, asked, skill, luck, chance);
    const DatedTake take{{*month::read_day("2026-11-30"), {}}, tune.file, asked, made, true};
    CHECK(meant(take, Fate::not_struck) >= 40);
    CHECK(judged(take).assessment.strums.size() < 20);
}

TEST_CASE("a pupil of the same seed plays the same, byte for byte, and of another one otherwise") {
    const auto all_bytes = [](std::uint64_t seed) {
        std::vector<std::vector<std::uint8_t>> all;
        for (const auto& evening : weeks_of(is_uneven, 1, seed)) {
            for (const auto& take : evening.takes) all.push_back(bytes_of(take));
        }
        return all;
    };
    const auto first = all_bytes(3);
    CHECK(all_bytes(3) == first);
    CHECK(all_bytes(4) != first);
}

TEST_CASE("changes that a pupil types are the chart that practice makes of them") {
    for (const auto& pupil : month::pupils()) {
        const auto typed = month::typed_changes(pupil.drill, pupil.drill_key);
        CHECK(typed.text == chart::write_chart(app::chart_of_changes(pupil.drill)));
    }
}

TEST_CASE("many sessions over three years, judged, are as good as they were meant to be") {
    std::set<std::string> players;
    std::vector<std::pair<int, double>> better;
    month::Day first;
    month::Day last;
    int number = 0;
    month::play_sessions(
        60, {*month::read_day("2026-11-30"), 0, 1}, charts, [&](const month::Session& session) {
            players.insert(session.player);
            if (number++ == 0) first = session.take.when.day;
            last = session.take.when.day;
            const auto share = in_time(session.take).share();
            CHECK(share == Approx(session.share).margin(0.2));
            if (session.player == month::pupils()[gets_better].name) {
                better.emplace_back((session.take.when.day - first).count(), share);
            }
        });
    CHECK(number == 60);
    CHECK(players.size() == 3);
    CHECK((last - first).count() > 1000);
    CHECK(slope(better) * 1096 == Approx(0.45).margin(0.15));
}
