// A history of an older version, and one of a later.

#include "support/catch.hpp"
#include "support/raw_database.hpp"
#include "support/temporary_folder.hpp"

#include <compline/files/file_io.hpp>
#include <compline/history/history.hpp>
#include <compline/text/bad_input.hpp>

using namespace compline;
using namespace compline::history;
using namespace compline::tests;

namespace {

std::string version_1() {
    return files::load_text(std::filesystem::path(COMPLINE_SOURCE_DIR) /
                            "tests/history/version_1.sql");
}

}  // namespace

TEST_CASE("a history of the first version is brought up to date, and nothing is lost",
          "[history]") {
    const TemporaryFolder folder;
    const auto file = folder.file("history.db");
    run_sql(file, version_1());
    History history(file);
    CHECK(ask_sql(file, "PRAGMA user_version") == 2);
    CHECK(history.takes().size() == 2);
    const auto take = history.read("00000000000000a1");
    REQUIRE(take);
    CHECK(take->changes.size() == 4);
    CHECK(take->changes[2].lateness_ms == 90.0);
    CHECK(take->strums.size() == 1);
    const auto tunes = history.tunes("");
    REQUIRE(tunes.size() == 1);
    CHECK(tunes[0].tune.title == "Lantern");
    REQUIRE(tunes[0].evenings.size() == 1);
    CHECK(tunes[0].evenings[0].sums.of == 4);
    CHECK(tunes[0].evenings[0].sums.in_time == 3);
    CHECK(tunes[0].places.size() == 2);
    CHECK(history.tunes("Anna")[0].runs == std::vector{CleanRun{"2026-11-04", 1, 2, 132, 1}});
    CHECK(history.check().empty());
    CHECK(history.homework("").empty());
}

TEST_CASE("a history that a later version wrote is refused and stays as it is", "[history]") {
    const TemporaryFolder folder;
    const auto file = folder.file("history.db");
    { const History made(file); }
    run_sql(file, "PRAGMA user_version = 99; CREATE TABLE later (a)");
    CHECK_THROWS_AS(History(file), text::BadInput);
    CHECK_THROWS_WITH(History(file), Catch::Contains("a later version of Compline wrote this"));
    CHECK(ask_sql(file, "PRAGMA user_version") == 99);
    CHECK(ask_sql(file, "SELECT count(*) FROM later") == 0);
}

TEST_CASE("a database of another program is no history", "[history]") {
    const TemporaryFolder folder;
    const auto file = folder.file("history.db");
    run_sql(file, "CREATE TABLE recipes (dish TEXT)");
    CHECK_THROWS_AS(History(file), DamagedHistory);
    CHECK(ask_sql(file, "SELECT count(*) FROM sqlite_master") == 1);
}
