// A ladder alone: results of times through in, steps out.

#include "practice/climber.hpp"
#include "roadmap/scenes.hpp"
#include "support/catch.hpp"

#include <compline/practice/ladder.hpp>
#include <compline/text/bad_input.hpp>

#include <cstdlib>
#include <set>
#include <string>
#include <vector>

using namespace compline;
using practice::judged_of;
using practice::Ladder;
using practice::PlayedChanges;
using roadmap::LadderStep;
using time::Bpm;
using Judged = LadderStep::Judged;

namespace {

constexpr PlayedChanges all_right{8, 8, 8, 0};
constexpr PlayedChanges half_right{8, 8, 4, 0};
constexpr PlayedChanges hardly_struck{8, 2, 2, 0};

Ladder ladder(int from, int to, int bars = 4) { return {{Bpm(from), Bpm(to)}, bars}; }

/// The tempi that come after each result: c clean, n not, a dot for what does not count; behind a
/// step that ends it its name.
std::string course(Ladder ladder, const std::string& results) {
    std::string text;
    int time_through = 0;
    for (const char result : results) {
        const auto played = result == 'c' ? all_right : result == 'n' ? half_right : hardly_struck;
        const auto step = ladder.count(++time_through, played);
        text +=
            (text.empty() ? "" : " ") + std::to_string(static_cast<int>(step.next_tempo.count()));
        if (ladder.is_over()) return text + " " + std::string(name_of(step.next));
    }
    return text;
}

/// The same by somebody who reads the rules off a sheet: all that was played since the last move is
/// a word, and in whole numbers.
class OnPaper {
  public:
    OnPaper(int from, int to, int bars) : tempo_(from), many_(bars >= 24) {
        for (int rung = from; rung < to;) {
            rungs_.insert(rung);
            const int faster = (rung * 104 + 50) / 100;
            rung = faster > rung ? faster : rung + 1;
        }
        rungs_.insert(to);
    }

    /// "100", "section", "enough".
    std::string play(char result) {
        if (result == '.') return std::to_string(tempo_);
        since_ += result;
        if (ends_with(many_ ? "c" : "cc")) return up();
        if (ends_with("nn")) return down();
        return std::to_string(tempo_);
    }
    void by_hand(int tempo) {
        rungs_.insert(tempo);
        tempo_ = tempo;
        since_.clear();
        fallen_from_.clear();
    }

  private:
    [[nodiscard]] bool ends_with(const std::string& end) const {
        return since_.size() >= end.size() &&
               since_.compare(since_.size() - end.size(), end.size(), end) == 0;
    }
    std::string up() {
        since_.clear();
        const auto above = rungs_.upper_bound(tempo_);
        if (above == rungs_.end()) return "section";
        return std::to_string(tempo_ = *above);
    }
    std::string down() {
        since_.clear();
        fallen_from_.push_back(tempo_);
        if (std::count(fallen_from_.begin(), fallen_from_.end(), tempo_) == 3) return "enough";
        int nearest = tempo_;
        for (const int rung : rungs_) {
            if (rung >= tempo_) break;
            const auto off = [&](int it) { return std::abs(it * 100 - tempo_ * 92); };
            if (nearest == tempo_ || off(rung) < off(nearest)) nearest = rung;
        }
        return std::to_string(tempo_ = nearest);
    }

    std::set<int> rungs_;
    int tempo_;
    bool many_;
    std::string since_;
    std::vector<int> fallen_from_;
};

}  // namespace

TEST_CASE("twice clean in a row is four per cent faster, and what lies between is no row") {
    CHECK(course(ladder(96, 132), "cc") == "96 100");
    CHECK(course(ladder(96, 132), "cnc") == "96 96 96");
    CHECK(course(ladder(96, 132), "cncc") == "96 96 96 100");
    CHECK(course(ladder(96, 132), "cccccccc") == "96 100 100 104 104 108 108 112");
}

TEST_CASE("a ladder ends at its top, which has to be clean like every rung, with the section") {
    CHECK(course(ladder(96, 102), "cccccc") == "96 100 100 102 102 102 section");
    CHECK(course(ladder(398, 400), "cccc") == "398 400 400 400 section");
}

TEST_CASE("a slow ladder climbs by one beat a minute at least") {
    CHECK(course(ladder(30, 33), "cccccc") == "30 31 31 32 32 33");
}

TEST_CASE("of twenty-four bars once clean is enough") {
    CHECK(course(ladder(96, 132, 24), "ccn") == "100 104 104");
    CHECK(course(ladder(96, 132, 23), "cc") == "96 100");
}

TEST_CASE("twice not clean in a row is slower by the rung nearest to eight per cent") {
    CHECK(course(ladder(96, 132), "ccccccccnn") == "96 100 100 104 104 108 108 112 112 104");
    CHECK(course(ladder(96, 132), "ccnn") == "96 100 100 96");
    CHECK(course(ladder(96, 132), "ccncn") == "96 100 100 100 100");
}

TEST_CASE("three falls from one tempo are enough for today, on the lowest too") {
    CHECK(course(ladder(96, 132),
                 "cc"
                 "nn"
                 "cc"
                 "nn"
                 "cc"
                 "nn") == "96 100 100 96 96 100 100 96 96 100 100 100 enough");
    CHECK(course(ladder(96, 132), "nnnnnn") == "96 96 96 96 96 96 enough");
    // From two tempi twice each is not three times from one.
    CHECK(course(ladder(96, 132),
                 "nn"
                 "cc"
                 "nn"
                 "nn"
                 "cc"
                 "nn"
                 "c") == "96 96 96 100 100 96 96 96 96 100 100 96 96");
}

TEST_CASE("what was hardly struck moves nothing, and stands in no row") {
    CHECK(course(ladder(96, 132), "......") == "96 96 96 96 96 96");
    CHECK(course(ladder(96, 132), "c.c") == "96 96 100");
    CHECK(course(ladder(96, 132), "ccn.n") == "96 100 100 100 96");
}

TEST_CASE("whatever is played, and moved by hand, a ladder goes as on paper") {
    for (unsigned seed = 1; seed <= 400; ++seed) {
        INFO("seed " << seed);
        tests::Chance chance(seed);
        const int from = chance.from_to(30, 200);
        const int to = from + chance.from_to(1, chance.one_in(3) ? 6 : 200);
        const int bars = chance.from_to(20, 26);
        auto climbed = ladder(from, to, bars);
        OnPaper paper(from, to, bars);
        for (int n = 1; n <= 80 && !climbed.is_over(); ++n) {
            if (chance.one_in(15)) {
                const auto tempo = climbed.beside(chance.one_in(2));
                if (tempo < Bpm(30) || tempo > Bpm(400)) continue;
                climbed.stand_at(tempo);
                paper.by_hand(static_cast<int>(tempo.count()));
            }
            const char result = chance.one_in(8) ? '.' : chance.one_in(3) ? 'n' : 'c';
            const auto played = result == 'c'   ? all_right
                                : result == 'n' ? half_right
                                                : hardly_struck;
            const auto step = climbed.count(n, played);
            const auto expected = paper.play(result);
            const auto told = climbed.is_over()
                                  ? std::string(name_of(step.next))
                                  : std::to_string(static_cast<int>(step.next_tempo.count()));
            REQUIRE(told == expected);
        }
    }
}

TEST_CASE("by hand a ladder goes from rung to rung, and beyond an end that end goes along") {
    auto climbed = ladder(96, 104);
    CHECK(climbed.beside(true) == Bpm(100));
    climbed.stand_at(Bpm(104));
    CHECK(climbed.beside(true) == Bpm(108));
    climbed.stand_at(Bpm(108));
    CHECK(climbed.beside(false) == Bpm(104));
    CHECK(course(climbed, "cc") == "108 108 section");
    climbed.stand_at(Bpm(92));
    CHECK(course(climbed, "cc") == "92 96");
}

TEST_CASE("clean is three quarters struck, nine in ten of these right, and none missed") {
    CHECK(judged_of({8, 8, 8, 0}) == Judged::clean);
    CHECK(judged_of({8, 6, 6, 0}) == Judged::clean);
    CHECK(judged_of({8, 5, 5, 0}) == Judged::too_little);
    CHECK(judged_of({0, 0, 0, 0}) == Judged::too_little);
    CHECK(judged_of({20, 20, 18, 0}) == Judged::clean);
    CHECK(judged_of({20, 20, 17, 0}) == Judged::not_clean);
    CHECK(judged_of({20, 19, 19, 1}) == Judged::not_clean);
    CHECK(judged_of({8, 8, 7, 0}) == Judged::not_clean);
}

TEST_CASE(
    "of a time through its own changes are due, and count that are for certain struck or held") {
    using assess::Verdict;
    assess::Assessment assessment;
    const auto add = [&](Verdict verdict, assess::Tones tones, int time_through = 2) {
        assess::Change change;
        change.time_through = time_through;
        change.verdict = verdict;
        change.tones = tones;
        assessment.changes.push_back(change);
    };
    add(Verdict::on_time, assess::Tones::right, 1);
    add(Verdict::on_time, assess::Tones::right);
    add(Verdict::pushed, assess::Tones::right);
    add(Verdict::held, assess::Tones::right);
    add(Verdict::placed, assess::Tones::wrong);
    add(Verdict::late, assess::Tones::right);
    add(Verdict::missed, assess::Tones::none);
    add(Verdict::laid_out, assess::Tones::none);
    add(Verdict::laid_out, assess::Tones::none);
    assessment.changes.back().optional = true;
    add(Verdict::on_time, assess::Tones::right);
    assessment.changes.back().uncertain = true;
    const auto played = practice::played_changes(assessment, 2);
    CHECK(played.due == 8);
    CHECK(played.struck == 5);
    CHECK(played.right == 3);
    CHECK(played.missed == 1);
}

TEST_CASE("a ladder told by its steps: each tempo, how often, how often clean, and the best") {
    const roadmap::AskedLadder asked{Bpm(96), Bpm(132)};
    auto climbed = ladder(96, 132);
    std::vector<LadderStep> steps;
    const auto play = [&](const PlayedChanges& played) {
        steps.push_back(climbed.count(static_cast<int>(steps.size()) + 1, played));
    };
    play({8, 8, 5, 0});
    play({8, 8, 8, 0});
    play(hardly_struck);
    play({9, 9, 9, 0});
    play({8, 7, 4, 0});
    steps.push_back(climbed.pass_over(6));
    const auto told = practice::ladder_course(asked, steps);
    REQUIRE(told.rungs.size() == 2);
    CHECK(told.rungs[0].tempo == Bpm(96));
    CHECK(told.rungs[0].times == 4);
    CHECK(told.rungs[0].clean == 2);
    CHECK(told.rungs[0].right == 9);
    CHECK(told.rungs[0].due == 9);
    CHECK(told.rungs[1].times == 1);
    CHECK(told.rungs[1].clean == 0);
    CHECK(told.rungs[1].right == 4);
    CHECK(told.clean == Bpm(96));
    CHECK_FALSE(told.is_done);
    CHECK(told.next_start() == Bpm(86));
    CHECK(practice::ladder_course(asked, {}).next_start() == Bpm(96));
    CHECK(practice::ladder_course({Bpm(31), Bpm(40)}, {}).rungs.empty());
}

TEST_CASE(
    "a ladder to play to goes twice through each tempo, with sticks between, and the section") {
    auto asked = roadmap::Asked::of({5, 8}, 1);
    asked.ladder = roadmap::AskedLadder{Bpm(96), Bpm(102)};
    const auto map = practice::climbed(tests::two_sections(), asked);
    REQUIRE(map.bars() == 3 * 8 + 3 + 6);
    for (const int sticks : {9, 18, 27}) {
        CHECK(map.bar(sticks).waits);
        CHECK(map.bar(sticks).meter().bar() == time::Ticks(4 * 960));
    }
    CHECK(map.bar(8).tempo == Bpm(96));
    CHECK(map.bar(9).tempo == Bpm(100));
    CHECK(map.bar(26).tempo == Bpm(102));
    CHECK(map.bar(28).in_form() == 5);
    CHECK(map.bar(33).in_form() == 10);
    CHECK(map.bar(33).tempo == Bpm(102));
    double before = -10;
    for (int number = 1; number <= 33; ++number) {
        const double at = map.tempi().time_of(map.bar(number).start).count();
        CHECK(at > before);
        before = at;
    }
}

TEST_CASE("the whole tune on a ladder is once more the whole tune, which ends") {
    const auto form = tests::two_sections();
    const auto around = practice::once_around(form, form.whole());
    CHECK(around.stretches.front().passage == form.whole());
    CHECK(around.held_ending);
    CHECK(practice::once_around(form, {4, 6}).stretches.front().passage == chart::Passage{1, 4});
    CHECK(practice::once_around(form, {5, 10}).stretches.front().passage == chart::Passage{5, 10});
}

TEST_CASE("two tempi are a ladder, the slower first, and nothing else is one") {
    CHECK(roadmap::read_ladder("96-132") == roadmap::AskedLadder{Bpm(96), Bpm(132)});
    CHECK(roadmap::read_ladder(" 96 - 132 ") == roadmap::AskedLadder{Bpm(96), Bpm(132)});
    CHECK(roadmap::read_ladder("30-400") == roadmap::AskedLadder{Bpm(30), Bpm(400)});
    const auto refused = [](const std::string& text, const std::string& words) {
        INFO(text);
        try {
            (void)roadmap::read_ladder(text);
            FAIL("it was taken");
        } catch (const text::BadInput& error) {
            CHECK(std::string(error.what()).find(words) != std::string::npos);
        }
    };
    refused("132-96", "a ladder goes up: write 96-132");
    refused("96-96", "a ladder of one tempo leads nowhere");
    refused("96", "96 alone is no ladder: write the tempo to begin with");
    refused("96-401", "a ladder that ends at 401: 400 is the fastest");
    refused("29-96", "a ladder that begins at 29: 30 is the slowest");
    refused("96-fast", "\"fast\" is no tempo");
    refused("96-", "one of its two tempi is missing");
    refused("-96", "one of its two tempi is missing");
    refused("", "one of its two tempi is missing");
    refused("96.5-132", "96.5 is not a whole number of beats a minute");
    refused("96-100-104", "\"100-104\" is no tempo");
    refused("96-9999999999", "is no tempo");
}
