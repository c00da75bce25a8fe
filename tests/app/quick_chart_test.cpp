// Charts without a chart file: changes that are typed, and a chart to begin with.

#include "app/quick_chart.hpp"

#include "app/program.hpp"

#include <compline/chart/form.hpp>
#include <compline/chart/write_chart.hpp>

using namespace compline;
using namespace compline::tests;

namespace {

std::string key_of(const std::string& changes) {
    return app::chart_of_changes(changes).key.name(harmony::Accidentals::letters);
}

std::string refusal(const std::string& changes) {
    try {
        (void)app::chart_of_changes(changes);
    } catch (const text::BadInput& error) {
        return error.what();
    }
    return "";
}

}  // namespace

TEST_CASE("changes that are typed are a tune of one section, in the key that they come home to") {
    const auto chart = app::chart_of_changes("Dm7 | G7 | Cmaj7 | A7b9");
    CHECK(chart.title == "Dm7 | G7 | Cmaj7 | A7b9");
    CHECK(chart.sections.front().bars.size() == 4);
    CHECK(chart::read_chart(chart::write_chart(chart), "t") == chart);
    CHECK(key_of("Dm7 | G7 | Cmaj7 | A7b9") == "C");
    CHECK(key_of("Em7b5 | A7b9 | Dm6 | %") == "Dm");
    CHECK(key_of("Fm7 Bb7 | Eb6") == "Eb");
    CHECK(key_of("F7 | Bb7 | F7 | C7") == "F");  // no tonic among them: the first
    CHECK(key_of("N.C.") == "C");
}

TEST_CASE("what cannot be read in typed changes is named by its place in them") {
    CHECK(refusal("Dm7 | Hx7").find("--changes: character 7: ") == 0);
    CHECK(refusal("").find("--changes") == 0);
    CHECK(refusal("Dm7 \" | G7").find("--changes") == 0);
}

TEST_CASE("practice takes a chart or changes, and bars or what lies around one", "[app]") {
    const auto blues =
        std::string(COMPLINE_SOURCE_DIR "/charts/blue-kettle-on-the-back-stairs.yaml");
    const auto refused = [&](std::vector<std::string> words) {
        words.insert(words.begin(), "practice");
        const auto ran = run_compline(words);
        CHECK(ran.status == 2);
        return ran.err;
    };
    CHECK(contains(refused({}), "practice needs a chart, or changes such as --changes"));
    CHECK(contains(refused({blues, "--changes", "C6"}), "leave out one of them"));
    CHECK(contains(refused({blues, "--around", "13"}),
                   "--around 13: there is no bar 13: the form has 12 bars"));
    CHECK(contains(refused({blues, "--around", "2", "--bars", "1-4"}), "leave out one of them"));
    CHECK(contains(refused({"--changes", "Dm7 | Q"}), "--changes: character 7: "));
}

TEST_CASE("new writes a chart that can be checked, and no second time", "[app]") {
    const TemporaryFolder folder;
    const auto path = folder.file("the-long_way.yaml").string();
    const auto name = folder.file("the-long_way").string();
    const auto ran = run_compline({"new", name, "--key", "F#m", "--meter", "6/8", "--bars", "12"});
    INFO(shown(ran));
    CHECK(ran.status == 0);
    CHECK(contains(ran.out, "The Long Way · F♯m · 6/8 · "));
    CHECK(contains(ran.out, "compline practice " + path));
    const auto checked = run_compline({"check", path});
    CHECK(checked.status == 0);
    CHECK(contains(checked.out, " · 12 bars · 1 change"));
    const auto again = run_compline({"new", path});
    CHECK(again.status != 0);
    CHECK(contains(again.err, "the-long_way.yaml"));
    CHECK(run_compline({"check", path}).out == checked.out);
    CHECK(contains(run_compline({"new", name + "2", "--meter", "7/4"}).err,
                   "\"7/4\" is no meter of a chart: write 2/2"));
    CHECK(run_compline({"new", name + "2", "--key", "H"}).status == 2);
    CHECK_FALSE(std::filesystem::exists(name + "2.yaml"));
    for (const char* no_name : {".", "..", ".yaml", "charts/"}) {
        const auto refused = run_compline({"new", no_name});
        CHECK(refused.status == 2);
        CHECK(contains(refused.err, "is no name for a chart: write one such as my-blues"));
    }
}
