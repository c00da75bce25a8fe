// A real guitarist's take, from the pickup's notes to the report, by the commands a player would
// type.

#include "app/program.hpp"
#include "support/outside_data.hpp"
#include "support/schema.hpp"

#include <nlohmann/json.hpp>

using namespace compline;
using namespace compline::tests;

namespace {

const char* const changes = R"(title: Changes of a real take
key: G
meter: 4/4
tempo: 119
feel: straight
form: [A, A]
sections:
  A: |
    Gmaj7 | D9    | Em7   | Bm7
    Cmaj7 | Gmaj7 | Cmaj7 | D9
)";

}  // namespace

TEST_CASE("a real take, converted and scored: 16 changes, none missed, tones right in 15 or more") {
    // GuitarSet (Xi et al., ISMIR 2018), through a six-way pickup, to a click at 119.
    const auto notes = outside_data("hexaphonic-takes/03_BN3-119-G_comp.json");
    if (!notes || !outside_tool("/usr/bin/python3")) return;
    const TemporaryFolder folder;
    const auto take = folder.file("take.mid").string();
    const std::string tool = std::string(COMPLINE_SOURCE_DIR) + "/tools/hexaphonic_to_midi";
    const auto converted = run("PATH=/usr/bin:$PATH " + shell_quote(tool) + " " +
                               shell_quote(*notes) + " " + shell_quote(take));
    INFO(converted.output);
    REQUIRE(converted.status == 0);
    const auto chart = text_file(folder, "changes.yaml", changes);
    const auto scored = run_compline({"score", take, "--chart", chart, "--json"});
    INFO(shown(scored));
    REQUIRE(scored.status == 0);
    const auto report = nlohmann::json::parse(scored.out);
    CHECK(report["played"]["strings"] == "a channel per string");
    CHECK(report["totals"]["changes"] == 16);
    CHECK(report["totals"]["missed"] == 0);
    CHECK(report["totals"]["right_tones"].get<int>() >= 15);
    for (const auto& change : report["changes"]) {
        // data/README.md: by nearest strum, each lands between -14 and +36 ms.
        CHECK(change["lateness_ms"].get<double>() > -14.5);
        CHECK(change["lateness_ms"].get<double>() < 36.5);
    }
    if (outside_python_module("jsonschema")) {
        const auto agreed = check_schema({scored.out});
        INFO(agreed.output);
        CHECK(agreed.status == 0);
    }
}
