// Each picture of the pages of weeks and of homework as a golden file, to be looked at when it
// changes.

#include "report/page_checks.hpp"
#include "report/planned.hpp"
#include "report/some_evenings.hpp"
#include "support/catch.hpp"
#include "support/golden.hpp"

#include <compline/report/weeks_page.hpp>

using namespace compline;
using namespace compline::tests;

namespace {

void check_section(const std::string& page, const std::string& name, const std::string& golden) {
    check_golden(section_of(page, name) + "</section>\n", "report/golden/page-" + golden + ".html");
}

std::string tune_page() { return report::tune_html(twelve_evenings(), {}, asked_by("")); }

std::string sheet_page() {
    return report::homework_html(
        {homework_of("Anna"), lantern_form(), all_alike(lantern_form(), chart::Passage{9, 12}),
         report::Hand::right, true},
        asked_by("Anna"));
}

}  // namespace

TEST_CASE("the picture of the evenings is the golden file", "[report][page][golden]") {
    check_section(tune_page(), "trend", "evenings");
}

TEST_CASE("the picture of what each bar costs is the golden file", "[report][page][golden]") {
    check_section(tune_page(), "bars", "bars");
}

TEST_CASE("the pictures of the weakest places are the golden file", "[report][page][golden]") {
    check_section(tune_page(), "weakest", "weakest");
}

TEST_CASE("the picture of weeks by tempo is the golden file", "[report][page][golden]") {
    check_section(tune_page(), "bytempo", "weeks-by-tempo");
}

TEST_CASE("the bars of homework are the golden file", "[report][page][golden]") {
    check_section(sheet_page(), "passage", "passage");
}

TEST_CASE("the grips of homework are the golden file", "[report][page][golden]") {
    check_section(sheet_page(), "grips", "homework-grips");
}
