// compline check: a line a chart, and every problem named.

#include "app/program.hpp"

using namespace compline::tests;

TEST_CASE("check says what is in each chart, a line a file", "[app]") {
    const auto ran = run_compline({"check", blues(), our_chart("waltz-for-a-leaning-chimney")});
    INFO(shown(ran));
    CHECK(ran.status == 0);
    CHECK(ran.err.empty());
    CHECK(ran.out == blues() +
                         ": Blue Kettle on the Back Stairs · F · 4/4 · 132 bpm · swing auto, "
                         "2.58:1 · 12 bars · 16 changes\n" +
                         our_chart("waltz-for-a-leaning-chimney") +
                         ": Waltz for a Leaning Chimney · G · 3/4 · 150 bpm · swing auto, 2.40:1 · "
                         "32 bars · 33 changes\n");
}

TEST_CASE("one bad chart among several gives status 2, and the good ones are still listed",
          "[app]") {
    const TemporaryFolder folder;
    const auto bad =
        text_file(folder, "bad.yaml", "title: x\nkey: F\ntempo: 132\nsections:\n  A: F7 | Bx7\n");
    const auto ran = run_compline({"check", blues(), bad, our_chart("three-lamps-on-weir-lane")});
    INFO(shown(ran));
    CHECK(ran.status == 2);
    CHECK(contains(ran.out, "Blue Kettle on the Back Stairs"));
    CHECK(contains(ran.out, "Three Lamps on Weir Lane"));
    CHECK_FALSE(contains(ran.out, "bad.yaml"));
    CHECK(contains(ran.err, bad + ":5:12: \"Bx7\" is not a chord: "));
}

TEST_CASE("check reads a chart in another key, and refuses a key that is none", "[app]") {
    const auto ran = run_compline({"check", blues(), "--key", "G"});
    INFO(shown(ran));
    CHECK(ran.status == 0);
    CHECK(contains(ran.out, " · G (written in F) · "));
    CHECK(run_compline({"check", blues(), "--transpose", "2"}).out == ran.out);
    const auto none = run_compline({"check", blues(), "--key", "H"});
    CHECK(none.status == 2);
    CHECK(contains(none.err, "--key"));
}

TEST_CASE("check names a file that is not there, a folder, an empty file and a MIDI file",
          "[app]") {
    const TemporaryFolder folder;
    const std::string dir = folder.path().string();
    const auto ran =
        run_compline({"check", dir + "/nowhere.yaml", dir, text_file(folder, "e.yaml", ""),
                      text_file(folder, "m.mid", std::string("MThd\0\0\0\6", 8))});
    INFO(shown(ran));
    CHECK(ran.status == 2);
    CHECK(ran.out.empty());
    CHECK(contains(ran.err, "nowhere.yaml: there is no such file"));
    CHECK(contains(ran.err, dir + ": this is a folder"));
    CHECK(contains(ran.err, "e.yaml"));
    CHECK(contains(ran.err, "m.mid"));
}

TEST_CASE("whatever reads a chart says which of its sections is never played", "[app]") {
    const TemporaryFolder folder;
    const auto file = text_file(
        folder, "c.yaml", "title: T\nkey: F\ntempo: 132\nform: [A]\nsections:\n  A: F7\n  B: C7\n");
    for (const char* command : {"check", "show", "plan"}) {
        const auto ran = run_compline({command, file});
        INFO(shown(ran));
        CHECK(ran.status == 0);
        CHECK(contains(ran.err, "c.yaml: section \"B\" is never played: name it in `form`"));
    }
}

TEST_CASE("a name that goes over two lines is printed on one", "[app]") {
    const TemporaryFolder folder;
    const std::string chart = "title: T\nkey: F\ntempo: 132\nsections:\n  A: F7\n";
    const auto good = run_compline({"check", text_file(folder, "a\nb.yaml", chart)});
    INFO(shown(good));
    CHECK(good.status == 0);
    CHECK(contains(good.out, "a<U+000A>b.yaml: T"));
    for (const auto& words : {std::vector<std::string>{"check", "x\ny.yaml"},
                              {"score", "x\ny.mid", "--chart", blues()},
                              {"render", blues(), "x\ny.txt"},
                              {"render", blues(), "no\nfolder/y.mid"}}) {
        const auto bad = run_compline(words);
        INFO(shown(bad));
        CHECK(bad.status != 0);
        CHECK(contains(bad.err, "<U+000A>"));
    }
}

TEST_CASE("a chart can come by the standard input, and its mistakes have their places", "[app]") {
    const TemporaryFolder folder;
    const auto from = [](const std::string& file, const std::vector<std::string>& words) {
        return run(command_line(words) + " 2>&1 <" + shell_quote(file));
    };
    CHECK(from(blues(), {"check", "-"}).output ==
          "standard input: Blue Kettle on the Back Stairs · F · 4/4 · 132 bpm · swing auto, "
          "2.58:1 · 12 bars · 16 changes\n");
    const auto bad =
        text_file(folder, "bad.yaml", "title: x\nkey: F\ntempo: 132\nsections:\n  A: F7 | Bx7\n");
    const auto refused = from(bad, {"check", "-"});
    CHECK(refused.status == 2);
    CHECK(contains(refused.output, "standard input:5:12: \"Bx7\" is not a chord: "));
    const auto large = text_file(folder, "large.yaml", std::string((1 << 20) + 1, '#'));
    CHECK(contains(from(large, {"check", "-"}).output, "standard input: the file is larger than"));
    CHECK(from(folder.path().string(), {"check", "-"}).status == 2);
    for (const std::string command : {"show", "plan"}) {
        const auto same = run_compline({command, blues(), "--bars", "1-4"}).out;
        CHECK(from(blues(), {command, "-", "--bars", "1-4"}).output == same);
    }
    const auto out = folder.file("x.mid").string();
    CHECK(from(blues(), {"render", "-", out, "--times", "2"}).status == 0);
    CHECK(std::filesystem::exists(out));
    const auto keys = from(blues(), {"practice", "-", "--in", "none"});
    CHECK(keys.status == 2);
    CHECK(contains(keys.output, "give the chart as a file"));
}

TEST_CASE("names and contents of files never steer the terminal", "[app]") {
    const TemporaryFolder folder;
    const auto odd = text_file(folder, "red\x1B[31m.yaml", "title: \"a\x1B[31mb\"\n");
    const auto fine = text_file(folder, "blue\x1B[34m.yaml", compline::files::load_text(blues()));
    const auto ran = run_compline({"check", odd, fine, "no\x07such.yaml"});
    INFO(shown(ran));
    CHECK(ran.status == 2);
    CHECK(is_safe(ran.out));
    CHECK(is_safe(ran.err));
    CHECK(contains(ran.out, "blue<U+001B>[34m.yaml: Blue Kettle"));
    CHECK(contains(ran.err, "red<U+001B>[31m.yaml:1:10: "));
}

TEST_CASE("results that cannot be written are status 1 with words", "[app]") {
    if (!std::filesystem::exists("/dev/full")) {
        WARN("SKIPPED: no /dev/full here");
        return;
    }
    const TemporaryFolder folder;
    for (const auto& arguments : std::vector<std::vector<std::string>>{
             {"check", blues()},
             {"--help"},
             {"render", blues(), folder.file("x.mid").string()},
             {"demo", "--folder", folder.file("demo").string()}}) {
        const auto ran = run(command_line(arguments) + " 2>&1 >/dev/full");
        INFO(ran.output);
        CHECK(ran.status == 1);
        CHECK(contains(ran.output, "could not be written"));
    }
}
