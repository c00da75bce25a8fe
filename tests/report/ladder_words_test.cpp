// A ladder in words: the line after each time through, and the table of the report.

#include "practice/climber.hpp"
#include "report/hand_made.hpp"
#include "support/catch.hpp"

#include <compline/report/columns.hpp>
#include <compline/report/remarks.hpp>
#include <compline/report/time_through_line.hpp>

#include <string>
#include <vector>

using namespace compline;
using namespace compline::tests;
using practice::Ladder;
using roadmap::LadderStep;
using time::Bpm;

namespace {

constexpr practice::PlayedChanges good{8, 8, 8, 0};
constexpr practice::PlayedChanges poor{8, 8, 5, 0};
constexpr practice::PlayedChanges little{8, 1, 1, 0};

/// Steps of a ladder on bars 5 to 8, in section B, and what is said of the last of them.
class Said {
  public:
    Said(int from, int to, chart::Passage bars = {5, 8})
        : ladder_({Bpm(from), Bpm(to)}, 4), map_(on_a_ladder(from, to, bars)) {}
    std::string after(const std::vector<practice::PlayedChanges>& times) {
        for (const auto& played : times) {
            steps_.push_back(ladder_.count(static_cast<int>(steps_.size()) + 1, played));
        }
        return report::ladder_line(steps_.back(), map_);
    }
    std::string not_whole() {
        return report::ladder_line(ladder_.pass_over(static_cast<int>(steps_.size()) + 1), map_);
    }

  private:
    Ladder ladder_;
    roadmap::RoadMap map_;
    std::vector<LadderStep> steps_;
};

/// A report of which the ladder went so.
practice::Report climbed(int from, int to, const std::string& results) {
    auto report = clumsy_report();
    Ladder ladder({Bpm(from), Bpm(to)}, 4);
    std::vector<LadderStep> steps;
    for (const char result : results) {
        const auto& played = result == 'c' ? good : result == 'n' ? poor : little;
        steps.push_back(ladder.count(static_cast<int>(steps.size()) + 1, played));
    }
    report.ladder = practice::ladder_course({Bpm(from), Bpm(to)}, steps);
    return report;
}

/// From "The ladder" to the next empty line.
std::string table(const practice::Report& report,
                  report::Listing listing = report::Listing::one_screen) {
    const auto text = report::to_text(report, listing);
    const auto from = text.find("The ladder: ");
    REQUIRE(from != std::string::npos);
    return text.substr(from, text.find("\n\n", from) + 1 - from);
}

}  // namespace

TEST_CASE("after a time through a ladder says what comes next", "[report]") {
    Said said(96, 102);
    CHECK(said.after({good}) == "the ladder: clean, once more and 100");
    CHECK(said.after({good}) == "the ladder: clean, 100 next");
    CHECK(said.after({poor}) == "the ladder: not clean, 100 again");
    CHECK(said.after({poor}) == "the ladder: not clean, slower, 96 next");
    CHECK(said.after({little}) == "the ladder: too little was heard to count, 96 again");
    CHECK(said.not_whole() == "the ladder: not whole in one tempo, does not count, 96 again");
    CHECK(said.after({good, good, good, good, good}) ==
          "the ladder: clean, once more and then section B");
    CHECK(said.after({good}) == "the ladder: the top is clean, once through section B");
    CHECK(Said(96, 102).after({poor, poor, poor, poor, poor, poor}) ==
          "the ladder: enough for today, 96");
    CHECK(Said(96, 97, {1, 10}).after({good, good, good, good}) ==
          "the ladder: the top is clean, once through the whole tune");
}

TEST_CASE("the report tells a ladder tempo by tempo, and how far it went", "[report]") {
    CHECK(table(climbed(96, 132, "nccc.cn")) ==
          "The ladder: from 96 to 104 of 132, 104 not yet clean\n"
          "    tempo  times through  clean  best: in time and right\n"
          "       96              3      2  8 of 8\n"
          "      100              3      2  8 of 8\n"
          "      104              1      0  5 of 8\n");
    CHECK(table(climbed(96, 97, "cccc")) ==
          "The ladder: from 96 to 97, the top, clean\n"
          "    tempo  times through  clean  best: in time and right\n"
          "       96              2      2  8 of 8\n"
          "       97              2      2  8 of 8\n");
    CHECK(table(climbed(96, 132, "nnnnnn"))
              .find("The ladder: from 96 to 96 of 132, 96 not yet clean, enough for today\n") == 0);
    CHECK(table(climbed(96, 132, "ccnncc")).find("from 96 to 100 of 132, 100 not yet clean\n") !=
          std::string::npos);
    CHECK(table(climbed(96, 132, "")) == "The ladder: 96 to 132, no time through counted\n");
}

TEST_CASE("a long ladder leaves room on the screen, and is told whole where all is asked for",
          "[report]") {
    const auto report = climbed(96, 132, "ccccccccccccccccn");
    CHECK(table(report) ==
          "The ladder: from 96 to 131 of 132, 131 not yet clean\n"
          "    tempo  times through  clean  best: in time and right\n"
          "   96-116             12     12  -\n"
          "      121              2      2  8 of 8\n"
          "      126              2      2  8 of 8\n"
          "      131              1      0  5 of 8\n");
    CHECK(table(report, report::Listing::all).find("\n      104              2      2  8 of 8\n") !=
          std::string::npos);
    for (const auto& line : report::in_lines(report::to_text(report, report::Listing::all), 1000)) {
        CHECK(report::columns_of(line) <= 80);
    }
}

TEST_CASE("what is to be played next begins below what went well, with the same top", "[report]") {
    const auto next = [](const practice::Report& report) {
        const auto text = report::to_text(report);
        const auto at = text.find("--ladder ");
        return at == std::string::npos ? ""
                                       : text.substr(at, text.find_first_of(" \n", at + 9) - at);
    };
    CHECK(next(climbed(96, 132, "ccccn")) == "--ladder 90-132");
    CHECK(next(climbed(96, 132, "nn")) == "--ladder 96-132");
    CHECK(next(climbed(31, 33, "cc")) == "--ladder 30-33");
    CHECK(report::to_text(climbed(96, 132, "cc")).find("--tempo") == std::string::npos);
}

TEST_CASE("what is said once is a line", "[report]") {
    using practice::Remark;
    CHECK(report::in_words(Remark::rest_from_loop).find("rest your fretting hand") !=
          std::string::npos);
    CHECK(report::in_words(Remark::rest_from_evening).find("45 minutes") == 0);
    for (const auto remark :
         {Remark::off_the_ladder, Remark::rest_from_loop, Remark::rest_from_evening}) {
        CHECK(report::columns_of(report::in_words(remark)) <= 80);
    }
}
