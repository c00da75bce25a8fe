// score --hand and plan --from, by a take of two chords.

#include "app/program.hpp"
#include "report/rehearsed.hpp"

#include <compline/chart/chart_hash.hpp>
#include <compline/midi/smf.hpp>
#include <compline/practice/take.hpp>

#include <nlohmann/json.hpp>

using namespace compline;
using namespace compline::tests;

namespace {

constexpr const char* two_chords =
    "title: Two Chords\nkey: C\ntempo: 120\nsections:\n  A: |\n    Dm7 | G7\n";

/// A folder with the chart and takes of it, three times through.
class TwoChordEvening {
  public:
    TwoChordEvening() { text_file(folder_, "two.yaml", two_chords); }

    [[nodiscard]] std::string chart() const { return folder_.file("two.yaml").string(); }

    /// A take in which the second grip was played so; `info` may be changed before it is written.
    template <typename Change>
    [[nodiscard]] std::string take(const std::string& second, Change change) const {
        const auto map = through(chart::unroll(chart::read_chart(two_chords, "two.yaml")), 3);
        std::vector<Strum> strums;
        for (int bar = 1; bar <= 6; bar += 2) {
            strums.push_back({bar, 1, "x5x56x", 0, 3});
            strums.push_back({bar + 1, 1, second, 0, 3});
        }
        practice::Take take;
        take.messages = play(strums, map);
        take.end = map.time_of(map.end());
        auto info = practice::info_of(map, two_chords);
        info.chart_hash = chart::chart_hash(map.form().chart);
        info.ended = true;
        take.info = info;
        change(take);
        return bytes_file(folder_, "take.mid", midi::write_smf(practice::to_file(take, map)));
    }
    [[nodiscard]] std::string take(const std::string& second = "3x34xx") const {
        return take(second, [](practice::Take&) {});
    }

  private:
    TemporaryFolder folder_;
};

void check_refuses(const std::vector<std::string>& options, const std::string& words) {
    const auto ran = run_compline(options);
    INFO(shown(ran));
    CHECK(ran.status == 2);
    CHECK(contains(ran.err, words));
}

}  // namespace

TEST_CASE("score --hand says how far the hand went, beside the plan it was played by", "[app]") {
    const TwoChordEvening evening;
    const auto take =
        evening.take("3x34xx", [](auto& taken) { taken.info->voicings = "shells near=3"; });
    const auto ran = run_compline({"score", take, "--hand"});
    INFO(shown(ran));
    CHECK(ran.status == 0);
    CHECK(contains(ran.out, "Your hand against the plan of shells near=3\n  Your fingers went "));
    const auto other = run_compline({"score", take, "--voicings", "rootless", "--json"});
    CHECK(contains(other.out, "\"voicings\": \"rootless\""));
    CHECK_FALSE(contains(run_compline({"score", take}).out, "Your hand"));
}

TEST_CASE("score --hand refuses words that it cannot plan by, and several takes at once", "[app]") {
    const TwoChordEvening evening;
    const auto take = evening.take();
    check_refuses({"score", take, "--voicings", "bongo"}, "\"bongo\" is not known here");
    check_refuses({"score", take, "--voicings", "shells capo=2"}, "another guitar than the take's");
    check_refuses({"score", take, take, "--hand"}, "--hand is for one take");
}

TEST_CASE("plan --from holds what was played and says what it leaves out", "[app]") {
    const TwoChordEvening evening;
    const auto ran = run_compline({"plan", evening.chart(), "--from", evening.take("3x35xx")});
    INFO(shown(ran));
    CHECK(ran.status == 0);
    CHECK(contains(ran.err, "take.mid: 1 of 2 chords are held as they were played\n"));
    CHECK(contains(ran.err, "left out: bar 2, G7: 3x35xx, 3 times, "));
    CHECK(contains(ran.err, "planned, since no grip of yours is there: bar 2 (G7)\n"));
    CHECK(contains(ran.out, "x5x56x"));
    CHECK(contains(ran.out, "* as you played it, or as the chart asks\n"));
}

TEST_CASE("plan --from refuses a take in another key, and one without frets", "[app]") {
    const TwoChordEvening evening;
    const auto take = evening.take();
    check_refuses({"plan", evening.chart(), "--key", "Eb", "--from", take},
                  "it was played in C: plan in that key too: --key C");
    const auto poly = evening.take(
        "3x34xx", [](auto& taken) { taken.messages = on_one_channel(std::move(taken.messages)); });
    check_refuses({"plan", evening.chart(), "--from", poly}, "a channel for each string");
    check_refuses({"plan", evening.chart(), "--from", evening.chart()}, "two.yaml");
}
