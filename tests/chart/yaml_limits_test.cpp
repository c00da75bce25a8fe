#include "chart/support.hpp"
#include "support/catch.hpp"
#include "support/temporary_folder.hpp"

#include <compline/chart/chart.hpp>

#include <filesystem>
#include <fstream>
#include <string>

using namespace compline;
using tests::problems_of;
using tests::TemporaryFolder;

namespace {

const std::string head = "title: T\nkey: F\ntempo: 120\n";

std::string repeated(const std::string& text, int times) {
    std::string all;
    for (int i = 0; i < times; ++i) all += text;
    return all;
}

std::string only_problem(const std::string& text) {
    const auto problems = problems_of(text);
    return problems.size() == 1 ? problems.front() : fmt::format("{} problems", problems.size());
}

bool begins(const std::string& text, const std::string& start) {
    return text.substr(0, start.size()) == start;
}

std::string load_error(const std::filesystem::path& path) {
    try {
        (void)chart::load_chart(path);
    } catch (const chart::ChartError& error) {
        return error.what();
    }
    return "";
}

std::filesystem::path write(const TemporaryFolder& folder, const std::string& name,
                            const std::string& bytes) {
    std::ofstream(folder.file(name), std::ios::binary) << bytes;
    return folder.file(name);
}

}  // namespace

TEST_CASE("a chart with CR LF line ends and a byte order mark is the same chart") {
    const std::string unix_text = head + "sections:\n  A: |\n    F6 | D7\n\n    Gm7 | C7\n";
    std::string dos_text = "\xEF\xBB\xBF";
    for (const char c : unix_text) dos_text += c == '\n' ? "\r\n" : std::string(1, c);
    CHECK(chart::read_chart(dos_text, "t") == chart::read_chart(unix_text, "t"));
}

TEST_CASE("places are the same with CR LF line ends, and the byte order mark is no column") {
    CHECK(
        begins(only_problem("\xEF\xBB\xBFtitel: T\r\n" + head + "sections: {A: F6}\r\n"), "1:1:"));
    CHECK(begins(only_problem("\xEF\xBB\xBFtitle: T\r\nkey: H\r\ntempo: 120\r\nsections: {A: F6}"),
                 "2:6: \"H\""));
    CHECK(begins(only_problem("title: T\r\nkey: F\r\ntempo: 120\r\nsections:\r\n  A: |\r\n    B♭ | "
                              "H7\r\n"),
                 "6:10: \"H7\""));
}

TEST_CASE("a file in UTF-16 is named as such") {
    CHECK(begins(only_problem("\xFF\xFEt"), "0:0: the file is written in UTF-16"));
    CHECK(begins(only_problem("\xFE\xFF" + std::string("\0t", 2)), "0:0: the file is written in"));
}

TEST_CASE("aliases that would explode are refused where they stand") {
    std::string text = head + "sections:\n  A: &a F6\n";
    for (char c = 'b'; c <= 'z'; ++c) {
        const std::string one = "*" + std::string(1, static_cast<char>(c - 1));
        text += fmt::format("  {}: &{} [{}]\n", static_cast<char>(c - 'a' + 'A'), c,
                            repeated(one + ", ", 9) + one);
    }
    const auto problems = problems_of(text);
    REQUIRE(problems.size() == 101);
    CHECK(begins(problems[0], "5:6: a YAML anchor"));
    CHECK(begins(problems[2], "6:10: a YAML alias"));
}

TEST_CASE("nesting deeper than eight is refused without following it") {
    const std::string expected =
        "lists and maps nested more than 8 deep: a chart needs four, see "
        "charts/README.md";
    CHECK(only_problem("form: " + repeated("{a: ", 10000)) == "1:35: " + expected);
    CHECK(only_problem(repeated("- ", 10000) + "x") == "1:17: " + expected);
    CHECK(only_problem(repeated("? ", 10000) + "x") == "1:17: " + expected);
    CHECK(only_problem("form: " + repeated("[", 10000) + repeated("]", 10000)) ==
          "1:14: " + expected);
}

TEST_CASE("brackets that open without end are refused in the line they are in") {
    const auto problem = only_problem("form: " + repeated("[", 10000));
    CHECK(begins(problem, "1:"));
    CHECK(problem.find("nested more than 8 deep") != std::string::npos);
}

TEST_CASE("a file of a million values is refused early") {
    CHECK(begins(only_problem("form: [" + repeated("A,", 500000) + "A]\n"),
                 "1:40002: more than 20000 values: no chart needs that many"));
}

TEST_CASE("a chart may have a mebibyte, and not a byte more") {
    const std::string chart = head + "sections: {A: F6}\n";
    const std::string comment = "#" + std::string(chart::most_bytes - chart.size() - 1, 'x');
    CHECK(problems_of(chart + comment).empty());
    CHECK(only_problem(chart + comment + "x") ==
          "0:0: the file is larger than 1048576 bytes: no "
          "chart is, is this the right file?");
}

TEST_CASE("a chart may have 2,000 bars, and not one more") {
    const auto sections = [](int bars) {
        return head + "sections:\n  A: |\n" + repeated("    F6\n", bars) + "\n";
    };
    CHECK(chart::read_chart(sections(2000), "t").sections.front().bars.size() == 2000);
    CHECK(only_problem(sections(2001)) ==
          "2006:5: here begins bar 2001 of the sections as "
          "written: a chart has at most 2000");
    CHECK(only_problem(sections(100000)).substr(0, 7) == "2006:5:");
}

TEST_CASE("a form may be 2,000 bars long, and its length is known without unrolling it") {
    const auto form = [](int times, int bars) {
        return head + "form: [" + repeated("A, ", times - 1) + "A]\nsections:\n  A: |\n" +
               repeated("    F6\n", bars);
    };
    CHECK(chart::read_chart(form(500, 4), "t").form.size() == 500);
    CHECK(only_problem(form(501, 4)) == "4:7: the form is 2004 bars long: at most 2000 are played");
    CHECK(only_problem(form(2001, 1)) ==
          "4:7: the form is 2001 bars long: at most 2000 are played");
    CHECK(only_problem(form(2001, 2000)) ==
          "4:7: the form is 4002000 bars long: at most 2000 are played");
}

TEST_CASE("a file that is no chart file is refused with what it is") {
    const TemporaryFolder folder;
    const auto path = folder.path().string();
    CHECK(load_error(path) == path + ": this is a folder: name the chart in it");
    CHECK(load_error(folder.file("no.yaml")) ==
          path + "/no.yaml: there is no such file: check the name");
    CHECK(load_error("/dev/null") == "/dev/null: this is no ordinary file: a chart is one");
    const auto large = write(folder, "large.yaml", std::string(chart::most_bytes + 1, '#'));
    CHECK(begins(load_error(large), large.string() + ": the file is larger than 1048576 bytes"));
    const auto wrong = write(folder, "wrong.yaml", "title: T\nkey: H\n");
    CHECK(begins(load_error(wrong), wrong.string() + ":1:1: the chart has no \"tempo\""));
}

TEST_CASE("a chart file is read as its text is") {
    const TemporaryFolder folder;
    const std::string text = head + "sections: {A: F6 | D7}\n";
    CHECK(chart::load_chart(write(folder, "tune.yaml", text)) == chart::read_chart(text, "t"));
}

TEST_CASE("a backslash in double quotes that escapes nothing is explained, whatever follows it") {
    // At the end of the file the parser's own words hold a NUL, which no message may.
    for (const auto& tail : {std::string("\\"), std::string("\\q\""), std::string("\\\x01\"")}) {
        for (const auto& problem : problems_of("title: \"Crlf " + tail)) {
            for (const char c : problem) CHECK(static_cast<unsigned char>(c) >= 0x20);
        }
    }
    CHECK(only_problem("title: \"Crlf \\q\"\n").find("use single quotes") != std::string::npos);
}
