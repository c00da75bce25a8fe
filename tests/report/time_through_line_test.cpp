// What is said after a time through, in one line.

#include "report/rehearsed.hpp"
#include "support/catch.hpp"

#include <compline/report/time_through_line.hpp>

using namespace compline;
using namespace compline::tests;
using assess::Tones;
using assess::Verdict;
using report::time_through_line;

namespace {

assess::Change change(int time_through, Verdict verdict, std::optional<double> ms,
                      Tones tones = Tones::right) {
    assess::Change change;
    change.time_through = time_through;
    change.verdict = verdict;
    change.tones = tones;
    if (ms) change.lateness = time::from_milliseconds(*ms);
    return change;
}

assess::Assessment of(const std::vector<assess::Change>& changes) {
    assess::Assessment assessment;
    assessment.changes = changes;
    return assessment;
}

}  // namespace

TEST_CASE("a time through is counted: in time, the faults, and how far behind", "[report]") {
    std::vector<assess::Change> changes;
    changes.reserve(14);
    for (int i = 0; i < 12; ++i) changes.push_back(change(1, Verdict::on_time, i % 2 * 10));
    changes[3].tones = Tones::wrong;
    changes.push_back(change(1, Verdict::late, 70, Tones::wrong));
    changes.push_back(change(1, Verdict::missed, {}, Tones::none));
    // Mean of six 0, six 10 and one 70: 10. Squares: 6 * 100 + 3600; SD = sqrt(4200 / 12) = 18.7.
    CHECK(time_through_line(of(changes), 1) ==
          "1st time through: 14 changes, 12 in time, 1 late, 1 missed, wrong tones in 2; "
          "10 ms behind, SD 19 ms");
}

TEST_CASE("only the changes of that time through count", "[report]") {
    const auto both =
        of({change(1, Verdict::on_time, 0), change(2, Verdict::early, -80),
            change(2, Verdict::on_time, -20, Tones::incomplete), change(3, Verdict::late, 100)});
    CHECK(time_through_line(both, 2) ==
          "2nd time through: 2 changes, 1 in time, 1 early, missing tones in 1; "
          "50 ms ahead, SD 42 ms");
    CHECK(time_through_line(both, 3) ==
          "3rd time through: 1 change, 0 in time, 1 late; 100 ms behind");
    CHECK(time_through_line(both, 4) == "4th time through: no changes were due");
}

TEST_CASE("pushed, held and laid out are in time; what was laid out is said", "[report]") {
    CHECK(time_through_line(of({change(1, Verdict::pushed, 4), change(1, Verdict::on_time, 4),
                                change(1, Verdict::held, {}), change(1, Verdict::laid_out, {})}),
                            1) ==
          "1st time through: 4 changes, all in time (1 laid out); 4 ms behind, SD 0 ms");
    CHECK(time_through_line(of({change(1, Verdict::laid_out, {}, Tones::none),
                                change(1, Verdict::laid_out, {}, Tones::none)}),
                            1) == "1st time through: 2 changes, all in time (2 laid out)");
}

TEST_CASE("placed is neither in time nor a fault, astray is a fault", "[report]") {
    std::vector<assess::Change> changes{change(1, Verdict::on_time, 4),
                                        change(1, Verdict::placed, 4),
                                        change(1, Verdict::placed, 4)};
    CHECK(time_through_line(of(changes), 1) ==
          "1st time through: 3 changes, 1 in time, 2 placed; 4 ms behind, SD 0 ms");
    changes.push_back(change(1, Verdict::early, 4));
    changes.push_back(change(1, Verdict::astray, {}));
    CHECK(time_through_line(of(changes), 1) ==
          "1st time through: 5 changes, 1 in time, 2 placed, 1 early, 1 astray; "
          "4 ms behind, SD 0 ms");
}

TEST_CASE("what is uncertain is counted apart from the rest of its time through", "[report]") {
    auto doubtful = change(1, Verdict::late, 90, Tones::wrong);
    doubtful.uncertain = true;
    CHECK(time_through_line(of({change(1, Verdict::on_time, 4), doubtful}), 1) ==
          "1st time through: 1 change, all in time, 1 uncertain; 4 ms behind");
    CHECK(time_through_line(of({doubtful, doubtful}), 1) ==
          "1st time through: no changes for certain, 2 uncertain");
}

TEST_CASE("a judged take gives the line that its report's totals give", "[report]") {
    const auto report = clumsy_report();
    CHECK(report.assessment.totals.changes == 10);
    CHECK(time_through_line(report.assessment, 1).substr(0, 90) ==
          "1st time through: 10 changes, 8 in time, 1 late, 1 missed, wrong tones in 2, "
          "missing tones");
}
