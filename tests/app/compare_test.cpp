// compline compare: two takes, by their own chart or by one that is given.

#include "app/program.hpp"
#include "report/rehearsed.hpp"

#include <compline/midi/smf.hpp>
#include <compline/practice/take.hpp>

#include <nlohmann/json.hpp>

using namespace compline;
using namespace compline::tests;
using Json = nlohmann::json;

namespace {

/// The eight bars, as they are played by hand, in a folder.
class TwoEvenings {
  public:
    TwoEvenings() {
        text_file(folder_, "eight-bars.yaml", eight_bars_text);
        save("before.mid", clumsy_hand(), eight_bars_text);
        auto strums = clumsy_hand();
        strums[2].late_ms = 8;    // bar 2 is in time now
        strums[0].late_ms = 110;  // and bar 1 no longer
        save("after.mid", strums, eight_bars_text);
    }

    void save(const std::string& name, const std::vector<Strum>& strums,
              const std::string& text) const {
        const auto map = through(chart::unroll(chart::read_chart(text, name)));
        practice::Take take;
        take.messages = play(strums, map);
        take.end = map.time_of(map.end());
        take.info = practice::info_of(map, text);
        take.info->ended = true;
        bytes_file(folder_, name, midi::write_smf(practice::to_file(take, map)));
    }
    [[nodiscard]] std::string path(const std::string& name) const {
        return folder_.file(name).string();
    }
    [[nodiscard]] Ran compare(const std::string& after, std::vector<std::string> more = {}) const {
        more.insert(more.begin(), {"compare", path("before.mid"), path(after)});
        return run_compline(more);
    }

  private:
    TemporaryFolder folder_;
};

}  // namespace

TEST_CASE("compare names what got worse and what got better, by place", "[app]") {
    const TwoEvenings evenings;
    const auto ran = evenings.compare("after.mid");
    INFO(shown(ran));
    CHECK(ran.status == 0);
    CHECK(ran.err.empty());
    CHECK(ran.out ==
          "Better in 1 place, worse in 1: right and in time 5 of 10, then 5 of 10.\n"
          "\nWorse\n"
          "  bar 1  Cmaj7: right 1 of 1; then late 1 of 1 by 110 ms\n"
          "\nBetter\n"
          "  bar 2  Cmaj7 → A7: late 1 of 1 by 62 ms; then right 1 of 1\n"
          "\nThe same in 8 places\n");
    CHECK(evenings.compare("after.mid", {"--chart", evenings.path("eight-bars.yaml")}).out ==
          ran.out);
}

TEST_CASE("compare writes JSON, the same bytes each time", "[app]") {
    const TwoEvenings evenings;
    const auto ran = evenings.compare("after.mid", {"--json"});
    INFO(shown(ran));
    const auto json = Json::parse(ran.out);
    CHECK(json["before"]["take"] == "before.mid");
    CHECK(json["places"].size() == 10);
    CHECK(evenings.compare("after.mid", {"--json"}).out == ran.out);
    const auto some = Json::parse(evenings.compare("after.mid", {"--json", "--bars", "1-2"}).out);
    CHECK(some["places"].size() == 2);
}

TEST_CASE("compare refuses takes of two charts, unless one is given for both", "[app]") {
    const TwoEvenings evenings;
    std::string text = eight_bars_text;
    text.replace(text.find("A7"), 2, "A9");
    evenings.save("other.mid", clumsy_hand(), text);
    const auto ran = evenings.compare("other.mid");
    INFO(shown(ran));
    CHECK(ran.status == 2);
    CHECK(ran.out.empty());
    CHECK(contains(ran.err,
                   "other.mid carry different charts: say by --chart which one both were "
                   "played to"));
    const auto by_one =
        evenings.compare("other.mid", {"--chart", evenings.path("eight-bars.yaml")});
    CHECK(by_one.status == 0);
    CHECK(contains(by_one.err, "other.mid: bar 2 was played to A9"));
    CHECK(evenings.compare("nowhere.mid").status == 2);
    CHECK(run_compline({"compare", evenings.path("before.mid")}).status == 2);
}
