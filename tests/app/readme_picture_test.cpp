// README's picture is what the program draws of its demo: the strip of the report's page.

#include "app/program.hpp"
#include "report/page_checks.hpp"
#include "support/golden.hpp"

#include <fmt/format.h>

#include <sstream>

using namespace compline;
using namespace compline::tests;

namespace {

constexpr int piece_width = 400;
constexpr int piece_height = 172;
constexpr int apart = 24;

/// What a page's style says of what is drawn: its colours, and the names that stand in a picture.
std::string style_of_picture(const std::string& page, const std::string& picture) {
    std::istringstream lines(between(page, ":root", "</style>"));
    std::string style;
    bool colours = true;
    for (std::string line; std::getline(lines, line);) {
        if (line.rfind("* {", 0) == 0) colours = false;
        if (line.rfind("@media (max", 0) == 0) break;
        const auto name = line.substr(1, line.find_first_of(", {") - 1);
        const bool is_drawn = line[0] == '.' && contains(picture, "class=\"" + name + "\"");
        if (colours || is_drawn) style += line + "\n";
    }
    return style;
}

/// The rows of the form side by side, each as the page has it.
std::string side_by_side(const std::string& strip, int& count) {
    std::string drawings;
    for (auto at = strip.find("<svg class=\"piece\""); at != std::string::npos;
         at = strip.find("<svg class=\"piece\"", at + 1)) {
        const auto inside = strip.find('>', at) + 1;
        const auto shapes = strip.substr(inside, strip.find("</svg>", at) - inside);
        drawings += fmt::format(
            "<svg x=\"{}\" y=\"0\" width=\"{}\" height=\"{}\" overflow=\"visible\">{}</svg>\n",
            count++ * (piece_width + apart), piece_width, piece_height, shapes);
    }
    return drawings;
}

std::string as_a_file(const std::string& page) {
    const auto strip = section_of(page, "strip");
    int count = 0;
    const auto drawings = side_by_side(strip, count);
    const int width = count * (piece_width + apart) - apart;
    return fmt::format(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"-{0} -{0} {1} {2}\">\n<style>\n{3}"
        "svg {{ fill: var(--ink); font-family: sans-serif; font-size: 20px; }}\n</style>\n"
        "<rect x=\"-{0}\" y=\"-{0}\" width=\"{1}\" height=\"{2}\" style=\"fill: var(--paper)\"/>\n"
        "{4}</svg>\n",
        apart, width + 2 * apart, piece_height + 2 * apart, style_of_picture(page, drawings),
        drawings);
}

}  // namespace

TEST_CASE("README shows the demo along its form, as the program draws it", "[app][page][golden]") {
    const TemporaryFolder place;
    const auto folder = place.file("demo").string();
    REQUIRE(run_compline({"demo", "--folder", folder}).status == 0);
    const auto picture = as_a_file(files::load_text(folder + "/report.html"));
    CHECK(markup_fault(picture) == std::nullopt);
    check_golden(picture, "report/golden/along-the-form.svg");
    CHECK(contains(files::load_text(COMPLINE_SOURCE_DIR "/README.md"),
                   "(tests/report/golden/along-the-form.svg)"));
}
