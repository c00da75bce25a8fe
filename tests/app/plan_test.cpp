// compline plan: voicings in words, as JSON and as a page; what is refused.

#include "app/program.hpp"
#include "support/markup.hpp"
#include "support/schema.hpp"

#include <nlohmann/json.hpp>

using namespace compline;
using namespace compline::tests;

namespace {

Ran plan(std::vector<std::string> options) {
    options.insert(options.begin(), {"plan", blues()});
    return run_compline(options);
}

void refuses(const std::vector<std::string>& options, const std::string& words) {
    const auto ran = plan(options);
    INFO(shown(ran));
    CHECK(ran.status == 2);
    CHECK(ran.out.empty());
    CHECK(contains(ran.err, words));
}

}  // namespace

TEST_CASE("plan says how to play a tune", "[app]") {
    const auto ran = plan({});
    INFO(shown(ran));
    CHECK(ran.status == 0);
    CHECK(ran.err.empty());
    CHECK(contains(ran.out, "Blue Kettle on the Back Stairs   F   4/4   132 bpm\n"));
    CHECK(contains(ran.out, "One time through, and back to the top\n  changes      16; in "));
    CHECK(is_safe(ran.out));
}

TEST_CASE("plan takes bars, a tempo and all that can be wished of voicings", "[app]") {
    const auto ran = plan({"--bars",
                           "9-12",
                           "--tempo",
                           "96.5",
                           "--style",
                           "mixed",
                           "--strings",
                           "any",
                           "--right-hand",
                           "fingers",
                           "--root",
                           "bottom",
                           "--near",
                           "5",
                           "--position",
                           "12",
                           "--open",
                           "--thumb",
                           "--moving",
                           "--strictness",
                           "written",
                           "--tuning",
                           "E2 A2 D3 G3 B3 E4",
                           "--capo",
                           "0",
                           "--frets",
                           "24",
                           "--alternatives",
                           "1",
                           "--json"});
    INFO(shown(ran));
    REQUIRE(ran.status == 0);
    const auto json = nlohmann::json::parse(ran.out);
    CHECK(json["chart"]["tempo_bpm"] == 96.5);
    CHECK(json["passage"]["from_bar"] == 9);
    CHECK(json["guitar"]["frets"] == 24);
    CHECK(json["wishes"]["right_hand"] == "fingers");
    CHECK(json["wishes"]["root"] == "bottom");
    CHECK(json["wishes"]["near"] == 5);
    CHECK(json["wishes"]["position"] == 12);
    CHECK(json["wishes"]["strictness"] == "written");
    CHECK(json["wishes"]["open"] == true);
    CHECK(json["wishes"]["thumb"] == true);
    CHECK(json["wishes"]["moving"] == true);
}

TEST_CASE("plan's JSON agrees with its schema, for each of our charts", "[app]") {
    if (!outside_python_module("jsonschema")) return;
    std::vector<std::string> all;
    for (const char* name : {"five-stiles-to-the-mill", "waltz-for-a-leaning-chimney"}) {
        const auto ran = run_compline({"plan", our_chart(name), "--json"});
        INFO(shown(ran));
        REQUIRE(ran.status == 0);
        all.push_back(ran.out);
    }
    const auto checked = check_schema(all, "voicings-1.schema.json");
    INFO(checked.output);
    CHECK(checked.status == 0);
}

TEST_CASE("plan shows the line of guide tones where it is asked for", "[app]") {
    const auto shown_line = run_compline({"plan", blues(), "--guide-tones"});
    INFO(shown(shown_line));
    CHECK(shown_line.status == 0);
    CHECK(contains(shown_line.out, "\nGuide tones, on strings 4 and 3 (4 first)\n"));
    CHECK(contains(shown_line.out, "voices that go on"));
    CHECK_FALSE(contains(run_compline({"plan", blues()}).out, "Guide tones"));
    const auto json = run_compline({"plan", blues(), "--guide-tones", "--json"});
    CHECK(contains(json.out, "\"guide_tones\": {"));
    refuses({"--guide-tones", "--html", "x.html"},
            "--guide-tones is shown in words and JSON; a page of the line is made with --style "
            "guide-tones");
}

TEST_CASE("plan writes a page and says so in a line", "[app]") {
    const TemporaryFolder folder;
    const auto html = folder.file("blues.html").string();
    const auto svg = folder.file("blues.svg").string();
    const auto ran = plan({"--html", html, "--svg", svg, "--paper", "letter", "--left-handed"});
    INFO(shown(ran));
    CHECK(ran.status == 0);
    CHECK(ran.out ==
          html + ": voicings for bars 1-12 of Blue Kettle on the Back Stairs, 16 changes\n" + svg +
              ": voicings for bars 1-12 of Blue Kettle on the Back Stairs, 16 changes\n");
    CHECK(contains(files::load_text(html), "size: 215.9mm 279.4mm"));
    CHECK(markup_fault(files::load_text(html)).value_or("").empty());
    CHECK(markup_fault(files::load_text(svg)).value_or("").empty());
    // With --json the standard output is JSON alone.
    const auto both = plan({"--html", html, "--replace", "--json"});
    CHECK(nlohmann::json::accept(both.out));
}

TEST_CASE("plan keeps a file that is there, unless told to replace it", "[app]") {
    const TemporaryFolder folder;
    for (const std::string option : {"--html", "--svg"}) {
        const auto out = text_file(folder, "x" + option, "mine");
        const auto ran = plan({option, out});
        INFO(shown(ran));
        CHECK(ran.status == 2);
        CHECK(contains(ran.err, out + " is there already: give another name, or --replace"));
        CHECK(files::load_text(out) == "mine");
        CHECK(plan({option, out, "--replace"}).status == 0);
        CHECK(files::load_text(out) != "mine");
    }
    const auto chart =
        text_file(folder, "c.yaml", "title: C\nkey: C\ntempo: 100\nsections:\n  A: C6\n");
    const auto over = run_compline({"plan", chart, "--html", chart, "--replace"});
    CHECK(over.status == 2);
    CHECK(contains(over.err, "that is the chart"));
    const auto same = folder.file("same").string();
    refuses({"--html", same, "--svg", same}, "--html and --svg both name");
    CHECK_FALSE(std::filesystem::exists(same));
}

TEST_CASE("plan where nothing can be written is status 1 with the reason", "[app]") {
    const TemporaryFolder folder;
    const auto ran = plan({"--html", folder.file("no/such/x.html").string()});
    INFO(shown(ran));
    CHECK(ran.status == 1);
    CHECK(ran.out.empty());
    CHECK(contains(ran.err, "x.html"));
}

TEST_CASE("plan says what it cannot take", "[app]") {
    CHECK(run_compline({"plan"}).status == 2);
    refuses({"--bars", "9-99"}, "--bars 9-99: there is no bar 99: the form has 12 bars");
    refuses({"--tempo", "fast"}, "--tempo fast: expected a number from 30 to 400");
    refuses({"--alternatives", "0"}, "--alternatives 0: expected a number from 1 to 20");
    refuses({"--alternatives", "1.5"}, "expected a whole number from 1 to 20");
    refuses({"--paper", "a5", "--html", "x"}, "--paper a5: expected a4 or letter");
    refuses({"--paper", "a4"}, "--paper is for a page: give --html or --svg too");
    const auto nowhere = run_compline({"plan", "/no/such.yaml"});
    CHECK(nowhere.status == 2);
}

TEST_CASE("a wish for voicings that cannot be met is named, with what would do", "[app]") {
    refuses({"--strings", "5422"}, "--strings 5422: string 2 is there twice: write each once");
    refuses({"--strings", "75"}, "--strings 75: there is no string 7: the guitar has 6");
    refuses({"--strings", "5-2"}, "--strings 5-2: write the strings' numbers, such as 5432");
    refuses({"--strings", "4"}, "--strings 4: a voicing needs two strings and more");
    refuses({"--style", "drop"},
            "--style drop: expected mixed, shells, guide-tones, one-colour, four-note or rootless");
    refuses({"--right-hand", "thumb"}, "--right-hand thumb: expected pick or fingers");
    refuses({"--root", "yes"}, "--root yes: expected bottom, anywhere or above");
    refuses({"--near", "23"}, "--near 23: expected a number from 0 to 22");
    refuses({"--near", "20", "--capo", "3"}, "--near 20: expected a number from 0 to 19");
    refuses({"--position", "2"}, "--position 2: expected a number from 3 to 24");
    refuses({"--frets", "11"}, "--frets 11: expected a number from 12 to 36");
    refuses({"--capo", "12"}, "--capo 12: expected a number from 0 to 11");
    refuses({"--capo", "10", "--frets", "12"}, "--capo 10: that leaves 2 of 12 frets");
    refuses({"--strictness", "lax"}, "expected written, working or substitutions");
    refuses({"--tuning", "E2 A2 D3"}, "--tuning \"E2 A2 D3\": 3 strings: write 4 to 8 notes");
    refuses({"--tuning", "E A D G B E"}, "character 1: \"E\" is no note with an octave");
    refuses({"--tuning", "E2 A2 D3 G9"}, "string 1 is too high for 22 frets");
}
