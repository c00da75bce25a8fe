// A short take with one fault of each kind, and what is said of it: in words and as JSON.

#include "support/golden.hpp"

#include "report/rehearsed.hpp"
#include "support/catch.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <clocale>
#include <locale>
#include <sstream>

using namespace compline;
using namespace compline::tests;

namespace {

std::vector<std::string> lines_of(const std::string& text) {
    std::vector<std::string> lines;
    std::istringstream in(text);
    for (std::string line; std::getline(in, line);) lines.push_back(line);
    return lines;
}

/// Code points, each of which is one column here.
std::size_t columns(const std::string& line) {
    return static_cast<std::size_t>(
        std::count_if(line.begin(), line.end(), [](char c) { return (c & 0xC0) != 0x80; }));
}

/// 1.234,5 for 1,234.5: what would spoil numbers if a locale had a say.
class GermanNumbers : public std::numpunct<char> {
    char do_decimal_point() const override { return ','; }
    char do_thousands_sep() const override { return '.'; }
    std::string do_grouping() const override { return "\3"; }
};

class InGerman {
  public:
    InGerman() : before_(std::locale::global(std::locale(std::locale(), new GermanNumbers))) {
        // The C library's side, on a machine that has this locale.
        std::setlocale(LC_NUMERIC, "de_DE.UTF-8");
    }
    ~InGerman() {
        std::locale::global(before_);
        std::setlocale(LC_NUMERIC, "C");
    }
    InGerman(const InGerman&) = delete;
    InGerman& operator=(const InGerman&) = delete;

  private:
    std::locale before_;
};

/// The kinds of things found, change by change.
std::string verdicts(const practice::Report& report) {
    std::string text;
    for (const auto& change : report.assessment.changes) {
        text += fmt::format("{} {} {}\n", change.to.symbol(harmony::Accidentals::letters),
                            assess::name_of(change.verdict), assess::name_of(change.tones));
    }
    return text;
}

}  // namespace

TEST_CASE("a take with one fault of each kind is judged as it was played", "[report]") {
    CHECK(verdicts(clumsy_report()) ==
          "Cmaj7 on_time right\n"
          "A7 late right\n"
          "Dm7 on_time right\n"
          "F6 held right\n"
          "Fm7 on_time wrong\n"
          "Bb7 pushed right\n"
          "Cmaj7 on_time incomplete\n"
          "Ebm7 missed none\n"
          "Dm7 on_time wrong\n"
          "G7 on_time right\n");
}

TEST_CASE("the report in words reads as the golden file does", "[report][golden]") {
    check_golden(report::to_text(clumsy_report()), "report/golden/eight-bars.txt");
}

TEST_CASE("the report as JSON is the golden file", "[report][golden]") {
    check_golden(report::to_json(clumsy_report()), "report/golden/eight-bars.json");
}

TEST_CASE("a rhythm's report gives the time on each of its beats", "[report]") {
    const auto map = through(eight_bars());
    const auto messages = play(clumsy_hand(), map);
    const auto has = [](const std::string& text, const std::string& part) {
        return text.find(part) != std::string::npos;
    };
    assess::Settings pattern;
    pattern.rhythm = assess::read_rhythm("1 2& 4", time::Meter(4));
    const auto report = judged(map, messages, pattern);
    // On 1: 6, 62, -4, 3, 8, 4 and -7 ms (bar 5 was pushed); on the off-beat 9 and 7.
    CHECK(has(report::to_text(report), "each beat, in ms behind: 1 +10, 2& +8, 4 none\n"));
    CHECK(has(report::to_json(report), R"("per_beat": [
      {
        "beat": 1,
        "strums": 7,
        "missing": 0,
        "mean_ms": 10.286,)"));
    CHECK(has(report::to_json(report), R"("beat": 2.5,
        "strums": 2,
        "missing": 6,)"));
    CHECK(has(report::to_json(report), R"("beat": 4,
        "strums": 0,
        "missing": 8,
        "mean_ms": null,)"));
    CHECK(!has(report::to_text(clumsy_report()), "each beat"));
}

TEST_CASE("the report in words fits on one screen, however bad the evening", "[report]") {
    auto report = clumsy_report();
    auto& changes = report.assessment.changes;
    const auto once = changes;
    // Each of them at a place of its own: nothing is said of two together.
    for (int n = 1; n <= 20; ++n) {
        for (auto change : once) {
            change.beat = time::BeatOfBar(1 + n * 0.01);
            changes.push_back(change);
        }
    }
    const auto lines = lines_of(report::to_text(report));
    CHECK(lines.size() <= 24);
    for (const auto& line : lines) {
        INFO(line);
        CHECK(columns(line) <= 80);
    }
    // Five problems a time, 21 times, 13 of them shown.
    const auto more =
        std::find(lines.begin(), lines.end(), "  and 99 more (score --all lists them)");
    INFO(report::to_text(report));
    CHECK(more != lines.end());
}

TEST_CASE("the same take gives the same bytes, again and in another locale", "[report]") {
    const auto json = report::to_json(clumsy_report());
    const auto text = report::to_text(clumsy_report());
    CHECK(report::to_json(clumsy_report()) == json);
    const InGerman numbers;
    CHECK(report::to_json(clumsy_report()) == json);
    CHECK(report::to_text(clumsy_report()) == text);
}
