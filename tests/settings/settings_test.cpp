// What stands in a settings file, and how a value is changed in it.

#include "support/catch.hpp"

#include <compline/settings/settings.hpp>
#include <compline/text/bad_input.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <random>
#include <sstream>

using namespace compline;
using settings::AllSettings;
using settings::Setting;

namespace {

const settings::KnownKeys& keys() {
    static const settings::KnownKeys known{
        {"out", "tolerance", "rhythm", "tuning", "capo", "pushes", "guitar"}, {"tuning", "capo"}};
    return known;
}

AllSettings read(const std::string& text) {
    return settings::read_settings(text, "s.yaml", keys());
}

std::string refusal(const std::string& text) {
    try {
        (void)read(text);
    } catch (const settings::SettingsError& bad) {
        return bad.what();
    }
    return "taken";
}

std::string with(const std::string& text, const std::string& key, const std::string& value,
                 const std::string& guitar = "") {
    return settings::with_setting(text, "s.yaml", keys(), guitar, {key, value, "", 0});
}

constexpr const char* an_evening = R"(# what I would type each evening
out: USB            # the small box
tolerance: 40
guitar: archtop

guitars:
  # in its case
  archtop: {port: Six, capo: 2}
  baritone:
    tuning: "B1 E2 A2 D3 F#3 B3"   # a fourth down
)";

std::vector<std::string> lines_of(const std::string& text) {
    std::istringstream in(text);
    std::vector<std::string> lines;
    for (std::string line; std::getline(in, line);) lines.push_back(line);
    return lines;
}

}  // namespace

TEST_CASE("settings are texts with their places, a guitar's own apart", "[settings]") {
    const auto settings = read(an_evening);
    REQUIRE(settings.all.size() == 3);
    CHECK(settings.find("out")->value == "USB");
    CHECK(settings.find("out")->place == "s.yaml:2:6");
    CHECK(settings.find("tolerance")->line == 3);
    CHECK(settings.find("rhythm") == nullptr);
    REQUIRE(settings.guitars.size() == 2);
    CHECK(settings.guitar("archtop")->port == "Six");
    CHECK(settings.guitar("archtop")->settings.front().value == "2");
    CHECK(settings.guitar("baritone")->settings.front().value == "B1 E2 A2 D3 F#3 B3");
    CHECK(settings.guitar("baritone")->settings.front().place == "s.yaml:10:13");
    CHECK(settings.guitar("lute") == nullptr);
}

TEST_CASE("a file with nothing in it settles nothing", "[settings]") {
    for (const char* text : {"", "# nothing yet\n", "\n\n", "\xEF\xBB\xBF"}) {
        CHECK(read(text).all.empty());
        CHECK(read(text).guitars.empty());
    }
}

TEST_CASE("what is wrong in a settings file is named with its place and what to do", "[settings]") {
    const std::vector<std::pair<std::string, std::string>> files = {
        {"tolerence: 40\n",
         "s.yaml:1:1: \"tolerence\" is not a key of a settings file: did you mean "
         "tolerance?"},
        {"sound: loud\n",
         "s.yaml:1:1: \"sound\" is not a key of a settings file: the keys are out"},
        {"out: USB\nout: HDMI\n",
         "s.yaml:2:1: \"out\" stands here a second time: the first is in "
         "line 1, keep one of them"},
        {"out:\n", "s.yaml:1:1: \"out\" has no value: write one behind the colon"},
        {"out: [a, b]\n", "s.yaml:1:6: a list where one value was expected"},
        {"out: {a: b}\n", "s.yaml:1:6: a map of keys where one value was expected"},
        {"- out\n", "s.yaml:1:1: a list where settings were expected: write `key: value` lines"},
        {"USB\n", "s.yaml:1:1: a text where settings were expected"},
        {"out: USB #2\n", "s.yaml:1:10: YAML takes the rest of this line for a comment"},
        {"out: *usb\n", "s.yaml:1:6: "},
        {"out: \"USB\n", "s.yaml:"},
        {"\tout: USB\n", "s.yaml:1:1: "},
        {"out: US\x01\n", "s.yaml:1:8: "},
        {"out: \xFF\n", "s.yaml:1:6: "},
        {"guitars: archtop\n", "s.yaml:1:10: a text where guitars were expected: write each as "},
        {"guitars: {archtop: red}\n",
         "s.yaml:1:20: a text where a guitar's settings were expected"},
        {"guitars: {archtop: {out: USB}}\n", "s.yaml:1:21: \"out\" is not a key of a guitar"},
        {"guitars: {a: {capo: 1}, a: {capo: 2}}\n", "s.yaml:1:25: \"a\" stands here a second time"},
        {"guitar: red\n", "s.yaml:1:9: there is no guitar \"red\": no guitars are described yet"},
        {"guitar: archtob\nguitars: {archtop: {capo: 1}}\n",
         "s.yaml:1:9: there is no guitar \"archtob\": there are archtop (did you mean archtop?)"},
        {"out: USB\n---\nout: USB\n", "s.yaml:2:1: "},
    };
    for (const auto& [text, complaint] : files) {
        INFO(text << " -> " << refusal(text));
        CHECK(refusal(text).rfind(complaint, 0) == 0);
    }
    const auto both = refusal("tolerence: 4\nsound: loud\n");
    CHECK(both.find("s.yaml:1:1:") != std::string::npos);
    CHECK(both.find("s.yaml:2:1:") != std::string::npos);
    const auto endless = refusal(std::string(settings::most_bytes + 1, '#'));
    CHECK(endless.rfind("s.yaml: the file is larger than", 0) == 0);
}

TEST_CASE("a setting is changed where it stands, and the comments stay", "[settings]") {
    const auto changed = with(an_evening, "out", "HDMI 2");
    CHECK(lines_of(changed)[1] == "out: HDMI 2            # the small box");
    CHECK(lines_of(changed).size() == lines_of(an_evening).size());
    const auto tuned = with(an_evening, "tuning", "B1 E2 A2 D3 F#3 A3", "baritone");
    CHECK(lines_of(tuned)[9] == "    tuning: \"B1 E2 A2 D3 F#3 A3\"   # a fourth down");
    const auto moved = with(an_evening, "capo", "3", "archtop");
    CHECK(lines_of(moved)[7] == "  archtop: {port: Six, capo: 3}");
}

TEST_CASE("a setting that is new stands with its like", "[settings]") {
    CHECK(with("", "out", "USB") == "out: USB\n");
    CHECK(with("# mine", "out", "USB") == "# mine\nout: USB\n");
    CHECK(with("out: USB", "tolerance", "40") == "out: USB\ntolerance: 40\n");
    CHECK(lines_of(with(an_evening, "rhythm", "1 2&"))[4] == "rhythm: \"1 2&\"");
    CHECK(lines_of(with(an_evening, "capo", "1", "baritone"))[10] == "    capo: 1");
    CHECK(lines_of(with(an_evening, "capo", "1", "lute"))[10] == "  lute: {capo: 1}");
    CHECK(with("out: USB\n", "capo", "1", "lute") == "out: USB\nguitars:\n  lute:\n    capo: 1\n");
    CHECK(with("guitars: {a: {capo: 1}}\n", "capo", "2", "b") ==
          "guitars: {b: {capo: 2}, a: {capo: 1}}\n");
    CHECK(with("guitars:\n  a:\n", "capo", "2", "a") == "guitars:\n  a:\n    capo: 2\n");
}

TEST_CASE("a setting is taken out with its line", "[settings]") {
    CHECK(with("out: USB # box\ntolerance: 40\n", "out", "") == "tolerance: 40\n");
    CHECK(with("out: USB\n", "tolerance", "") == "out: USB\n");
    CHECK(with("guitars:\n  a:\n    capo: 1\n    tuning: x\n", "capo", "", "a") ==
          "guitars:\n  a:\n    tuning: x\n");
}

TEST_CASE("what can only be changed by hand is refused, and nothing is lost", "[settings]") {
    const auto refused = [](const std::string& text, const std::string& key,
                            const std::string& value, const std::string& guitar = "") {
        try {
            return "written: " + with(text, key, value, guitar);
        } catch (const text::BadInput& bad) {
            return std::string(bad.what());
        }
    };
    const std::string by_hand = "it is written so that it can only be changed by hand";
    for (const auto& said :
         {refused("out: |\n  USB\n", "out", "HDMI"), refused("out: a\n  b\n", "out", "HDMI"),
          refused("{out: USB}\n", "out", ""),
          refused("guitars: {a: {capo: 1}}\n", "capo", "", "a")}) {
        INFO(said);
        CHECK(said.find(by_hand) != std::string::npos);
    }
}

TEST_CASE("whatever is set is read back, and every other line stays as it was", "[settings]") {
    std::mt19937 chance(7);
    const auto one_of = [&](const std::vector<std::string>& words) {
        return words[chance() % words.size()];
    };
    const std::vector<std::string> values = {"USB",   "-4", "1 2&", "a: b", "#x", "it's",
                                             "\"q\"", "no", "null", "~",    "[1", "a\\b",
                                             "F♯",    " x", "x ",   "- a",  "{",  "%"};
    std::string text = "# my settings\n";
    AllSettings meant;
    for (int turn = 0; turn < 400; ++turn) {
        const auto guitar = one_of({"", "", "archtop", "it's: #1"});
        const auto key = guitar.empty() ? one_of({"out", "tolerance", "rhythm", "tuning", "capo"})
                                        : one_of({"tuning", "capo"});
        const auto value = chance() % 5 == 0 && guitar.empty() ? "" : one_of(values);
        if (chance() % 4 == 0) text += fmt::format("# remark {}\n", turn);
        CAPTURE(text, guitar, key, value);
        std::string changed;
        try {
            changed = with(text, key, value, guitar);
        } catch (const text::BadInput&) {
            continue;  // by hand
        }
        const auto settings = read(changed);
        const auto* const all = guitar.empty() ? &settings.all : &settings.guitar(guitar)->settings;
        const auto set = std::find_if(all->begin(), all->end(),
                                      [&](const Setting& one) { return one.key == key; });
        CHECK((set == all->end()) == value.empty());
        if (set != all->end()) CHECK(set->value == value);
        for (const auto& line : lines_of(text)) {
            if (line[0] == '#') CHECK(changed.find(line + "\n") != std::string::npos);
        }
        text = changed;
    }
    CHECK(read(text).guitars.size() == 2);
}
