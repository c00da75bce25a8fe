// Command lines as people type them: help, misspellings, statuses.

#include "app/program.hpp"

#include <sstream>

using namespace compline::tests;

namespace {

std::size_t longest_line(const std::string& text) {
    std::size_t longest = 0;
    std::istringstream in(text);
    for (std::string line; std::getline(in, line);) longest = std::max(longest, line.size());
    return longest;
}

}  // namespace

TEST_CASE("compline alone shows what it can do, and status 2", "[app]") {
    const auto ran = run_compline({});
    INFO(shown(ran));
    CHECK(ran.status == 2);
    CHECK(ran.out.empty());
    for (const char* command : {"check", "show", "plan", "render", "score", "demo", "devices"}) {
        CHECK(contains(ran.err, command));
    }
}

TEST_CASE("help goes to the standard output with status 0", "[app]") {
    const auto ran = run_compline({"--help"});
    INFO(shown(ran));
    CHECK(ran.status == 0);
    CHECK(ran.err.empty());
    CHECK(contains(ran.out, "Usage: compline [OPTIONS] [COMMAND]"));
    CHECK(contains(ran.out, "\nCommands:\n"));
    CHECK(contains(ran.out, "compline COMMAND --help says more"));
    CHECK(run_compline({"--version"}).out == "compline 0.1.0\n");
}

TEST_CASE("the help of every command names each option's default", "[app]") {
    for (const std::string command :
         {"check", "show", "plan", "render", "score", "demo", "devices"}) {
        const auto ran = run_compline({command, "--help"});
        INFO(shown(ran));
        CHECK(ran.status == 0);
        CHECK(contains(ran.out, "Usage: compline " + command));
        CHECK_FALSE(contains(ran.out, "TEXT"));
    }
    const auto count = [](const std::string& text) {
        std::size_t n = 0;
        for (auto at = text.find("Default: "); at != std::string::npos;
             at = text.find("Default: ", at + 1)) {
            ++n;
        }
        return n;
    };
    CHECK(count(run_compline({"show", "--help"}).out) == 1);
    CHECK(count(run_compline({"plan", "--help"}).out) == 23);
    CHECK(longest_line(run_compline({"plan", "--help"}).out) <= 100);
    CHECK(count(run_compline({"render", "--help"}).out) == 25);
    CHECK(count(run_compline({"score", "--help"}).out) == 10);
    CHECK(count(run_compline({"demo", "--help"}).out) == 3);
    CHECK(longest_line(run_compline({"score", "--help"}).out) <= 100);
}

TEST_CASE("a misspelt command or option is named, with what there is", "[app]") {
    const auto command = run_compline({"chek", "x.yaml"});
    INFO(shown(command));
    CHECK(command.status == 2);
    CHECK(
        contains(command.err,
                 "there is no command chek: the commands are practice, show, check, plan, render"));
    const auto option = run_compline({"render", blues(), "--temp", "120"});
    INFO(shown(option));
    CHECK(option.status == 2);
    CHECK(contains(option.err, "compline render has no option --temp\n"));
    CHECK(contains(option.err, "See compline render --help.\n"));
    const auto surplus = run_compline({"render", blues(), "x.mid", "y.mid"});
    INFO(shown(surplus));
    CHECK(surplus.status == 2);
    CHECK(contains(surplus.err, "compline render does not know what to do with y.mid\n"));
    CHECK(run_compline({"--verbose"}).status == 2);
    CHECK(contains(run_compline({"--verbose"}).err, "compline has no option --verbose\n"));
}

TEST_CASE("what is needed and missing is named", "[app]") {
    const auto out = run_compline({"render", blues()});
    CHECK(out.status == 2);
    CHECK(contains(out.err, "OUT is required"));
    const auto chart = run_compline({"score", "take.mid"});
    CHECK(chart.status == 2);
    CHECK(contains(chart.err, "--chart is required"));
    CHECK(run_compline({"check"}).status == 2);
    for (const auto& options : std::vector<std::vector<std::string>>{
             {"score", "t.mid", "--chart"}, {"score", "t.mid", "--chart", "a", "--chart", "b"}}) {
        const auto ran = run_compline(options);
        INFO(shown(ran));
        CHECK(ran.status == 2);
        CHECK(contains(ran.err, "--chart takes one value, once\nSee compline score --help.\n"));
    }
}

TEST_CASE("an option that takes no value says so when it gets one", "[app]") {
    const auto ran = run_compline({"show", blues(), "--bars", "1", "--json=maybe"});
    CHECK(contains(ran.err, "compline show has no option --json"));
    for (const std::string option : {"--replace", "--mono", "--fills"}) {
        const auto refused = run_compline({"render", blues(), "x.wav", option + "=maybe"});
        INFO(shown(refused));
        CHECK(refused.status == 2);
        CHECK(refused.err == option + " takes no value\nSee compline render --help.\n");
    }
}

TEST_CASE("a command line with control characters is quoted safely", "[app]") {
    const auto ran = run_compline({"render", "a.yaml", "b.mid", "--\x1B[31mred"});
    INFO(shown(ran));
    CHECK(ran.status == 2);
    CHECK(is_safe(ran.err));
    CHECK(contains(ran.err, "<U+001B>[31mred"));
}

TEST_CASE("devices is no failure where there are none", "[app][live]") {
    const auto ran = run_compline({"devices"});
    INFO(shown(ran));
    CHECK(ran.status == 0);
    CHECK(contains(ran.out, "Audio outputs\n"));
    CHECK(contains(ran.out, "MIDI inputs\n"));
}
