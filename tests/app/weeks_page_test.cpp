// history --html and homework --html: pages of weeks, and when none is written.

#include "app/own_history.hpp"
#include "support/catch.hpp"

#include <nlohmann/json.hpp>

using namespace compline;
using namespace compline::tests;

namespace {

/// Six evenings of the four bars twice, the second bar late.
class PlayedForWeeks {
  public:
    PlayedForWeeks() { played_.plays("", {"l.", "l.", ".l", "l.", ".", "."}); }

    [[nodiscard]] std::string page() const {
        return played_.own().folder().file("page.html").string();
    }
    [[nodiscard]] std::string chart() const { return played_.chart(); }
    [[nodiscard]] std::string read_page() const { return files::load_text(page()); }

  private:
    OwnHistory played_;
};

}  // namespace

TEST_CASE("history writes a page of a tune beside its words, and says where it is", "[app][page]") {
    const PlayedForWeeks weeks;
    const auto ran = run_compline({"history", weeks.chart(), "--html", weeks.page()});
    INFO(shown(ran));
    CHECK(ran.status == 0);
    CHECK(ran.out == run_compline({"history", weeks.chart()}).out);
    CHECK(contains(ran.err, "The page is in " + weeks.page()));
    CHECK(contains(weeks.read_page(), "<h1>Lantern Street</h1>"));
    CHECK(contains(weeks.read_page(), "2020-10-06"));
}

TEST_CASE("history writes a page of all tunes, and JSON stays JSON alone beside it",
          "[app][page]") {
    const PlayedForWeeks weeks;
    const auto ran = run_compline({"history", "--json", "--html", weeks.page()});
    INFO(shown(ran));
    CHECK(ran.status == 0);
    CHECK(nlohmann::json::parse(ran.out)["tunes"].size() == 1);
    CHECK(contains(weeks.read_page(), "<h1>Your tunes</h1>"));
    CHECK(contains(weeks.read_page(), ">Lantern Street</h2>"));
}

TEST_CASE("homework writes its sheet as a page, with grips and two days to tick", "[app][page]") {
    const PlayedForWeeks weeks;
    const auto ran = run_compline({"homework", weeks.chart(), "--bars", "1-4", "--ladder", "96-120",
                                   "--player", "Anna", "--html", weeks.page()});
    INFO(shown(ran));
    CHECK(ran.status == 0);
    CHECK(contains(ran.out, "Homework for Anna"));
    CHECK(contains(weeks.read_page(), "<h1>Homework for Anna</h1>"));
    CHECK(contains(weeks.read_page(), "<svg class=\"grip\""));
    CHECK(contains(weeks.read_page(), "<span>--player Anna</span>"));
    const auto bare =
        run_compline({"homework", weeks.chart(), "--bars", "1-4", "--ladder", "96-120", "--json",
                      "--no-grips", "--html", weeks.page(), "--replace"});
    INFO(shown(bare));
    CHECK(bare.status == 0);
    CHECK(nlohmann::json::parse(bare.out)["schema"] == "compline.homework/1");
    CHECK(!contains(weeks.read_page(), "<svg class=\"grip\""));
}

TEST_CASE("a sheet names its player for a pupil whose settings do not", "[app][page]") {
    const PlayedForWeeks weeks;
    const TemporaryFolder config;
    REQUIRE(run_compline({"settings", "set", "player", "Anna"}, config.path().string()).status ==
            0);
    const auto ran = run_compline({"homework", weeks.chart(), "--bars", "1-4", "--ladder", "96-120",
                                   "--json", "--html", weeks.page()},
                                  config.path().string());
    INFO(shown(ran));
    CHECK(ran.status == 0);
    CHECK(!contains(ran.out, "--player"));
    CHECK(contains(weeks.read_page(), "<span>--player Anna</span>"));
}

TEST_CASE("a page of weeks that is there is kept, and so is the chart it is of", "[app][page]") {
    const PlayedForWeeks weeks;
    files::save_text(weeks.page(), "mine", files::Existing::keep);
    for (const std::vector<std::string>& line :
         {std::vector<std::string>{"history"},
          {"history", weeks.chart()},
          {"homework", weeks.chart(), "--bars", "1-2", "--ladder", "96-120"}}) {
        auto typed = line;
        typed.insert(typed.end(), {"--html", weeks.page()});
        const auto ran = run_compline(typed);
        INFO(shown(ran));
        CHECK(ran.status == 2);
        CHECK(ran.out.empty());
        CHECK(contains(ran.err, "is there already: give another name, or --replace"));
        CHECK(weeks.read_page() == "mine");
    }
    CHECK(contains(run_compline({"homework"}).out, "No homework is given"));
    const auto chart = files::load_text(weeks.chart());
    const auto over =
        run_compline({"history", weeks.chart(), "--html", weeks.chart(), "--replace"});
    CHECK(over.status == 2);
    CHECK(contains(over.err, "that is what is read: give another name"));
    CHECK(files::load_text(weeks.chart()) == chart);
}

TEST_CASE("of what was not played no page is written, and that is said", "[app][page]") {
    const PlayedForWeeks weeks;
    const auto refused = [&](std::vector<std::string> line, const std::string& why) {
        line.insert(line.end(), {"--html", weeks.page()});
        const auto ran = run_compline(line);
        INFO(shown(ran));
        CHECK(ran.status == 1);
        CHECK(contains(ran.out, why));
        CHECK(contains(ran.err, "no page is written: there is nothing to show"));
        CHECK(!std::filesystem::exists(weeks.page()));
    };
    refused({"history", blues()}, "was not played yet");
    refused({"history", "--since", "2021-01-01"}, "Nothing was played since");
    refused({"history", "--player", "Nobody"}, "Nothing was played by Nobody yet");
}

TEST_CASE("a page is refused where there is nothing to put on one", "[app][page]") {
    const PlayedForWeeks weeks;
    const auto refused = [&](std::vector<std::string> line, const std::string& why) {
        line.insert(line.end(), {"--html", weeks.page()});
        const auto ran = run_compline(line);
        INFO(shown(ran));
        CHECK(ran.status == 2);
        CHECK(contains(ran.err, why));
        CHECK(!std::filesystem::exists(weeks.page()));
    };
    refused({"history", "--rebuild"}, "--html is for what the history tells");
    refused({"history", "--check"}, "--html is for what the history tells");
    refused({"history", "forget", "take.mid"}, "--html is for what the history tells");
    refused({"homework"}, "--html is for a sheet that is given");
    refused({"homework", weeks.chart(), "--bars", "1-4", "--take-back"},
            "--html is for a sheet that is given");
    const auto alone = run_compline({"history", "--replace"});
    CHECK(alone.status == 2);
    CHECK(contains(alone.err, "--replace is for a page: give --html too"));
}
