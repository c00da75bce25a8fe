#include "month.d/calendar.hpp"
#include "support/catch.hpp"
#include "support/command.hpp"
#include "support/temporary_folder.hpp"

#include <compline/files/file_io.hpp>
#include <compline/midi/smf.hpp>
#include <compline/practice/take.hpp>

#include <nlohmann/json.hpp>

#include <algorithm>
#include <filesystem>
#include <map>
#include <set>
#include <string>
#include <vector>

// The program of tools/month, run as it is, and its calendar.

using namespace compline;
using namespace compline::tests;

namespace fs = std::filesystem;

namespace {

bool says(const CommandResult& result, const std::string& words) {
    return result.output.find(words) != std::string::npos;
}

CommandResult run_month(const std::string& options, const fs::path& folder) {
    return run(shell_quote(COMPLINE_MONTH) + " " + options + " " + shell_quote(folder.string()));
}

std::vector<std::string> files_in(const fs::path& folder) {
    std::vector<std::string> names;
    for (const auto& entry : fs::directory_iterator(folder)) {
        names.push_back(entry.path().filename().string());
    }
    std::sort(names.begin(), names.end());
    return names;
}

}  // namespace

TEST_CASE("three to six evenings a week, and the last day is one of them") {
    for (std::uint64_t seed = 1; seed <= 50; ++seed) {
        simulate::Chance chance(seed);
        const auto ends = *month::read_day("2026-11-30");
        std::map<int, int> weeks;
        const auto all = month::evenings(ends, 5, chance);
        for (const auto& evening : all) ++weeks[evening.week];
        REQUIRE(weeks.size() == 5);
        for (const auto& [week, evenings] : weeks) CHECK((evenings >= 3 && evenings <= 6));
        CHECK(all.back().day == ends);
    }
}

TEST_CASE("a take is dated by the clock on the wall, in summer and in winter") {
    const auto made = [](const char* day) {
        return month::Moment{*month::read_day(day), std::chrono::seconds(19 * 3600 + 5)}.made();
    };
    CHECK(made("2026-03-28") == "2026-03-28T19:00:05+01:00");
    CHECK(made("2026-03-29") == "2026-03-29T19:00:05+02:00");
    CHECK(made("2026-10-24") == "2026-10-24T19:00:05+02:00");
    CHECK(made("2026-10-25") == "2026-10-25T19:00:05+01:00");
    for (const auto* day : {"2026-02-29", "2026-2-28", "30.11.2026", "", "2026-13-01"}) {
        CHECK_FALSE(month::read_day(day));
    }
}

TEST_CASE("a month is a folder of takes, charts and the truth, and replaces nothing") {
    const TemporaryFolder folder;
    const auto home = folder.file("compline");
    const auto done = run_month("--weeks 1 --seed 2", home);
    INFO(done.output);
    REQUIRE(done.status == 0);
    const auto takes = files_in(home / "takes");
    const auto truth = nlohmann::json::parse(files::load_text(home / "truth.json"));
    std::vector<std::string> named;
    std::set<std::string> played;
    for (const auto& pupil : truth["pupils"]) {
        for (const auto& evening : pupil["evenings"]) {
            for (const auto& take : evening["takes"]) {
                named.push_back(take["take"]);
                if (take["what"] != "drill") played.insert(take["chart"].get<std::string>());
                const auto read = practice::read_take(
                    midi::read_smf(files::load_bytes(home / "takes" / named.back())).file);
                CHECK(read.info->player == pupil["player"]);
                CHECK(read.info->made == take["made"]);
                CHECK(read.info->ended);
            }
        }
    }
    std::sort(named.begin(), named.end());
    CHECK(named == takes);
    CHECK(files_in(home / "charts") == std::vector<std::string>(played.begin(), played.end()));
    const auto again = run_month("--weeks 1", home);
    CHECK(again.status == 2);
    CHECK(says(again, "takes is there already: give a folder without it"));
    CHECK(files_in(home / "takes") == takes);
}

TEST_CASE("a month of bad words or numbers is refused, and nothing is made") {
    const TemporaryFolder folder;
    const auto home = folder.file("compline");
    const auto refused = [&](const std::string& options, const std::string& words) {
        const auto result = run_month(options, home);
        INFO(options << ": " << result.output);
        CHECK(result.status == 2);
        CHECK(says(result, words));
        CHECK_FALSE(fs::exists(home));
    };
    refused("--weeks 0", "--weeks: found '0', expected 1 to 52");
    refused("--ends 2026-11-31", "found '2026-11-31', expected a day such as 2026-11-30");
    refused("--sessions many", "found 'many', expected 1 to 20000");
    refused("--sessions 10 --weeks 2", "--weeks");
    refused("--seed -1", "--seed");
}
