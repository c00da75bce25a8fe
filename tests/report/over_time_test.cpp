// A tune over several evenings, in words and as JSON.

#include "report/hand_made.hpp"
#include "support/golden.hpp"
#include "support/outside_data.hpp"
#include "support/schema.hpp"

#include <compline/chart/transpose.hpp>
#include <compline/report/columns.hpp>
#include <compline/report/over_time.hpp>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <sstream>

using namespace compline;
using namespace compline::tests;
using assess::Change;
using practice::TakeInPlaces;

namespace {

Change right(int bar, double beat = 1) { return at(a_change(), 1, bar, beat); }

Change late(int bar, double ms = 90) {
    auto change = right(bar);
    change.verdict = assess::Verdict::late;
    change.lateness = time::from_milliseconds(ms);
    return change;
}

Change wrong(int bar) {
    auto change = right(bar);
    change.tones = assess::Tones::wrong;
    return change;
}

Change lacking(int bar) {
    auto change = right(bar);
    change.tones = assess::Tones::incomplete;
    return change;
}

Change laid_out(int bar) { return at(not_struck(assess::Verdict::laid_out), 1, bar); }

TakeInPlaces dated(const std::string& day, const std::vector<Change>& changes) {
    auto take = practice::in_places(report_of(changes), true);
    take.made = day + "T20:00:00+01:00";
    take.take = day + ".mid";
    take.title = "Four Bars for Nobody";
    return take;
}

/// Four evenings: bar 1 is mended, bar 3 gets worse, bar 5 stays late, bar 7 stays right, bar 9 is
/// played once.
std::vector<TakeInPlaces> four_evenings() {
    return {dated("2026-11-03", {late(1), right(3, 3), late(5), right(7)}),
            dated("2026-11-07", {late(1), late(1, 80), right(1), right(7), laid_out(5)}),
            dated("2026-11-12", {late(5), wrong(9)}),
            dated("2026-11-28", {right(1), lacking(3), at(wrong(3), 1, 3, 3), late(5), right(7)})};
}

std::vector<std::string> lines_in(const std::string& text) {
    std::vector<std::string> lines;
    std::istringstream stream(text);
    for (std::string line; std::getline(stream, line);) lines.push_back(line);
    return lines;
}

bool has(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

std::string in_text(const std::vector<TakeInPlaces>& takes,
                    report::Listing listing = report::Listing::one_screen) {
    return report::to_text(practice::over_time(takes), {}, listing);
}

void check_fits(const std::string& text) {
    for (const auto& line : lines_in(text)) {
        INFO(line);
        CHECK(report::columns_of(line) <= report::terminal_columns);
    }
}

/// Words, however their line was broken and their columns filled.
std::string squeezed(const std::string& text) {
    std::string words;
    std::istringstream stream(text);
    for (std::string word; stream >> word;) words += (words.empty() ? "" : " ") + word;
    return words;
}

std::string words_of(const std::vector<TakeInPlaces>& takes) { return squeezed(in_text(takes)); }

/// So many days from September on, bar 1 in each.
std::vector<TakeInPlaces> evenings(int n) {
    std::vector<TakeInPlaces> takes;
    for (int i = 0; i < n; ++i) {
        takes.push_back(dated(fmt::format("2026-{:02}-{:02}", 9 + i / 28, 1 + i % 28),
                              {i < n / 2 ? late(1) : right(1)}));
    }
    return takes;
}

}  // namespace

TEST_CASE("a tune over four evenings reads as the golden text", "[report][golden]") {
    const std::vector<report::OtherTune> others = {
        {"Some Other Tune", 3, {"compare", "anna/", "--tune 'Some Other Tune'"}}};
    const auto text = report::to_text(practice::over_time(four_evenings()), others);
    check_golden(text, "report/golden/over-time.txt");
    check_fits(text);
}

TEST_CASE("a tune over four evenings as JSON is the golden one", "[report][golden]") {
    const std::vector<report::OtherTune> others = {{"Some Other Tune", 3, {}}};
    check_golden(report::to_json(practice::over_time(four_evenings()), others),
                 "report/golden/over-time.json");
}

TEST_CASE("over time it is said first how many places got better, since when, and how many right",
          "[report]") {
    CHECK(has(words_of(four_evenings()),
              "Better in 1 place, worse in 1, the same in 2, from 3 November to 28 November, "
              "over 4 evenings: right and in time 2 of 4, then 2 of 4. Compared: the first third "
              "of each place's evenings and the last third."));
    CHECK(has(words_of({dated("2026-11-03", {late(1)}), dated("2026-11-04", {late(1, 95)})}),
              "The same in all 1 place, from 3 November to 4 November, over 2 evenings"));
    CHECK(has(words_of({dated("2026-12-30", {right(1)}), dated("2027-01-04", {late(1)})}),
              "Better in none, worse in 1 place, the same in none, from 30 December 2026 to 4 "
              "January 2027"));
    CHECK(has(words_of({dated("2026-11-03", {late(1)}), dated("2026-11-04", {right(2)})}),
              "No place was played on two evenings, from 3 November to 4 November, over 2 "
              "evenings: right and in time 1 of 2."));
    CHECK(has(words_of({dated("2026-11-03", {late(1), right(2)})}),
              "One evening alone, 3 November: right and in time 1 of 2."));
}

TEST_CASE("what got worse stands before what got better, then what stayed wrong", "[report]") {
    const auto text = in_text(four_evenings());
    const auto worse = text.find("  3 beat 3 ");
    const auto better = text.find("  1        ");
    const auto same = text.find("  5        ");
    REQUIRE(same != std::string::npos);
    CHECK(worse < better);
    CHECK(better < same);
    CHECK(!has(text, "\n  7 "));  // always right
    CHECK(has(text, "1 always right (--all lists them)"));
    const auto all = in_text(four_evenings(), report::Listing::all);
    CHECK(has(all, "\n  7 "));
    CHECK(!has(all, "Not listed"));
}

TEST_CASE("a cell says a share, a fault where most was not right, or that nothing was played",
          "[report]") {
    const auto lines = lines_in(in_text(four_evenings(), report::Listing::all));
    const auto row = [&](const std::string& bar) {
        for (const auto& line : lines) {
            if (line.rfind("  " + bar + "  ", 0) == 0) return squeezed(line);
        }
        return std::string();
    };
    CHECK(row("1") == "1 A7 → Dm7 late late - right better");
    CHECK(row("3") == "3 A7 → Dm7 - - - lacking once");
    CHECK(row("3 beat 3") == "3 beat 3 A7 → Dm7 right - - wrong worse");
    CHECK(row("5") == "5 A7 → Dm7 late laid out late late same");
    CHECK(row("9") == "9 A7 → Dm7 - - wrong - once");
}

TEST_CASE("all is said to be right only where it is", "[report]") {
    std::vector<Change> many(300, right(1));
    many.push_back(late(1));
    CHECK(has(in_text({dated("2026-11-03", many)}), "99 %"));
    std::vector<Change> few(300, late(1));
    few.push_back(right(1));
    CHECK(has(in_text({dated("2026-11-03", few)}), " 1 %"));
    CHECK(has(in_text({dated("2026-11-03", {right(1)})}, report::Listing::all), "100 %"));
}

TEST_CASE("evenings that do not fit share the first column, and it is said how many", "[report]") {
    const auto text = in_text(evenings(30));
    check_fits(text);
    CHECK(has(text, "evenings share a column.\n"));
    CHECK(has(text, "  to "));
    CHECK(has(text, "  2 Oct"));
    CHECK(!has(in_text(evenings(4)), "share a column"));
    for (const int n : {1, 2, 5, 6, 7, 8, 12, 200}) check_fits(in_text(evenings(n)));
}

TEST_CASE("long chords and names of takes without a date stay within the screen", "[report]") {
    auto takes = evenings(9);
    for (auto& take : takes) {
        take.title =
            "A Very Long Title of a Very Long Tune That Nobody Will Ever Play at Any Pace "
            "Whatever";
        take.made = "";
        take.take = "a-take-with-a-very-long-name-" + take.take;
        for (auto& [where, place] : take.places) place.from = chord("Ebm7b5/Bbb");
    }
    const auto text = in_text(takes);
    check_fits(text);
    CHECK(has(squeezed(text), "over 9 takes without a date, in order of their names"));
}

TEST_CASE("a screen has room for what is said of a long tune", "[report]") {
    std::vector<Change> before;
    std::vector<Change> after;
    for (int bar = 1; bar <= 32; ++bar) {
        before.push_back(bar % 3 == 0 ? right(bar) : late(bar));
        after.push_back(bar % 3 == 1 ? right(bar) : late(bar));
    }
    const std::vector<TakeInPlaces> takes = {dated("2026-11-03", before),
                                             dated("2026-11-04", after)};
    const auto text = in_text(takes);
    CHECK(lines_in(text).size() <= 23);
    CHECK(has(text, "  worse\n"));
    CHECK(has(text, "  better\n"));
    CHECK(has(text, "  same\n"));
    CHECK(has(text, "Not listed: 5 worse, 8 better, 9 the same (--all lists them)."));
    CHECK(lines_in(in_text(takes, report::Listing::all)).size() > 32);
}

TEST_CASE("years and keys are said where they are not the same for all", "[report]") {
    auto takes = std::vector{dated("2026-12-30", {late(1)}), dated("2027-01-04", {right(1)})};
    takes[0].key = chart::read_key_for(takes[0].key, "G");
    const auto text = in_text(takes);
    CHECK(has(text, "\n  tempo"));
    CHECK(has(text, "\n  key"));
    CHECK(has(text, "Chords are named in"));
    CHECK(has(text, "  30 Dec  4 Jan\n"));
    CHECK(has(text, "    2026   2027\n"));
    CHECK(!has(in_text(four_evenings()), "\n  key"));
    CHECK(!has(in_text(four_evenings()), "2026"));
}

TEST_CASE("where only sound was heard of some, all are compared by time alone, and it is said",
          "[report]") {
    auto takes = std::vector{dated("2026-11-03", {late(1)}), dated("2026-11-04", {right(1)})};
    takes[1].by_sound = true;
    const auto text = in_text(takes);
    CHECK(has(text, "Of 1 take only sound was heard: time alone is compared, tones are not.\n"));
    CHECK(has(text, "in time 0 of 1, then 1 of 1."));
    CHECK(!has(text, "right"));
    CHECK(has(text, "late  in time  better"));
    takes[0].by_sound = true;
    CHECK(has(in_text(takes), "\nOnly sound was heard: time alone"));
}

TEST_CASE("no title or name over time steers the terminal", "[report]") {
    auto take = dated("2026-11-03", {late(1)});
    take.title = "Bad \x1B[2J tune";
    take.made = "";
    take.take = "\x1B[31m.mid";
    const std::vector<report::OtherTune> others = {{"\x1B[2J", 1, {"compare"}}};
    CHECK(!has(report::to_text(practice::over_time({take}), others), "\x1B"));
}

TEST_CASE("a tune over time as JSON follows its schema", "[report][schema]") {
    auto by_sound = four_evenings();
    by_sound[0].by_sound = true;
    by_sound[1].made = "";
    by_sound[2].tempi.reset();
    std::vector<std::string> all;
    for (const auto& takes : {four_evenings(), by_sound}) {
        all.push_back(report::to_json(practice::over_time(takes), {{"Another", 2, {}}}));
    }
    const auto json = nlohmann::json::parse(all[0]);
    CHECK(json["schema"] == "compline.progress/1");
    CHECK(json["evenings"].size() == 4);
    CHECK(json["places"][0]["by_evening"].size() == 4);
    CHECK(json["places"][0]["by_evening"][2].is_null());
    if (!outside_python_module("jsonschema")) return;
    const auto checked = check_schema(all, "progress-1.schema.json");
    INFO(checked.output);
    CHECK(checked.status == 0);
    auto broken = json;
    broken["places"][0]["is"] = "much better";
    CHECK(check_schema({broken.dump()}, "progress-1.schema.json").status == 1);
    broken = json;
    broken["evenings"][0]["evening"] = "3 November";
    CHECK(check_schema({broken.dump()}, "progress-1.schema.json").status == 1);
}
