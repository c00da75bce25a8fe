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
    for (const char* command :
         {"check", "show", "plan", "render", "score", "compare", "demo", "devices"}) {
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
    for (const std::string command : {"check", "show", "plan", "render", "score", "compare",
                                      "history", "next", "homework", "demo", "devices"}) {
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
    CHECK(count(run_compline({"show", "--help"}).out) == 10);
    CHECK(count(run_compline({"plan", "--help"}).out) == 28);
    CHECK(longest_line(run_compline({"plan", "--help"}).out) <= 100);
    CHECK(count(run_compline({"render", "--help"}).out) == 30);
    CHECK(count(run_compline({"score", "--help"}).out) == 29);
    CHECK(count(run_compline({"compare", "--help"}).out) == 23);
    CHECK(count(run_compline({"check", "--help"}).out) == 2);
    CHECK(count(run_compline({"demo", "--help"}).out) == 3);
    CHECK(longest_line(run_compline({"score", "--help"}).out) <= 100);
    CHECK(count(run_compline({"history", "--help"}).out) == 7);
    CHECK(longest_line(run_compline({"history", "--help"}).out) <= 100);
    CHECK(count(run_compline({"next", "--help"}).out) == 4);
    CHECK(count(run_compline({"homework", "--help"}).out) == 6);
    CHECK(longest_line(run_compline({"homework", "--help"}).out) <= 100);
}

TEST_CASE("a misspelt command or option is named, with what there is", "[app]") {
    const auto command = run_compline({"chek", "x.yaml"});
    INFO(shown(command));
    CHECK(command.status == 2);
    CHECK(contains(command.err,
                   "there is no command chek (did you mean check?): the commands are practice, "
                   "show, check, plan, render"));
    const auto option = run_compline({"render", blues(), "--temp", "120"});
    INFO(shown(option));
    CHECK(option.status == 2);
    CHECK(contains(option.err, "compline render has no option --temp (did you mean --tempo?)\n"));
    CHECK(contains(option.err, "See compline render --help.\n"));
    const auto surplus = run_compline({"render", blues(), "x.mid", "y.mid"});
    INFO(shown(surplus));
    CHECK(surplus.status == 2);
    CHECK(contains(surplus.err, "compline render does not know what to do with y.mid\n"));
    CHECK(run_compline({"--verbose"}).status == 2);
    CHECK(contains(run_compline({"--verbose"}).err, "compline has no option --verbose\n"));
}

TEST_CASE("a misspelt command is named before the options behind it, with help and without",
          "[app]") {
    for (const auto& words :
         std::vector<std::vector<std::string>>{{"practise", "x.yaml", "--tempo", "3"},
                                               {"practise", "--help"},
                                               {"help", "practise"}}) {
        const auto ran = run_compline(words);
        INFO(shown(ran));
        CHECK(ran.status == 2);
        CHECK(ran.out.empty());
        CHECK(contains(ran.err, "there is no command practise (did you mean practice?)"));
    }
    CHECK_FALSE(contains(run_compline({"banana"}).err, "did you mean"));
}

TEST_CASE("help is a command as well: help alone, and help of each command", "[app]") {
    CHECK(run_compline({"help"}).out == run_compline({"--help"}).out);
    CHECK(run_compline({"help"}).status == 0);
    for (const std::string command :
         {"practice", "show", "check", "plan", "render", "score", "compare", "demo", "devices"}) {
        const auto ran = run_compline({"help", command});
        INFO(shown(ran));
        CHECK(ran.status == 0);
        CHECK(ran.err.empty());
        CHECK(contains(ran.out, "Usage: compline " + command));
        CHECK(ran.out == run_compline({command, "--help"}).out);
    }
    const auto two = run_compline({"help", "show", "check"});
    CHECK(two.status == 2);
    CHECK(contains(two.err, "help takes one command\n"));
}

TEST_CASE("a command tells the version too, whatever else is missing", "[app]") {
    for (const std::string command : {"practice", "render", "devices"}) {
        const auto ran = run_compline({command, "--version"});
        INFO(shown(ran));
        CHECK(ran.status == 0);
        CHECK(ran.out == "compline 0.1.0\n");
        CHECK_FALSE(contains(run_compline({command, "--help"}).out, "--version"));
    }
}

TEST_CASE("an option that has another name now is answered with it", "[app]") {
    const auto refuses = [](const std::vector<std::string>& words, const std::string& answer) {
        const auto ran = run_compline(words);
        INFO(shown(ran));
        CHECK(ran.status == 2);
        CHECK(ran.err.starts_with(answer + "\n"));
    };
    refuses({"practice", blues(), "--passes", "4"}, "--passes is now --times");
    refuses({"practice", blues(), "--plan=head"}, "--plan is now --road-map");
    refuses({"render", blues(), "x.wav", "--choruses=4"}, "--choruses is now --times");
    refuses({"render", "--plan", "head x2", blues(), "x.wav"}, "--plan is now --road-map");
    refuses({"show", blues(), "--plan", "head"}, "compline show has no option --plan");
}

TEST_CASE("a long word is repeated cut, whatever option it was given to", "[app]") {
    const std::string endless(10000, 'x');
    const std::vector<std::string> band{
        "--road-map", "--drums",    "--bass",   "--feel",   "--swing",    "--phrasing", "--click",
        "--silence",  "--count-in", "--hi-hat", "--melody", "--place",    "--mix",      "--pan",
        "--seed",     "--tempo",    "--bars",   "--times",  "--voicings", "--rate"};
    const auto is_short = [](const std::vector<std::string>& words) {
        const auto ran = run_compline(words);
        INFO(shown(ran).substr(0, 500));
        CHECK(ran.status == 2);
        CHECK_FALSE(contains(ran.err, std::string(50, 'x')));
        CHECK(contains(ran.err, std::string(30, 'x')));
    };
    for (const auto& option : band) is_short({"render", blues(), "x.mid", option, endless});
    is_short({"render", blues(), "x.wav", "--bits", endless});
    for (const std::string option :
         {"--style", "--strings", "--right-hand", "--root", "--near", "--position", "--strictness",
          "--tuning", "--capo", "--frets", "--alternatives", "--paper", "--html", "--svg"}) {
        is_short({"plan", blues(), option, endless});
    }
    for (const std::string option : {"--offset", "--tolerance", "--rhythm", "--strictness",
                                     "--against", "--midi-pickup", "--chart"}) {
        is_short({"score", "t.mid", "--chart", option == "--chart" ? endless : blues(),
                  option == "--chart" ? "--offset" : option, option == "--chart" ? "1" : endless});
    }
    for (const std::string option : {"--period", "--take"}) {
        is_short({"practice", blues(), option, endless});
    }
    is_short({"show", "--tones", endless});
    is_short({"check", endless});
    is_short({"render", blues(), endless});
    is_short({"demo", "--folder", endless});
    is_short({endless});
    is_short({"show", "--" + endless});
    is_short({"plan", blues(), endless});
    is_short({"render", blues(), "x.mid", "--voicings", "strings=" + endless});
    is_short({"render", blues(), "x.mid", "--voicings", "style=" + endless});
}

TEST_CASE("a value that makes no sense is answered with its option once, and with what does",
          "[app]") {
    const auto said = [](const std::vector<std::string>& words) {
        const auto ran = run_compline(words);
        CHECK(ran.status == 2);
        return ran.err;
    };
    CHECK(
        said({"render", blues(), "x.mid", "--hi-hat", "1/2"}) ==
        "--hi-hat \"1/2\": the foot closes on beats of every bar: write 1 to 4, such as \"2 4\"\n");
    CHECK(said({"plan", blues(), "--tuning", "E2 A2 H D3"}) ==
          "--tuning \"E2 A2 H D3\": character 7: \"H\" is no note with an octave: write such as "
          "E2, Bb1 or F#3\n");
    CHECK(said({"show", "--tones", "Cmaj7x"}).starts_with("--tones Cmaj7x: \"Cmaj7x\" is not a"));
}

TEST_CASE("what is needed and missing is named", "[app]") {
    const auto out = run_compline({"render", blues()});
    CHECK(out.status == 2);
    CHECK(contains(out.err, "OUT is required"));
    const auto take = run_compline({"score"});
    CHECK(take.status == 2);
    CHECK(contains(take.err, "TAKE is required"));
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
        for (const std::string value : {"maybe", "3", "true", "false", ""}) {
            const auto refused = run_compline({"render", blues(), "x.wav", option + "=" + value});
            INFO(shown(refused));
            CHECK(refused.status == 2);
            CHECK(refused.err == option + " takes no value\nSee compline render --help.\n");
        }
    }
}

TEST_CASE("a command line with control characters is quoted safely", "[app]") {
    const auto ran = run_compline({"render", "a.yaml", "b.mid", "--\x1B[31mred"});
    INFO(shown(ran));
    CHECK(ran.status == 2);
    CHECK(is_safe(ran.err));
    CHECK(contains(ran.err, "<U+001B>[31mred"));
}

TEST_CASE("what a pedal cannot be asked to do is refused before any device is looked for",
          "[app]") {
    const auto refused = [](std::vector<std::string> options) {
        options.insert(options.begin(), {"practice", blues()});
        const auto ran = run_compline(options);
        INFO(shown(ran));
        CHECK(ran.status == 2);
        CHECK(ran.out.empty());
        return ran.err;
    };
    CHECK(contains(refused({"--pedal", "64=loop hear"}),
                   "--pedal \"64=loop hear\": character 4: \"loop hear\" is no command (did you "
                   "mean loop here?): write loop here, leave the loop, "));
    CHECK(
        contains(refused({"--pedal", "64=pause, 64=stop"}), "controller 64 has a command already"));
    CHECK(contains(refused({"--pedal", "128=stop"}), "\"128\" is no number on a MIDI cable"));
    CHECK(contains(refused({"--pedal", "64="}), "there is nothing behind 64="));
    CHECK(contains(refused({"--pedal-in", "foot"}),
                   "--pedal-in says where the pedal is, not what it asks for: write --pedal "));
    CHECK(contains(refused({"--pedal", "64=stop", "--in", "none"}),
                   "nobody listens to the guitar's port: say where the pedal is by --pedal-in"));
}

TEST_CASE("devices is no failure where there are none", "[app][live]") {
    const auto ran = run_compline({"devices"});
    INFO(shown(ran));
    CHECK(ran.status == 0);
    CHECK(contains(ran.out, "Audio outputs\n"));
    CHECK(contains(ran.out, "MIDI inputs\n"));
    const auto priority = ran.out.find("Real-time priority\n  ");
    REQUIRE(priority != std::string::npos);
    CHECK(contains(ran.out, "  granted: ") != contains(ran.out, "  not granted: "));
    CHECK(contains(ran.out, "not granted") == contains(ran.out, "@audio - rtprio 95"));
}
