// compline score: takes of ours and files from elsewhere, whole, cut and wrong.

#include "app/program.hpp"
#include "report/by_sound.hpp"
#include "support/golden.hpp"
#include "support/schema.hpp"

#include <compline/chart/chart_hash.hpp>
#include <compline/midi/smf.hpp>
#include <compline/practice/take.hpp>

#include <nlohmann/json.hpp>

using namespace compline;
using namespace compline::tests;
using Json = nlohmann::json;

namespace {

/// The eight bars as they were asked for; how often, and how many bars were counted in.
roadmap::RoadMap road(int times = 1, int count_in = 2) {
    const auto form = eight_bars();
    auto asked = roadmap::Asked::of(form.whole(), times);
    asked.tempo = form.chart.tempo;
    asked.count_in_bars = count_in;
    return {form, asked};
}

/// The clumsy hand's eight bars, as a recorder would have them.
practice::Take clumsy_take() {
    const auto map = road();
    practice::Take take;
    take.messages = play(clumsy_hand(), map);
    take.end = map.time_of(map.end());
    practice::TakeInfo info;
    info.chart_text = eight_bars_text;
    info.chart_hash = chart::chart_hash(map.form().chart);
    info.asked = map.asked();
    info.ended = true;
    take.info = info;
    return take;
}

void check_refused(const Ran& ran, const std::string& words) {
    INFO(shown(ran));
    CHECK(ran.status == 2);
    CHECK(contains(ran.err, words));
}

/// A folder with the chart, the take, and the same playing from elsewhere (no text, no marker: it
/// starts with bar 1).
class Evening {
  public:
    Evening() {
        text_file(folder_, "eight-bars.yaml", eight_bars_text);
        save("take.mid", take_);
        practice::Take foreign = take_;
        foreign.info.reset();
        auto file = practice::to_file(foreign, road(1, 0));
        auto& events = file.tracks[0].events;
        events.erase(std::remove_if(events.begin(), events.end(),
                                    [](const midi::TrackEvent& event) {
                                        const auto* meta =
                                            std::get_if<midi::MetaEvent>(&event.event);
                                        return meta != nullptr && meta->type == midi::meta::marker;
                                    }),
                     events.end());
        bytes_file(folder_, "foreign.mid", midi::write_smf(file));
    }

    void save(const std::string& name, const practice::Take& take) const {
        bytes_file(folder_, name, midi::write_smf(practice::to_file(take, road())));
    }
    void save_bytes(const std::string& name, const std::vector<std::uint8_t>& bytes) const {
        bytes_file(folder_, name, bytes);
    }
    void save_text(const std::string& name, const std::string& text) const {
        text_file(folder_, name, text);
    }
    /// The first bytes of a file of this folder, as another one.
    void cut(const std::string& name, std::size_t size, const std::string& as) const {
        auto bytes = files::load_bytes(folder_.file(name));
        REQUIRE(size < bytes.size());
        bytes.resize(size);
        bytes_file(folder_, as, bytes);
    }
    [[nodiscard]] std::size_t size_of(const std::string& name) const {
        return files::load_bytes(folder_.file(name)).size();
    }
    [[nodiscard]] practice::Take take() const { return take_; }

    /// score TAKE --chart eight-bars.yaml, run in the folder.
    [[nodiscard]] Ran score(const std::string& take, std::vector<std::string> options = {}) const {
        options.insert(options.begin(), {"score", path(take), "--chart", path("eight-bars.yaml")});
        return run_compline(options);
    }
    [[nodiscard]] Json json(const std::string& take, std::vector<std::string> options = {}) const {
        options.emplace_back("--json");
        const auto ran = score(take, options);
        INFO(shown(ran));
        REQUIRE(ran.status == 0);
        return Json::parse(ran.out);
    }
    [[nodiscard]] std::string path(const std::string& name) const {
        return folder_.file(name).string();
    }

  private:
    TemporaryFolder folder_;
    practice::Take take_ = clumsy_take();
};

/// Where two reports of the same playing may differ: ticks are 30 microseconds at 132 bpm.
void check_same_playing(const Json& a, const Json& b) {
    REQUIRE(a["changes"].size() == b["changes"].size());
    for (std::size_t i = 0; i < a["changes"].size(); ++i) {
        const auto& one = a["changes"][i];
        const auto& other = b["changes"][i];
        INFO(one.dump() << "\n" << other.dump());
        for (const char* field : {"bar", "beat", "to", "verdict", "tones", "wrong", "missing"}) {
            CHECK(one[field] == other[field]);
        }
        if (one["lateness_ms"].is_null()) continue;
        CHECK(one["lateness_ms"].get<double>() ==
              Approx(other["lateness_ms"].get<double>()).margin(0.1));
    }
}

}  // namespace

TEST_CASE("a take scored by the program reads as the golden report", "[app][golden]") {
    const Evening evening;
    const auto ran = evening.score("take.mid");
    INFO(shown(ran));
    CHECK(ran.status == 0);
    CHECK(ran.err.empty());
    auto text = ran.out;
    const auto at = text.find(evening.path("eight-bars.yaml"));
    REQUIRE(at != std::string::npos);
    text.replace(at, evening.path("eight-bars.yaml").size(), "charts/eight-bars.yaml");
    // A longer path breaks the suggested line.
    if (const auto end = text.find(" \\\n             --bars"); end != std::string::npos) {
        text.replace(end, std::string_view(" \\\n            ").size(), "");
    }
    check_golden(text, "report/golden/eight-bars.txt");
}

TEST_CASE("the program's JSON follows the schema, byte for byte the same each time",
          "[app][schema]") {
    const Evening evening;
    const auto json = evening.score("take.mid", {"--json"});
    const auto foreign = evening.score("foreign.mid", {"--json"});
    INFO(shown(json));
    CHECK(json.status == 0);
    CHECK(evening.score("take.mid", {"--json"}).out == json.out);
    check_same_playing(Json::parse(json.out), Json::parse(report::to_json(clumsy_report())));
    if (!outside_python_module("jsonschema")) return;
    const auto checked = check_schema({json.out, foreign.out});
    INFO(checked.output);
    CHECK(checked.status == 0);
}

TEST_CASE("a take too short for the times through that it says is refused with both", "[app]") {
    const Evening evening;
    auto take = evening.take();
    take.info->asked.way = chart::Way::of({1, 8}, 2000);
    evening.save("take.mid", take);
    const auto ran = evening.score("take.mid");
    INFO(shown(ran));
    CHECK(ran.status == 2);
    CHECK(ran.err.find("played 2000 times through; it lasts 15 s") != std::string::npos);
    take.info->asked.way = chart::Way::of({1, 8}, 3);
    evening.save("take.mid", take);
    CHECK(evening.score("take.mid").status == 2);
    take.info->asked.way = chart::Way::of({1, 8}, 2);  // the second was stopped in its first bar
    evening.save("take.mid", take);
    CHECK(evening.score("take.mid").status == 0);
}

TEST_CASE("a file from elsewhere with the same playing is judged the same", "[app]") {
    const Evening evening;
    check_same_playing(evening.json("foreign.mid"), evening.json("take.mid"));
    CHECK(evening.json("foreign.mid")["played"]["times_through"] == 1);
}

TEST_CASE("a last chord struck with the band's, behind the form, is judged by nobody", "[app]") {
    const Evening evening;
    auto ends = evening.take();
    for (const auto& timed : play({{9, 1, "x3545x", 12, 6}}, road(2))) {
        ends.messages.push_back(timed);
    }
    ends.info->asked.way.held_ending = true;
    ends.end = ends.end + time::Seconds(8 * 60.0 / 132);
    auto plain = evening.take();
    plain.end = ends.end;
    evening.save("plain.mid", plain);
    const auto without = evening.json("plain.mid");
    const auto check = [&](const std::string& name) {
        const auto with = evening.json(name);
        check_same_playing(with, without);
        CHECK(with["played"]["times_through"] == 1);
        CHECK(with["totals"]["missed"] == without["totals"]["missed"]);
    };
    evening.save("ends.mid", ends);
    check("ends.mid");
    // Its program was killed while the chord rang: it is known how often the tune was to be played.
    ends.info->ended = false;
    evening.save("killed.mid", ends);
    evening.cut("killed.mid", evening.size_of("killed.mid") - 5, "killed-cut.mid");
    check("killed.mid");
    check("killed-cut.mid");
    // From elsewhere: the last onset tells, and a chord on the next 1 begins no chorus.
    ends.info.reset();
    evening.save("elsewhere.mid", ends);
    check("elsewhere.mid");
}

TEST_CASE("score takes an offset either way", "[app]") {
    const Evening evening;
    const auto lateness = [&](const std::string& offset) {
        return evening.json("take.mid", {"--offset", offset})["changes"][0]["lateness_ms"]
            .get<double>();
    };
    CHECK(lateness("0") == Approx(6).margin(0.1));
    CHECK(lateness("4") == Approx(2).margin(0.1));
    CHECK(lateness("+4") == Approx(2).margin(0.1));
    CHECK(lateness("-4.5") == Approx(10.5).margin(0.1));
}

TEST_CASE("score takes a tolerance in milliseconds, and auto against the take's own", "[app]") {
    const Evening evening;
    auto wide = evening.take();
    wide.info->settings.tolerance = time::from_milliseconds(150);
    evening.save("wide.mid", wide);
    const auto late = [&](const std::string& take, const std::vector<std::string>& options) {
        return evening.json(take, options)["totals"]["late"].get<int>();
    };
    CHECK(late("take.mid", {}) == 1);
    CHECK(late("take.mid", {"--tolerance", "70"}) == 0);
    CHECK(late("take.mid", {"--tolerance", "1"}) > 1);
    CHECK(late("wide.mid", {}) == 0);
    CHECK(late("wide.mid", {"--tolerance", "auto"}) == 1);
    CHECK(evening.json("take.mid", {"--tolerance", "12.5"})["settings"]["tolerance_ms"] == 12.5);
}

TEST_CASE("score takes a rhythm, a strictness, a tempo and no pushes", "[app]") {
    const Evening evening;
    CHECK(evening.json("take.mid")["settings"] ==
          Json::parse(R"({"tolerance_ms": 42.321, "against": "own", "rhythm": "free",
                          "strictness": "working", "pushes": true})"));
    const auto four = evening.json("take.mid", {"--rhythm", "four"});
    CHECK(four["settings"]["rhythm"] == "four");
    CHECK(four["time"]["missing_strums"] > 0);
    CHECK(evening.json("take.mid", {"--rhythm", "2&  1"})["settings"]["rhythm"] == "1 2&");
    const auto free = evening.json("take.mid", {"--rhythm", "free"});
    CHECK(free["time"]["missing_strums"] == 0);
    CHECK(evening.json("take.mid", {"--strictness", "written"})["settings"]["strictness"] ==
          "written");
    CHECK(evening.json("take.mid", {"--strictness", "substitutions"})["settings"]["strictness"] ==
          "substitutions");
    const auto strict = evening.json("take.mid", {"--no-pushes"});
    CHECK(strict["totals"]["pushed"] == 0);
    CHECK(strict["totals"]["early"] == 1);
    CHECK(strict["settings"]["pushes"] == false);
    CHECK(evening.json("take.mid", {"--tempo", "60"})["chart"]["tempo_bpm"] == 60);
}

TEST_CASE(
    "score judges against the player's own place or the beat, as asked, else as the take says",
    "[app]") {
    const Evening evening;
    auto strict = evening.take();
    strict.info->settings.against = assess::Against::beat;
    evening.save("strict.mid", strict);
    const auto against = [&](const std::string& take, const std::vector<std::string>& options) {
        return evening.json(take, options)["settings"]["against"].get<std::string>();
    };
    CHECK(against("take.mid", {}) == "own");
    CHECK(against("take.mid", {"--against", "beat"}) == "beat");
    CHECK(against("strict.mid", {}) == "beat");
    CHECK(against("strict.mid", {"--against", "own"}) == "own");
    CHECK(against("foreign.mid", {}) == "own");
}

TEST_CASE("score of some bars judges these bars of a take that says it was more", "[app]") {
    const Evening evening;
    const auto all = evening.json("take.mid");
    const auto some = evening.json("take.mid", {"--bars", "5-8"});
    CHECK(some["played"] == all["played"]);
    CHECK(some["part"] == Json::parse(R"({"from_bar": 5, "to_bar": 8})"));
    Json wanted = Json::array();
    for (const auto& change : all["changes"]) {
        if (change["bar"] >= 5) wanted.push_back(change);
    }
    CHECK(some["changes"] == wanted);
    CHECK(some["totals"]["changes"] == wanted.size());
    CHECK(evening.score("take.mid", {"--bars", "5-8"}).err.empty());
    CHECK(contains(evening.score("take.mid", {"--bars", "5-8"}).out, "bars 5-8 of bars 1-8, once"));
    CHECK(evening.json("take.mid", {"--bars", "1-8"}) == all);
    CHECK(evening.json("take.mid", {"--bars", "A:2-4"})["part"]["from_bar"] == 2);
}

TEST_CASE("bars of a file from elsewhere were played over and over, or the whole form was",
          "[app]") {
    const Evening evening;
    const auto looped = evening.json("foreign.mid", {"--bars", "1-4"});
    CHECK(looped["played"]["to_bar"] == 4);
    CHECK(looped["played"]["times_through"] == 2);
    CHECK(looped["part"].is_null());
    const auto part = evening.json("foreign.mid", {"--bars", "5-8", "--whole-form"});
    CHECK(part["played"]["to_bar"] == 8);
    check_same_playing(part, evening.json("take.mid", {"--bars", "5-8"}));
    check_refused(evening.score("foreign.mid", {"--whole-form"}), "give it with --bars");
    // A take that was bars over and over is still that, and says what it was not.
    auto loop = evening.take();
    loop.info->asked.way = chart::Way::of({1, 4}, 2);
    evening.save("loop.mid", loop);
    const auto other = evening.score("loop.mid", {"--bars", "5-8"});
    CHECK(contains(other.err, "the take says that bars 1-4 were played; it is scored as if 5-8"));
}

TEST_CASE("of a file from elsewhere it is said that nothing is taken off for a pickup", "[app]") {
    const Evening evening;
    const std::string words =
        "foreign.mid: no delay of a MIDI pickup is taken off; if it came "
        "through one, ask for it: --midi-pickup cycles=1.5\n";
    CHECK(contains(evening.score("foreign.mid").err, words));
    CHECK(contains(evening.score("foreign.mid", {"--midi-pickup", "mono"}).err, words));
    CHECK(evening.score("foreign.mid", {"--midi-pickup", "cycles=0", "--no-history"}).err.empty());
    CHECK(evening.score("take.mid").err.empty());
}

TEST_CASE("a report says by which program, of which take and by which chart", "[app]") {
    const Evening evening;
    auto dated = evening.take();
    dated.info->made = "2027-01-05T19:30:00+01:00";
    evening.save("dated.mid", dated);
    const auto json = evening.json("dated.mid");
    CHECK(json["program"] == "0.1.0");
    CHECK(json["made"] == "2027-01-05T19:30:00+01:00");
    CHECK(json["take"] == "dated.mid");
    CHECK(json["chart_hash"] == chart::chart_hash(eight_bars().chart));
    CHECK(json["hints"] == Json::array());
    CHECK(evening.json("foreign.mid")["made"].is_null());
}

TEST_CASE("a file from elsewhere that fits another chart of the folder is offered that", "[app]") {
    const Evening evening;
    std::string other = eight_bars_text;
    other.replace(other.find("C\n"), 2, "Gb\n");
    const auto bars = other.find("    Cmaj7");
    other.replace(bars, std::string::npos,
                  "    Gbmaj7 | Ebm7 | Abm7 Db7 | Gbmaj7\n    Abm7 | Db7 | Gbmaj7 | Abm7 Db7\n");
    evening.save_text("a gloomy one.yaml", other);
    evening.save_text("broken.yaml", "title: [\n");
    const auto ran = run_compline({"score", evening.path("foreign.mid"), "--chart",
                                   evening.path("a gloomy one.yaml"), "--json"});
    INFO(shown(ran));
    REQUIRE(ran.status == 0);
    const auto hints = Json::parse(ran.out)["hints"];
    REQUIRE(hints.size() == 1);
    CHECK(hints[0]["option"] == "--chart " + evening.path("eight-bars.yaml"));
    // The band of a take of ours played its own chart.
    const auto own = run_compline({"score", evening.path("take.mid"), "--chart",
                                   evening.path("a gloomy one.yaml"), "--json"});
    CHECK(Json::parse(own.out)["hints"] == Json::array());
}

TEST_CASE("several takes are a line each, and the report of all together", "[app]") {
    const Evening evening;
    auto dated = evening.take();
    dated.info->made = "2027-01-05T19:30:00+01:00";
    evening.save("dated.mid", dated);
    const auto both = [&](std::vector<std::string> more) {
        more.insert(more.begin(), {"score", evening.path("dated.mid"), evening.path("take.mid")});
        return run_compline(more);
    };
    const auto text = both({});
    INFO(shown(text));
    CHECK(text.status == 0);
    CHECK(contains(text.out,
                   "take       made              tempo  in time  tones    weakest\n"
                   "dated.mid  2027-01-05 19:30  132    8 of 10  6 right  4-7\n"));
    CHECK(contains(text.out, "\ntake.mid                     132 "));
    CHECK(contains(
        text.out, "\nAll together\n\n16 of 20 changes in time, 12 with the right tones: work on "));
    const auto json = Json::parse(both({"--json"}).out);
    CHECK(json["schema"] == "compline.reports/1");
    REQUIRE(json["takes"].size() == 2);
    CHECK(json["takes"][1] ==
          Json::parse(run_compline({"score", evening.path("take.mid"), "--json"}).out));
    const auto& together = json["together"];
    for (const auto& [name, count] : together["totals"].items()) {
        INFO(name);
        CHECK(count == 2 * json["takes"][0]["totals"][name].get<int>());
    }
    CHECK(together["changes"].back()["time_through"] == 2);
    CHECK(both({"--json"}).out == both({"--json"}).out);
    if (!outside_python_module("jsonschema")) return;
    CHECK(check_schema({together.dump()}).status == 0);
}

TEST_CASE("takes of different charts are a line each", "[app]") {
    const Evening evening;
    auto other = evening.take();
    auto& text = other.info->chart_text;
    text.replace(text.find("A7"), 2, "A9");
    evening.save("other.mid", other);
    const std::vector<std::string> both = {"score", evening.path("take.mid"),
                                           evening.path("other.mid")};
    const auto ran = run_compline(both);
    INFO(shown(ran));
    CHECK(ran.status == 0);
    CHECK(contains(ran.out, "\nother.mid  132    8 of 10"));
    CHECK(contains(ran.out, "They were not played to one chart in one key"));
    CHECK(!contains(ran.out, "All together"));
}

TEST_CASE("a bad file among several is named, and the others are judged", "[app]") {
    const Evening evening;
    evening.save_text("text.mid", "a shopping list\n");
    const auto ran = run_compline({"score", evening.path("take.mid"), evening.path("text.mid"),
                                   evening.path("take.mid"), "--json"});
    INFO(shown(ran));
    CHECK(ran.status == 2);
    CHECK(contains(ran.err, "text.mid: byte 0"));
    CHECK(Json::parse(ran.out)["takes"].size() == 2);
    // Of the one that is left there is the whole report.
    const auto one = run_compline({"score", evening.path("take.mid"), evening.path("text.mid")});
    CHECK(contains(one.out, "\n\nEight Bars for a Clumsy Hand"));
    const auto none = run_compline({"score", evening.path("text.mid"), evening.path("text.mid")});
    CHECK(none.status == 2);
    CHECK(none.out.empty());
}

TEST_CASE("score takes what the player says of the MIDI pickup, against what the take says",
          "[app]") {
    const Evening evening;
    auto take = evening.take();
    take.info->pickup = "poly";
    evening.save("poly.mid", take);
    CHECK(evening.json("take.mid")["played"]["strings"] == "a channel per string");
    CHECK(evening.json("poly.mid")["played"]["strings"] == "one channel");
    CHECK(contains(evening.score("poly.mid").out, "which string it was is not known"));
    CHECK(evening.json("poly.mid", {"--midi-pickup", "mono"})["played"]["strings"] ==
          "a channel per string");
    const auto lateness = [&](const std::string& words) {
        return evening.json("take.mid", {"--midi-pickup", words})["changes"][0]["lateness_ms"];
    };
    CHECK(lateness("cycles=3") < lateness("cycles=0"));
}

TEST_CASE("score refuses options that make no sense", "[app]") {
    const Evening evening;
    const auto refuses = [&](const std::vector<std::string>& options, const std::string& words) {
        const auto ran = evening.score("take.mid", options);
        INFO(shown(ran));
        CHECK(ran.status == 2);
        CHECK(ran.out.empty());
        CHECK(contains(ran.err, words));
    };
    for (const std::string odd : {"nan", "inf", "-inf", "1e999", "x", "12ms"}) {
        refuses({"--offset=" + odd}, "--offset " + odd + ": expected a number from -600000 to");
        refuses({"--tolerance=" + odd}, "--tolerance " + odd + ": expected");
        refuses({"--tempo=" + odd}, "--tempo " + odd + ": expected a number from 30 to 400");
    }
    refuses({"--tolerance", "0"}, "expected");
    refuses({"--tolerance", "-3"}, "expected");
    refuses({"--rhythm", "5"}, "--rhythm \"5\": \"5\" is not a beat of the bar: write 1 to 4");
    refuses({"--rhythm", "1 & 2"}, "is not a beat of the bar");
    refuses({"--rhythm", " "}, "no rhythm: write free, four, or beats");
    refuses({"--strictness", "strict"}, "expected written, working or substitutions");
    refuses({"--against", "click"}, "--against click: expected own or beat");
    refuses({"--midi-pickup", "stereo"},
            "--midi-pickup \"stereo\": \"stereo\" is not known here: write");
    refuses({"--midi-pickup", "bend=2 bend=12"},
            "--midi-pickup \"bend=2 bend=12\": character 8: bend is there twice");
    refuses({"--bars", "9-99"}, "--bars 9-99: there is no bar 99: the form has 8 bars");
    for (const char* option : {"--offset", "--tolerance", "--tempo", "--rhythm", "--strictness",
                               "--against", "--bars", "--midi-pickup"}) {
        refuses({option, ""}, option);
    }
}

TEST_CASE("a take of ours cut short is scored to its last whole event, with a warning", "[app]") {
    const Evening evening;
    evening.cut("take.mid", evening.size_of("take.mid") * 2 / 3, "cut.mid");
    const auto ran = evening.score("cut.mid", {"--json"});
    INFO(shown(ran));
    CHECK(ran.status == 0);
    CHECK(contains(ran.err, "cut.mid: the take was cut short; it is read up to byte "));
    const auto cut = Json::parse(ran.out);
    const auto whole = evening.json("take.mid");
    // What was heard is judged as before; what came after the cut is not judged at all.
    REQUIRE(cut["changes"].size() >= 2);
    REQUIRE(cut["changes"].size() < whole["changes"].size());
    for (std::size_t i = 0; i + 1 < cut["changes"].size(); ++i) {
        CHECK(cut["changes"][i]["verdict"] == whole["changes"][i]["verdict"]);
    }
    CHECK(cut["totals"]["missed"] == 0);
}

TEST_CASE("any other file cut short is refused at its byte", "[app]") {
    const Evening evening;
    const auto size = evening.size_of("foreign.mid");
    for (const std::size_t at : {size - 1, size / 2, std::size_t{40}, std::size_t{20}}) {
        evening.cut("foreign.mid", at, "cut.mid");
        const auto ran = evening.score("cut.mid");
        INFO(shown(ran));
        CHECK(ran.status == 2);
        CHECK(ran.out.empty());
        CHECK(contains(ran.err, "cut.mid: byte "));
    }
    // Our own, cut before its text: nothing tells that it is ours.
    evening.cut("take.mid", 30, "cut.mid");
    CHECK(evening.score("cut.mid").status == 2);
}

TEST_CASE("score names what is no take: an empty folder or file, text, nothing at all", "[app]") {
    const Evening evening;
    std::filesystem::create_directory(evening.path("nothing"));
    evening.save_text("empty.mid", "");
    evening.save_text("text.mid", "a shopping list\n");
    const auto refuses = [&](const std::string& take, const std::string& words) {
        const auto ran = evening.score(take);
        INFO(shown(ran));
        CHECK(ran.status == 2);
        CHECK(ran.out.empty());
        CHECK(contains(ran.err, evening.path(take) + words));
    };
    refuses("nothing", ": there is no take in it (*.mid)");
    refuses("empty.mid", ": the file is empty");
    refuses("text.mid", ": byte 0: found \"a sh\", expected \"MThd\"");
    refuses("nowhere.mid", ": No such file or directory");
    refuses("eight-bars.yaml", ": byte 0: ");
    CHECK(run_compline({"score", evening.path("take.mid"), "--chart", evening.path("take.mid")})
              .status == 2);
}

TEST_CASE("a take without notes is scored, and said to have none", "[app]") {
    const Evening evening;
    auto silent = evening.take();
    silent.messages.clear();
    evening.save("silent.mid", silent);
    const auto ran = evening.score("silent.mid");
    INFO(shown(ran));
    CHECK(ran.status == 0);
    CHECK(contains(ran.err, "silent.mid: there are no notes in it"));
    CHECK(contains(ran.out, "Changes  10: 10 laid out"));
    CHECK(contains(ran.out, "None of the 10 changes was struck"));
    CHECK(!contains(ran.out, "Nothing to mend"));
}

TEST_CASE("a take over bars that the chart has not is refused", "[app]") {
    const Evening evening;
    auto longer = evening.take();
    longer.info->asked.way = chart::Way::of({9, 12}, 1);
    evening.save("longer.mid", longer);
    const auto ran = evening.score("longer.mid");
    check_refused(ran,
                  "longer.mid: the take: bars 9 to 12 are to be played: the chart has "
                  "bars 1 to 8\n");
}

TEST_CASE("a take is scored by the chart that it carries, whatever became of the file", "[app]") {
    const Evening evening;
    const auto with_chart = evening.score("take.mid", {"--json"});
    const auto alone = run_compline({"score", evening.path("take.mid"), "--json"});
    INFO(shown(alone));
    CHECK(alone.status == 0);
    CHECK(alone.err.empty());
    CHECK(alone.out == with_chart.out);
    // A file from elsewhere carries none.
    const auto foreign = run_compline({"score", evening.path("foreign.mid")});
    check_refused(foreign,
                  "foreign.mid: it carries no chart, as takes of ours do: say by "
                  "--chart what it was played to");
}

TEST_CASE("a chart that is not the take's own is named, by bar, and judges all the same", "[app]") {
    const Evening evening;
    std::string text = eight_bars_text;
    text.replace(text.find("A7"), 2, "A9");
    text.replace(text.find("Ebm7   | Dm7 G7"), 15, "Ebm7");
    evening.save_text("eight-bars.yaml", text);
    auto take = evening.take();
    take.info->asked.way = chart::Way::of({1, 7}, 1);
    evening.save("seven.mid", take);
    const auto ran = evening.score("seven.mid");
    INFO(shown(ran));
    CHECK(ran.status == 0);
    CHECK(contains(ran.err, "seven.mid: bar 2 was played to A7; "));
    CHECK(contains(ran.err, "eight-bars.yaml has A9\n"));
    CHECK(contains(ran.err, "seven.mid: bar 8 was played to Dm7 G7; "));
    CHECK(contains(ran.err, "eight-bars.yaml has no bar\n"));
}

TEST_CASE("a take whose own text is damaged, or says the impossible, is refused, not believed",
          "[app]") {
    const Evening evening;
    const auto refuses = [&](const std::string& piece, const std::string& with,
                             const std::string& words) {
        auto file = practice::to_file(evening.take(), road());
        for (auto& event : file.tracks[0].events) {
            auto* const meta = std::get_if<midi::MetaEvent>(&event.event);
            if (meta == nullptr || meta->type != midi::meta::text) continue;
            const auto at = meta->data.find(piece);
            REQUIRE(at != std::string::npos);
            meta->data.replace(at, piece.size(), with);
        }
        evening.save_bytes("spoilt.mid", midi::write_smf(file));
        const auto ran = evening.score("spoilt.mid");
        INFO(shown(ran));
        CHECK(ran.status == 2);
        CHECK(contains(ran.err, "spoilt.mid: the take's text: " + words));
        // Its notes are there all the same.
        const auto notes = evening.score("spoilt.mid", {"--notes-alone"});
        CHECK(notes.status == 0);
        CHECK(contains(notes.out, "Changes  10"));
    };
    refuses("\"strictness\":", "\"rhythm\":\"waltzy\",\"strictness\":", "settings.rhythm: ");
    refuses("\"working\"", "\"lax\"", "settings.strictness: \"lax\"");
    refuses("\"own\"", "\"click\"", "settings.against: \"click\"");
    refuses("[1,8]", "[1,90000]", "asked.way.1.bars.2: 90000, expected a whole number");
    refuses("\"bars\"", "\"rabs\"", "asked.way.1: there is no \"bars\"");
    refuses("132.0", "1e9", "asked.tempo_bpm: ");
    refuses("\"cycles\":0.0", "\"cycles\":-1e30", "calibration.cycles: ");
    refuses("\"rules\":2", "\"rules\":[2]", "rules: a list, expected a whole number");
    refuses("compline.take/2", "compline.take/9", "it is a compline.take/9: this version reads");
    refuses("\"asked\":{", "\"asked\":", "byte ");
    refuses("\"calibration\"", "\"midi_pickup\":\"stereo\",\"calibration\"", "midi_pickup: ");
}

TEST_CASE("a rhythm that the chart's bars have no beats for is refused", "[app]") {
    const Evening evening;
    auto take = evening.take();
    take.info->settings.rhythm = assess::read_rhythm("1 6", time::Meter(6));
    evening.save("six.mid", take);
    const auto ran = evening.score("six.mid");
    INFO(shown(ran));
    CHECK(ran.status == 2);
    CHECK(contains(ran.err, "six.mid: the take's rhythm: 6 is not a beat of the bar"));
}

TEST_CASE("files that would last for years, or are patterns, are refused at once", "[app]") {
    const Evening evening;
    midi::File file;
    file.division = 1;
    file.tracks.resize(1);
    file.tracks[0].add(0, midi::note_on(1, 60, 80));
    file.tracks[0].add(200'000'000, midi::note_off(1, 60));
    file.tracks[0].add(200'000'001, midi::note_on(1, 60, 80));
    evening.save_bytes("years.mid", midi::write_smf(file));
    const auto years = evening.score("years.mid");
    INFO(shown(years));
    CHECK(years.status == 2);
    CHECK(contains(years.err, "more than a day is not judged"));

    file.format = 2;
    file.tracks.resize(2);
    evening.save_bytes("patterns.mid", midi::write_smf(file));
    const auto patterns = evening.score("patterns.mid");
    INFO(shown(patterns));
    CHECK(patterns.status == 2);
    CHECK(contains(patterns.err, "patterns.mid: byte "));
}

TEST_CASE("what a file says of itself never steers the terminal", "[app]") {
    const Evening evening;
    midi::File file;
    file.tracks.resize(1);
    file.tracks[0].add(0, midi::text_event(midi::meta::marker, "\x1B[31mred"));
    file.tracks[0].add(0, midi::text_event(midi::meta::text, "\x1B]0;title\x07"));
    file.tracks[0].add(480, midi::note_on(1, 60, 80));
    const std::string odd = "od\x1B[32md.mid";
    evening.save_bytes(odd, midi::write_smf(file));
    const auto fine = evening.score(odd);
    INFO(shown(fine));
    CHECK(fine.status == 0);
    CHECK(is_safe(fine.out));
    CHECK(is_safe(fine.err));
    evening.save_text(odd, "\x1B[31m");
    const auto refused = evening.score(odd);
    INFO(shown(refused));
    CHECK(refused.status == 2);
    CHECK(is_safe(refused.err));
}

TEST_CASE(
    "a take by sound is scored by time alone, and what asks for tones is said to change nothing",
    "[app]") {
    const Evening evening;
    evening.save("sound.mid", take_by_sound(slow_hand()));
    const auto plain = evening.score("sound.mid");
    INFO(shown(plain));
    CHECK(plain.status == 0);
    CHECK(contains(plain.out, "\nHeard by sound: time alone is judged, tones are not.\n"));
    CHECK(plain.err.empty());
    const auto asked = evening.score("sound.mid", {"--strictness", "written"});
    INFO(shown(asked));
    CHECK(asked.status == 0);
    const auto judged = plain.out.substr(0, plain.out.find("Weakest"));
    CHECK(asked.out.find(judged) == 0);
    CHECK(asked.err == evening.path("sound.mid") +
                           ": heard by sound, time alone is judged; without effect: "
                           "--strictness\n");
}
