// The player's own takes: which bars are weak in them, and what was practised last.

#include "../src/app/own_takes.hpp"

#include "../src/app/last_evening.hpp"
#include "app/own_data.hpp"
#include "app/program.hpp"
#include "support/catch.hpp"

#include <compline/chart/chart.hpp>
#include <compline/practice/take_file.hpp>
#include <compline/text/bad_input.hpp>

using namespace compline;
using namespace compline::tests;

namespace {

/// The demo's take, whose weakest bars are 9 to 12, as one of the player's own.
void keep_demo_take(const OwnData& own, const std::string& name) {
    const auto folder = own.folder().file("demo").string();
    const auto ran = run_compline({"demo", "--folder", folder});
    INFO(shown(ran));
    REQUIRE(ran.status == 0);
    std::filesystem::copy_file(folder + "/take.mid", own.takes() / name);
}

std::string refusal(const chart::Form& form) {
    try {
        return app::weakest_bars(form).bars;
    } catch (const text::BadInput& bad) {
        return bad.what();
    }
}

}  // namespace

TEST_CASE("the weakest bars are those of the newest takes of this chart", "[app]") {
    const OwnData own;
    const auto blues_form = chart::unroll(chart::load_chart(blues()));
    CHECK(contains(refusal(blues_form),
                   "--weakest: there is no take of this chart among yours: "
                   "practise it once without --weakest"));
    keep_demo_take(own, "2027-01-05-193000.mid");
    files::save_text(own.takes() / "2027-01-06-193000.mid", "no take", files::Existing::keep);
    const auto weakest = app::weakest_bars(blues_form);
    INFO(weakest.why);
    CHECK(weakest.bars == "9-12");
    CHECK(contains(weakest.why,
                   "the weakest are bars 9-12: 2 faults in 2 times through, by your "
                   "last take of it"));
    const auto other = chart::unroll(chart::load_chart(our_chart("the-miller-winds-his-clock")));
    CHECK(contains(refusal(other), "there is no take of this chart"));
    std::filesystem::copy_file(own.takes() / "2027-01-05-193000.mid",
                               own.takes() / "2027-01-07-193000.mid");
    CHECK(contains(app::weakest_bars(blues_form).why,
                   "4 faults in 4 times through, by your last 2 "
                   "takes of it"));
}

TEST_CASE("compline alone offers what was practised last, ready to be pasted", "[app]") {
    const OwnData own;
    CHECK(run_compline({}).status == 2);
    app::remember({{"practice", "my blues.yaml", "--bars", "9-12"},
                   "/somewhere",
                   "My Blues",
                   "2027-01-05T19:30:00+01:00"});
    const auto ran = run_compline({});
    INFO(shown(ran));
    CHECK(ran.status == 0);
    CHECK(contains(ran.out,
                   "You last practised My Blues, 2027-01-05 19:30. Again:\n\n"
                   "    compline practice 'my blues.yaml' --bars 9-12\n"));
    files::save_text(own.folder().file("compline") / "last.json", "{", files::Existing::replace);
    CHECK(run_compline({}).status == 2);
}

TEST_CASE("a chart that was practised in another folder is named with its own", "[app]") {
    const TemporaryFolder charts;
    const auto chart = text_file(charts, "mine.yaml", "title: Mine\n");
    const app::LastEvening evening{
        {"practice", "mine.yaml", "--in", "none"}, charts.path().string(), "Mine", ""};
    CHECK(app::line_again(evening, charts.path().string()) ==
          "compline practice mine.yaml --in none");
    CHECK(app::line_again(evening, "/") == "compline practice " + chart + " --in none");
    CHECK(app::line_again({{"practice", "a\nb"}, "/", "", ""}, "/") == "compline practice ...");
}
