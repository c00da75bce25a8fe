// compline history, next and homework, as they are typed.

#include "app/own_history.hpp"
#include "report/unbroken.hpp"
#include "support/catch.hpp"
#include "support/raw_database.hpp"

#include <compline/history/history.hpp>

#include <nlohmann/json.hpp>

#include <cstdlib>

using namespace compline;
using namespace compline::tests;
using history::History;
using Json = nlohmann::json;

namespace {

Json parsed(const Ran& ran) {
    INFO(shown(ran));
    REQUIRE(ran.status == 0);
    return Json::parse(ran.out);
}

}  // namespace

TEST_CASE("where nothing was played yet, history says so and next says what to type first",
          "[app]") {
    const OwnHistory history;
    const auto all = run_compline({"history"});
    INFO(shown(all));
    CHECK(all.status == 0);
    CHECK(contains(all.out, "Nothing was played yet that was kept"));
    const auto next = run_compline({"next"});
    CHECK(next.status == 0);
    CHECK(contains(next.out, "compline practice CHART --times 1\n"));
    CHECK(contains(run_compline({"homework"}).out, "compline homework CHART --bars 9-12"));
    const auto one = run_compline({"history", blues()});
    CHECK(one.out == "Blue Kettle on the Back Stairs was not played yet.\n");
    CHECK_FALSE(std::filesystem::exists(history.file()));
}

TEST_CASE("the history is of the player who is named, or of the one in the settings", "[app]") {
    const OwnHistory history;
    history.plays("Anna", {"ll..", ".", "."});
    history.plays("", {"l"});
    CHECK(contains(run_compline({"history", "--player", "Anna"}).out,
                   "Lantern Street: last played on 3 October 2020, 3 evenings"));
    const auto nobody = run_compline({"history"});
    INFO(shown(nobody));
    CHECK(contains(nobody.out, "last played on 1 October 2020, 1 evening"));
    CHECK(contains(nobody.out, "Also here: Anna (3 evenings): --player NAME\n"));
    const TemporaryFolder config;
    REQUIRE(run_compline({"settings", "set", "player", "Anna"}, config.path().string()).status ==
            0);
    const auto settled = run_compline({"history", history.chart()}, config.path().string());
    INFO(shown(settled));
    CHECK(contains(settled.out, "3 evenings"));
    CHECK_FALSE(contains(settled.out, "--player"));  // the settings say it the next time too
    const auto typed = run_compline({"history", history.chart(), "--player", "Anna"});
    CHECK(contains(unbroken(typed.out), "--player Anna"));
}

TEST_CASE("evenings before a day can be left out, and what is no day is refused", "[app]") {
    const OwnHistory history;
    history.plays("", {".", ".", ".", "."});
    const auto since = parsed(run_compline({"history", "--since", "2020-10-03", "--json"}));
    CHECK(since["since"] == "2020-10-03");
    CHECK(since["tunes"][0]["evenings"] == 2);
    CHECK(parsed(run_compline({"history", "--json"}))["tunes"][0]["evenings"] == 4);
    CHECK(contains(run_compline({"history", "--since", "2021-01-01"}).out,
                   "Nothing was played since 1 January 2021"));
    for (const std::string wrong : {"yesterday", "2020-02-30", "3.10.2020", "2020-10"}) {
        const auto ran = run_compline({"history", "--since", wrong});
        INFO(shown(ran));
        CHECK(ran.status == 2);
        CHECK(ran.err == "--since \"" + wrong +
                             "\": expected a day as year, month and day, such as 2026-10-01\n");
    }
}

TEST_CASE("a tune is found by its chart, and by its title where the chart is gone", "[app]") {
    const OwnHistory history;
    history.plays("", {"l.", "l.", "l."});
    const auto there = run_compline({"history", history.chart()});
    INFO(shown(there));
    CHECK(there.status == 0);
    CHECK(contains(there.out, "Weakest places"));
    CHECK(contains(there.out, "compline practice "));
    CHECK(there.err.empty());
    std::filesystem::remove(history.chart());
    const auto gone = run_compline({"history", "lantern street"});
    INFO(shown(gone));
    CHECK(gone.status == 0);
    CHECK(contains(unbroken(gone.out), "put the file of Lantern Street in place of CHART."));
    CHECK(contains(gone.out, "compline practice CHART --bars "));
    const auto unknown = run_compline({"history", "no such tune"});
    CHECK(unknown.status == 2);
    CHECK(contains(unknown.err, "no such tune: there is no such file"));
}

TEST_CASE("advice says who plays and fits the minutes there are", "[app]") {
    const OwnHistory history;
    history.plays("Anna", {"l.", "l.", "l."});
    const auto next = parsed(run_compline({"next", "--player", "Anna", "--json"}));
    CHECK(next["player"] == "Anna");
    REQUIRE_FALSE(next["things"].empty());
    CHECK(contains(next["things"][0]["lines"][0], "--player Anna"));
    for (const std::string wrong : {"4", "241", "many"}) {
        const auto ran = run_compline({"next", "--minutes", wrong});
        CHECK(ran.status == 2);
        CHECK(contains(ran.err, "--minutes " + wrong));
    }
}

TEST_CASE("homework is given once, listed, and taken back", "[app]") {
    const OwnHistory history;
    const std::vector<std::string> given = {
        "homework", "", "--bars", "2-4", "--ladder", "96-120", "--player", "Anna", "--no-grips"};
    auto words = given;
    words[1] = history.lantern().file;
    const auto sheet = run_compline(words);
    INFO(shown(sheet));
    CHECK(sheet.status == 0);
    CHECK(contains(sheet.out, "Homework for Anna, given today\nLantern Street, bars 2-4, key of"));
    CHECK(contains(unbroken(sheet.out), "--bars 2-4 --ladder 96-120 --player Anna"));
    CHECK(contains(run_compline(words).out, "given today: it was kept already\n"));
    const auto list = parsed(run_compline({"homework", "--player", "Anna", "--json"}));
    CHECK(list["homework"].size() == 1);
    CHECK(list["homework"][0]["to_bpm"] == 120.0);
    CHECK(contains(run_compline({"homework"}).out, "Also for Anna: --player NAME\n"));
    const auto history_of_anna = run_compline({"history", "--player", "Anna"});
    CHECK(contains(history_of_anna.out,
                   "bars 2-4 of Lantern Street, 96 to 120 bpm: not clean at 120 yet\n"));
    const auto back = run_compline({"homework", words[1], "--take-back", "--player", "Anna"});
    INFO(shown(back));
    CHECK(back.out == "Taken back: bars 2-4 of Lantern Street, 96 to 120 bpm.\n");
    CHECK(contains(run_compline({"homework", "--player", "Anna"}).out, "No homework for Anna"));
    CHECK(run_compline({"homework", words[1], "--take-back", "--player", "Anna"}).status == 2);
}

TEST_CASE("with a chart the history tells of that tune's homework alone", "[app]") {
    const OwnHistory history;
    history.plays("", {"."});
    for (const auto& chart : {history.chart(), blues()}) {
        REQUIRE(
            run_compline({"homework", chart, "--bars", "2-4", "--ladder", "96-120", "--no-grips"})
                .status == 0);
    }
    const auto ran = run_compline({"history", history.chart()});
    INFO(shown(ran));
    CHECK(contains(ran.out, "bars 2-4 of Lantern Street"));
    CHECK_FALSE(contains(ran.out, "Blue Kettle"));
}

TEST_CASE("grips stand on the sheet, planned for the bars", "[app]") {
    const OwnHistory history;
    const auto sheet =
        run_compline({"homework", history.lantern().file, "--bars", "2-3", "--ladder", "96-120"});
    INFO(shown(sheet));
    CHECK(contains(sheet.out, "Grips that lie well"));
    CHECK(contains(sheet.out, "┌─┬─┬─┬─┬─┐"));
    CHECK_FALSE(contains(sheet.out, "cost"));
    check_width(sheet.out);
}

TEST_CASE("homework that was done can be given again", "[app]") {
    const OwnHistory history;
    {
        History kept(history.file());
        history::Homework homework;
        homework.given = "2020-09-01";
        homework.from_bar = 1;
        homework.to_bar = 8;
        homework.from_bpm = 96;
        homework.to_bpm = 120;
        (void)kept.set_homework(homework, history.lantern());
    }
    history.plays("", {".", "."});
    const std::vector<std::string> again = {"homework", history.chart(), "--bars",     "1-8",
                                            "--ladder", "96-120",        "--no-grips", "--json"};
    CHECK(parsed(run_compline({"homework", "--json"}))["homework"][0]["done"] == true);
    CHECK(parsed(run_compline(again))["homework"][0]["done"] == false);
    const auto which = run_compline({"homework", history.chart(), "--take-back"});
    INFO(shown(which));
    CHECK(which.status == 0);
    const auto left = parsed(run_compline({"homework", "--json"}))["homework"];
    REQUIRE(left.size() == 1);
    CHECK(left[0]["done"] == true);
}

TEST_CASE("of several pieces of homework the one to take back must be named", "[app]") {
    const OwnHistory history;
    const auto chart = history.lantern().file;
    for (const std::string bars : {"1-4", "5-8"}) {
        REQUIRE(
            run_compline({"homework", chart, "--bars", bars, "--ladder", "96-120", "--no-grips"})
                .status == 0);
    }
    const auto ran = run_compline({"homework", chart, "--take-back"});
    INFO(shown(ran));
    CHECK(ran.status == 2);
    CHECK(contains(ran.err,
                   "several pieces of homework were given: say which: --bars 1-4 --ladder 96-120 "
                   "or --bars 5-8 --ladder 96-120\n"));
    CHECK(run_compline({"homework", chart, "--take-back", "--bars", "5-8"}).status == 0);
    CHECK(parsed(run_compline({"homework", "--json"}))["homework"].size() == 1);
}

TEST_CASE("homework that cannot be is refused with what to do", "[app]") {
    const OwnHistory history;
    const auto chart = history.lantern().file;
    const std::vector<std::pair<std::vector<std::string>, std::string>> refused = {
        {{"homework", chart}, "say which bars, and from which tempo up to which"},
        {{"homework", chart, "--bars", "2-4"}, "say which bars, and from which tempo"},
        {{"homework", chart, "--bars", "2-40", "--ladder", "96-120"}, "there is no bar 40"},
        {{"homework", chart, "--bars", "2-4", "--ladder", "120-96"}, "a ladder goes up"},
        {{"homework", "nix.yaml", "--bars", "2-4", "--ladder", "96-120"}, "there is no such file"},
        {{"homework", "--bars", "2-4"}, "homework is of a chart"},
        {{"homework", "--take-back"}, "say which is taken back"},
        {{"homework", chart, "--take-back"}, "no such homework was given"},
    };
    for (const auto& [words, complaint] : refused) {
        const auto ran = run_compline(words);
        INFO(shown(ran));
        CHECK(ran.status == 2);
        CHECK(contains(ran.err, complaint));
    }
    CHECK_FALSE(std::filesystem::exists(history.file()));
}

TEST_CASE("a history that cannot be understood says so and how to get on", "[app]") {
    const OwnHistory history;
    history.plays("", {"."});
    run_sql(history.file(), "PRAGMA user_version = 99");
    for (const std::string command : {"history", "next", "homework"}) {
        const auto future = run_compline({command});
        INFO(shown(future));
        CHECK(future.status == 2);
        CHECK(contains(future.err, "later version"));
    }
    for (const auto* const beside : {"", "-wal", "-shm"}) {
        std::filesystem::remove(history.file().string() + beside);
    }
    files::save_text(history.file(), std::string(8192, 'x'), files::Existing::replace);
    for (const std::string command : {"history", "next", "homework"}) {
        const auto damaged = run_compline({command});
        INFO(shown(damaged));
        CHECK(damaged.status == 2);
        CHECK(contains(damaged.err, "compline history --rebuild makes it anew"));
    }
}
