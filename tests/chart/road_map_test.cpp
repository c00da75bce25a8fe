#include "chart/support.hpp"
#include "support/catch.hpp"

#include <compline/chart/read_manner.hpp>
#include <compline/chart/road_map_text.hpp>
#include <compline/text/bad_input.hpp>

#include <algorithm>
#include <random>
#include <string>
#include <utility>
#include <vector>

using namespace compline;
using chart::AskedManner;
using chart::Bass;
using chart::Drums;
using chart::Feel;
using chart::Form;
using chart::Passage;
using chart::Stretch;

namespace {

/// A A B A of two bars each and a coda of one: nine bars.
Form form(const std::string& more = "") {
    return chart::unroll(chart::read_chart(
        "form: [A, A, B, A, Coda 1]\n" + more +
            tests::chart_text("  A: F6 D7 | Gm7 C7\n  B: A7 | D7\n  Coda 1: F6\n"),
        "t"));
}

std::vector<Stretch> stretches(const std::string& road_map) {
    return chart::read_road_map(form(), road_map).stretches;
}

/// The one stretch of a road map of one chorus.
Stretch only(const std::string& road_map) {
    const auto all = stretches(road_map);
    REQUIRE(all.size() == 1);
    return all.front();
}

/// "intro 6-9, head 1-9, ...".
std::string way(const std::string& road_map) {
    std::string text;
    for (const auto& stretch : stretches(road_map)) {
        text += fmt::format("{}{} {}-{}", text.empty() ? "" : ", ", stretch.name,
                            stretch.passage.from, stretch.passage.to);
    }
    return text;
}

std::string error(const std::string& road_map, const Form& of = form()) {
    try {
        (void)chart::read_road_map(of, road_map);
    } catch (const text::BadInput& error) {
        CHECK(error.offset().value() <= road_map.size());
        return error.what();
    }
    return "";
}

bool begins(const std::string& text, const std::string& start) {
    return text.substr(0, start.size()) == start;
}

std::string in_words(const std::string& road_map) {
    return chart::road_map_in_words(chart::read_road_map(form(), road_map), form());
}

const std::string what_may_stand =
    "write walking, two-feel or roots for the bass, plain for a bass without skip notes, drums=, "
    "bass= or feel= with a name, silent, a tempo, or bars= with bars";

}  // namespace

TEST_CASE("a road map lists the times through by name, each the whole form") {
    CHECK(way("head; solo x2; trading-fours 2; head") ==
          "head 1-9, solo 1-9, solo 1-9, trading-fours 2 1-9, head 1-9");
    CHECK(way("head") == "head 1-9");
    CHECK(way("  head ;solo   X2") == "head 1-9, solo 1-9, solo 1-9");
    CHECK(way("Grand   refrain x1") == "Grand refrain 1-9");
    CHECK(stretches("solo x100").size() == 100);
    const auto road_map = chart::read_road_map(form(), "head; solo");
    CHECK(!road_map.goes_on);
    CHECK(!road_map.held_ending);
}

TEST_CASE("a chorus of a road map says how it is played, in any order") {
    CHECK(only("head").manner == AskedManner{});
    CHECK(only("head: walking").manner == AskedManner{std::nullopt, std::nullopt, Bass::walking});
    CHECK(only("head: two-feel drums=brushes feel=bossa").manner ==
          AskedManner{Feel::bossa, Drums::brushes, Bass::two_feel});
    CHECK(only("head: feel=ballad, drums=off,bass=off").manner ==
          AskedManner{Feel::ballad, Drums::off, Bass::off});
    CHECK(only("head : Roots").manner.bass == Bass::roots);
    CHECK(only("head: DRUMS=Hats").manner.drums == Drums::hats);
    CHECK(only("solo: silent").silent);
    CHECK(!only("solo: drums=off").silent);
    CHECK(only("solo: silent, feel=straight") ==
          Stretch{{1, 9}, "solo", {Feel::straight, std::nullopt, std::nullopt}, true});
    CHECK(stretches("solo x2: roots").at(1).manner.bass == Bass::roots);
    CHECK(stretches("solo x2: roots; head").at(2).manner == AskedManner{});
}

TEST_CASE("a chorus may be a passage, by bars or by section, also of a name with a blank") {
    CHECK(only("vamp: bars=1-8").passage == Passage{1, 8});
    CHECK(only("vamp: bars=B").passage == Passage{5, 6});
    CHECK(only("vamp: bars=A@2:1, walking").passage == Passage{3, 3});
    CHECK(only("vamp: roots bars=A@3:1-2").passage == Passage{7, 8});
    CHECK(only("vamp: bars=Coda 1").passage == Passage{9, 9});
    CHECK(only("vamp: bars=Coda 1:1 walking").manner.bass == Bass::walking);
    CHECK(only("vamp: bars=Coda 1, walking").passage == Passage{9, 9});
    CHECK(way("vamp x2: bars=B; head") == "vamp 5-6, vamp 5-6, head 1-9");
}

TEST_CASE("an intro is the last bars of the form, four where no number is written") {
    CHECK(way("intro; head") == "intro 6-9, head 1-9");
    CHECK(way("intro 2; head") == "intro 8-9, head 1-9");
    CHECK(way("Intro 9; head") == "intro 1-9, head 1-9");
    CHECK(stretches("intro 2: drums=hats; head").front().manner.drums == Drums::hats);
    CHECK(stretches("intro 2: silent; head").front().silent);
    const auto short_form = chart::unroll(tests::chart_of({"F6 | C7 | F6"}));
    CHECK(chart::read_road_map(short_form, "intro; head").stretches[0].passage == Passage{1, 3});
}

TEST_CASE("a tag plays the last four bars three times in all, with the chorus's own ending") {
    CHECK(way("head; tag") == "head 1-9, tag 6-9, tag 6-9");
    CHECK(way("head; tag 2") == "head 1-9, tag 6-9");
    CHECK(way("head; tag 4; head; tag 2") ==
          "head 1-9, tag 6-9, tag 6-9, tag 6-9, head 1-9, tag 6-9");
    CHECK(way("solo: bars=1-6; tag 2") == "solo 1-6, tag 3-6");
    CHECK(way("solo: bars=B; tag 2") == "solo 5-6, tag 5-6");
    const auto short_form = chart::unroll(tests::chart_of({"F6 | C7 | F6"}));
    CHECK(chart::read_road_map(short_form, "head; tag 2").stretches[1].passage == Passage{1, 3});
}

TEST_CASE("a tag is played as the chorus before it, but for its own words") {
    const auto all = stretches("head: two-feel drums=brushes; tag 3: walking");
    REQUIRE(all.size() == 3);
    CHECK(all[1] == Stretch{{6, 9}, "tag", {std::nullopt, Drums::brushes, Bass::walking}, false});
    CHECK(stretches("head: roots; tag 2")[1].manner.bass == Bass::roots);
    CHECK(stretches("head: silent; tag 2")[1].silent);
    CHECK(!stretches("head: silent; tag 2: walking")[1].silent);
    CHECK(stretches("head: walking; tag 2: silent")[1].silent);
}

TEST_CASE("a held ending comes after all") {
    const auto road_map = chart::read_road_map(form(), "head; tag 2; held ending");
    CHECK(road_map.held_ending);
    CHECK(road_map.stretches.size() == 2);
    CHECK(chart::read_road_map(form(), "head;Held  Ending").held_ending);
    CHECK(!chart::read_road_map(form(), "head; out").held_ending);
}

TEST_CASE("intro, tag and held ending stand where they can be played") {
    CHECK(error("head; intro 4") ==
          "character 7: an intro stands before everything else: put it first");
    CHECK(begins(error("intro; intro; head"), "character 8: an intro stands before"));
    CHECK(error("tag 3; head") ==
          "character 1: a tag plays the end of a chorus again: put it behind one");
    CHECK(begins(error("intro; tag; head"), "character 8: a tag plays"));
    CHECK(begins(error("head; tag; tag"), "character 12: a tag plays"));
    CHECK(error("head; held ending; tag") ==
          "character 20: nothing follows the held ending: put it last");
    CHECK(error("intro; held ending") ==
          "character 8: a held ending ends a chorus: put one before it");
    CHECK(error("intro 4") ==
          "character 8: an intro and no chorus behind it: write one such as ; "
          "head");
}

TEST_CASE("numbers that intro, tag and times through cannot have are refused with those they can") {
    CHECK(error("intro 10; head") ==
          "character 1: an intro of 10 bars: it is made of the last bars of the "
          "form, write 1 to 9");
    CHECK(begins(error("intro 0; head"), "character 1: an intro of 0 bars"));
    CHECK(error("intro four; head") ==
          "character 7: \"four\" behind intro: write intro and a number of bars, "
          "such as intro 4");
    CHECK(begins(error("intro 4 x2; head"), "character 9: \"x2\" behind intro"));
    CHECK(error("head; tag 1") ==
          "character 7: a tag of 1: it counts how often the last four bars are "
          "played in all, write 2 to 100");
    CHECK(begins(error("head; tag 101"), "character 7: a tag of 101"));
    CHECK(error("head; tag x3") ==
          "character 11: \"x3\" behind tag: write tag and how often the last four "
          "bars are played in all, such as tag 3");
    CHECK(error("solo x0") == "character 6: 0 times through: write x1 to x100");
    CHECK(error("solo x101") == "character 6: 101 times through: write x1 to x100");
    CHECK(error("x2") ==
          "character 1: \"x2\" without a name before it: write one such as solo "
          "x2");
    for (const char* road_map : {"head; solo 2x", "head; solo ×2", "head; solo 2×"}) {
        CHECK(error(road_map) ==
              "character 12: how many times through is written with an x before "
              "it "
              "and no blank, such as solo x2");
    }
    CHECK(begins(error("head; solo x 2"), "character 12: how many times"));
}

TEST_CASE("parts that say nothing are refused") {
    for (const char* road_map : {"", "   ", "\n"}) {
        CHECK(error(road_map) ==
              "character 1: the road map is empty: write what is played, such "
              "as head; "
              "solo x2; head");
    }
    const std::string nothing =
        "a part with nothing in it: write one such as solo x2, or delete the ;";
    CHECK(error("head;") == "character 6: " + nothing);
    CHECK(error("head;; solo") == "character 6: " + nothing);
    CHECK(error("; head") == "character 1: " + nothing);
    CHECK(error("head; : walking") ==
          "character 6: a part without a name: write one before the colon, such "
          "as "
          "head: two-feel");
    CHECK(error("head: ; solo") ==
          "character 5: nothing behind the colon: delete it, or " + what_may_stand);
    CHECK(error("head; held ending: walking") ==
          "character 18: a colon behind held ending: it stands alone");
}

TEST_CASE("names are words, and manner without its colon is not taken for one") {
    CHECK(error("Été 2").empty());
    CHECK(error("Chœur; head!; solo") ==
          "character 12: \"!\" in the name of a part: a name is words of letters, "
          "digits and hyphens such as head or solo, parts have ; between them");
    CHECK(begins(error("head, solo"), "character 5: \",\" in the name"));
    CHECK(begins(error("he\x1b[2J"), "character 3: \"<U+001B>\" in the name"));
    CHECK(begins(error("he\xff"), "character 3: \"<byte FF>\" in the name"));
    CHECK(error("head walking; solo") ==
          "character 6: \"walking\" in the name of a part: how it is played "
          "stands "
          "behind a colon, such as head: walking");
    CHECK(begins(error("head brushes"), "character 6: \"brushes\" in the name"));
    CHECK(error("head brushes").ends_with("such as head: drums=brushes"));
    CHECK(error("head silent").ends_with("such as head: silent"));
    CHECK(error("head bars=A").ends_with("such as head: bars=A"));
    CHECK(error("head ballad x2").ends_with("such as head: feel=ballad"));
    CHECK(error("ballad").empty());
    CHECK(error("held endig") ==
          "character 1: \"held endig\" cannot name a part: did you mean held "
          "ending?");
    CHECK(error(std::string(32, 'a')).empty());
    CHECK(begins(error("head; " + std::string(33, 'a')),
                 "character 7: \"" + std::string(33, 'a') +
                     "\" is too long for a name: at most 32 characters are read"));
}

TEST_CASE("words that say nothing about manner are refused with those that do") {
    CHECK(error("head: walkin") ==
          "character 7: \"walkin\" says nothing about how a part is played (did you mean "
          "walking?): " +
              what_may_stand);
    CHECK(error("head: roots, loud") ==
          "character 14: \"loud\" says nothing about how a part is played: " + what_may_stand);
    CHECK(error("head: brushes") ==
          "character 7: \"brushes\" alone does not say what it is for: write "
          "drums=brushes");
    CHECK(error("head: bossa") ==
          "character 7: \"bossa\" alone does not say what it is for: write "
          "feel=bossa");
    CHECK(error("head: off") ==
          "character 7: \"off\" alone does not say what is: write drums=off, "
          "bass=off, or silent for both");
    CHECK(error("head: drum=ride") ==
          "character 7: \"drum=\" is nothing a part has (did you mean drums?): " + what_may_stand);
    CHECK(error("head: drums=brush") ==
          "character 13: \"brush\" is not a way to play the drums (did you mean brushes?): write "
          "ride, "
          "brushes, hats, quarters or off");
    CHECK(error("head: drums= ride") ==
          "character 13: nothing behind drums=: " + what_may_stand + ", without a blank");
    CHECK(begins(error("head: bass=waltz"), "character 12: \"waltz\" is not a way"));
    CHECK(begins(error("head: feel=hard"), "character 12: \"hard\" is not a feel"));
    CHECK(begins(error("head: walking: roots"), "character 7: \"walking:\" says"));
}

TEST_CASE("what is asked for twice, or asked of a part that cannot have it, is refused") {
    CHECK(error("head: walking roots") ==
          "character 15: two words for the bass of this part: keep one");
    CHECK(error("head: drums=ride drums=ride") ==
          "character 18: two words for the drums of this part: keep one");
    CHECK(begins(error("head: feel=swing feel=bossa"), "character 18: two words"));
    CHECK(error("head: bars=A bars=B") ==
          "character 14: two words for the bars of this part: keep one");
    CHECK(error("head; tag 3: bars=A") ==
          "character 14: the bars of tag are known: write tag and how many");
    CHECK(begins(error("intro: bars=A; head"), "character 8: the bars of intro"));
    CHECK(error("head: silent walking") ==
          "character 7: drums and bass lay out in a part that is silent: delete "
          "silent, or what they should play");
}

TEST_CASE("a passage that is not there is refused with the words for passages") {
    CHECK(error("vamp: bars=C") ==
          "character 12: there is no section \"C\" in the form: it has A, B and "
          "Coda 1");
    CHECK(error("vamp: bars=1-10") == "character 12: there is no bar 10: the form has 9 bars");
    CHECK(begins(error("vamp: bars="), "character 12: no bars are named"));
    CHECK(begins(error("vamp: bars=Coda"), "character 12: there is no section"));
}

TEST_CASE("a road map may last 20,000 bars, and not one more") {
    const auto of = [](int bars) {
        return chart::unroll(
            tests::chart_of(std::vector<std::string>(static_cast<std::size_t>(bars), "F6")));
    };
    CHECK(chart::read_road_map(of(200), "solo x100").times_through() == 100);
    CHECK(error("solo x100; vamp: bars=1", of(200)) ==
          "character 12: here the road map passes 20000 bars, and that many are "
          "played "
          "at most: ask for fewer times through");
    CHECK(begins(error("head; solo x100", of(2000)), "character 7: here the road map"));
}

TEST_CASE(
    "road maps made at random are read as they were meant, and every cut of one is one or not") {
    std::mt19937 random(11);
    const auto below = [&](std::size_t n) { return static_cast<std::size_t>(random() % n); };
    const std::vector<std::pair<std::string, Stretch>> parts = {
        {"head", {{1, 9}, "head", {}, false}},
        {"solo: walking", {{1, 9}, "solo", {{}, {}, Bass::walking}, false}},
        {"Last one:feel=bossa,drums=off",
         {{1, 9}, "Last one", {Feel::bossa, Drums::off, {}}, false}},
        {"vamp: silent bars=Coda 1", {{9, 9}, "vamp", {}, true}},
        {"out : bars=A@2 two-feel", {{3, 4}, "out", {{}, {}, Bass::two_feel}, false}},
    };
    for (int i = 0; i < 100; ++i) {
        std::string road_map;
        std::vector<Stretch> meant;
        for (std::size_t part = 0; part < 1 + below(5); ++part) {
            const auto& [text, stretch] = parts[below(parts.size())];
            const std::size_t times = 1 + below(3);
            const std::size_t colon = std::min(text.find(':'), text.size());
            road_map += (road_map.empty() ? "" : " ; ") + text.substr(0, colon) +
                        (times > 1 ? fmt::format(" x{}", times) : "") + text.substr(colon);
            meant.insert(meant.end(), times, stretch);
        }
        INFO(road_map);
        CHECK(stretches(road_map) == meant);
        for (std::size_t cut = 0; cut < road_map.size(); cut += 1 + below(3)) {
            const auto said = error(road_map.substr(0, cut));
            CHECK((said.empty() || said.starts_with("character ")));
        }
    }
}

TEST_CASE("a chart may have a road map of its own") {
    CHECK(!chart::own_road_map(form()).has_value());
    const auto with_road_map = form("road map: \"head: two-feel; solo x2; tag 2; held ending\"\n");
    CHECK(with_road_map.chart.road_map == "head: two-feel; solo x2; tag 2; held ending");
    CHECK(chart::own_road_map(with_road_map) ==
          chart::read_road_map(form(), with_road_map.chart.road_map));
    CHECK(form("road map: |\n  head; solo\n  x2\n\n").chart.road_map == "head; solo\nx2");
    CHECK(chart::own_road_map(form("road map: |\n  head;\n  solo\n  x2\n"))->times_through() == 3);
    CHECK(form("road map: head; solo  # the usual\n").chart.road_map == "head; solo");
}

TEST_CASE("the key plan of older charts is answered with the word of today") {
    for (const std::string value : {"head; solo", "'head: two-feel'", "~"}) {
        CHECK(tests::problems_of("plan: " + value + "\n" + tests::chart_text("  A: F6\n")) ==
              std::vector<std::string>{"1:1: plan is now road map: write road map:"});
    }
    // Nobody ever wrote it into a section.
    CHECK(begins(tests::problems_of(tests::chart_text("  A: {plan: head, bars: F6}\n")).front(),
                 "6:7: \"plan\" is not a key of a section"));
    CHECK(begins(tests::problems_of("roadmap: head\n" + tests::chart_text("  A: F6\n")).front(),
                 "1:1: \"roadmap\" is not a key of a chart: did you mean road map?"));
}

TEST_CASE("a wrong road map in a chart is found at its character") {
    const auto problems = [](const std::string& road_map) {
        return tests::problems_of("road map: " + road_map + "\n" + tests::chart_text("  A: F6\n"));
    };
    CHECK(problems("'Été; intro 1'") ==
          std::vector<std::string>{"1:17: an intro stands before everything else: put it first"});
    CHECK(problems("head; intro").front().substr(0, 10) == "1:17: an i");
    CHECK(problems("|\n  head;\n  Été; intro").front().substr(0, 10) == "3:8: an in");
    CHECK(problems("\"h\\u00e9ad; intro\"").front().substr(0, 10) == "1:11: an i");
    CHECK(problems("\"\"").front().substr(0, 29) == "1:12: the road map is empty: ");
    CHECK(problems("[head]") ==
          std::vector<std::string>{"1:11: a list where one value was expected"});
    CHECK(problems("~") ==
          std::vector<std::string>{"1:1: \"road map\" has no value: write one behind the colon"});
    CHECK(begins(problems("head: two-feel").front(), "1:15: this is not YAML: a \":\" "));
}

TEST_CASE("a road map is not checked against a form that could not be read") {
    const auto problems = [](const std::string& rest) {
        return tests::problems_of("road map: 'head: bars=C'\ntitle: T\nkey: F\ntempo: 120\n" +
                                  rest);
    };
    const std::vector<std::pair<std::string, std::string>> wrong = {
        {"sections: {A: F6, C: H7}\n", "5:22: \"H7\" is not a chord"},
        {"sections: {A: F6, C: ''}\n", "5:19: section \"C\" has no bars"},
        {"sections: {A: F6, \"C:\": C7}\n", "5:19: \"C:\" cannot name a section"},
        {"form: [A, C]\nsections: {A: F6}\n", "5:11: there is no section \"C\""},
        {"sections: {}\n", "5:11: there is no section: write one"},
        {"sections:\n  A: F6\n  C: \"F6\n", "7:6: the quotes opened here"},
    };
    for (const auto& [rest, problem] : wrong) {
        INFO(rest);
        const auto found = problems(rest);
        REQUIRE(found.size() == 1);
        CHECK(begins(found.front(), problem));
    }
}

TEST_CASE("a road map is said in one line") {
    CHECK(in_words("intro 4; head: two-feel drums=brushes; solo x2; head; tag; held ending") ==
          "intro 4, head (two-feel, brushes), solo twice, head, tag, held ending");
    CHECK(in_words("head: feel=bossa drums=off bass=off; solo x3: silent; vamp: bars=B, roots") ==
          "head (bossa, no bass, no drums), solo 3 times (silent), vamp (bars 5-6, roots)");
    CHECK(in_words("head: roots; tag 5; vamp x2: bars=1") ==
          "head (roots), tag 5 times, vamp twice (bar 1)");
    CHECK(in_words("head: roots; tag: walking") == "head (roots), tag (walking)");
    CHECK(in_words("head; head") == "head twice");
    CHECK(in_words("head: silent; tag") == "head (silent), tag");
    CHECK(in_words("head; tag: silent") == "head, tag (silent)");
}

TEST_CASE("ways without names are said in one line too") {
    const auto words = [](const chart::Way& way) { return chart::road_map_in_words(way, form()); };
    CHECK(words(chart::Way::of({1, 9}, 1)) == "the form");
    CHECK(words(chart::Way::of({1, 9}, 2)) == "the form twice");
    CHECK(words(chart::Way::of({5, 8}, 3)) == "bars 5-8 3 times");
    CHECK(words(chart::Way::of({5, 8}, std::nullopt)) == "bars 5-8 until stopped");
    auto on = chart::read_road_map(form(), "head; solo");
    on.goes_on = true;
    CHECK(words(on) == "head, solo until stopped");
}

TEST_CASE("manners are said in the words that ask for them") {
    CHECK(chart::in_words(AskedManner{}).empty());
    CHECK(chart::in_words({Feel::ballad, Drums::ride, Bass::two_feel}) == "ballad, two-feel, ride");
    for (const auto feel : {Feel::swing, Feel::straight, Feel::bossa, Feel::ballad}) {
        CHECK(chart::read_feel_name(chart::name_of(feel)) == feel);
    }
    for (const auto drums :
         {Drums::ride, Drums::brushes, Drums::hats, Drums::quarters, Drums::off}) {
        CHECK(chart::read_drums_name(chart::name_of(drums)) == drums);
    }
    for (const auto bass : {Bass::walking, Bass::two_feel, Bass::roots, Bass::off}) {
        CHECK(chart::read_bass_wish(chart::name_of(bass)).bass == bass);
        CHECK_FALSE(chart::read_bass_wish(chart::name_of(bass)).plain);
    }
    CHECK(chart::in_words({std::nullopt, std::nullopt, Bass::walking, true}) ==
          "walking, plain bass");
}

TEST_CASE("a bass is asked to be plain beside its name or alone, once") {
    for (const auto* const words : {"walking plain", "plain, walking", "WALKING,Plain"}) {
        const auto wish = chart::read_bass_wish(words);
        CAPTURE(words);
        CHECK(wish.bass == Bass::walking);
        CHECK(wish.plain);
    }
    CHECK(chart::read_bass_wish("plain").plain);
    CHECK_FALSE(chart::read_bass_wish("plain").bass);
    for (const auto* const words :
         {"", " ", ",", "plain plain", "walking roots", "plainly", "walking plain please"}) {
        CAPTURE(words);
        CHECK_THROWS_AS(chart::read_bass_wish(words), text::BadInput);
    }
}

TEST_CASE("who names the bass anew says whether it is plain; who does not leaves it as it is") {
    const AskedManner plain_walk{std::nullopt, std::nullopt, Bass::walking, true};
    CHECK(plain_walk.with({}).plain_bass);
    CHECK(plain_walk.with({Feel::straight, Drums::hats, std::nullopt}).plain_bass);
    CHECK_FALSE(plain_walk.with({std::nullopt, std::nullopt, Bass::walking}).plain_bass);
    CHECK(AskedManner{}.with(plain_walk).plain_bass);
    CHECK(only("head: walking plain").manner == plain_walk);
    CHECK(only("head: bass=walking, plain").manner == plain_walk);
    CHECK(only("head: bass=plain, walking").manner == plain_walk);
    CHECK(only("head: plain").manner.plain_bass);
    CHECK_THROWS_AS(only("head: plain bass=plain"), text::BadInput);
    CHECK_THROWS_AS(only("head: silent plain"), text::BadInput);
}
