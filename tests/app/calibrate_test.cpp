// Calibrating, as far as no device is needed for it.

#include "app/program.hpp"
#include "support/catch.hpp"

using namespace compline;
using tests::contains;
using tests::run_compline;

TEST_CASE("without a way calibrate says which there are, and how to go them", "[app]") {
    const auto ran = run_compline({"calibrate"});
    INFO(tests::shown(ran));
    CHECK(ran.status == 0);
    for (const char* const way :
         {"by wire", "by the guitar's own sound", "by playing to a click"}) {
        CHECK(contains(ran.out, way));
    }
    CHECK(contains(ran.out, "kept in your settings only when you ask for it"));
}

TEST_CASE("what calibrate cannot take is refused before anything is opened", "[app]") {
    struct Row {
        std::vector<std::string> typed;
        const char* said;
    };
    const std::vector<Row> rows = {
        {{"calibrate", "tape"}, "expected wire, guitar or click"},
        {{"calibrate", "wire", "--level", "3"}, "expected a number from -60 to -3"},
        {{"calibrate", "guitar", "--notes", "4"}, "expected a number from 8 to 64"},
        {{"calibrate", "click", "--tempo", "500"}, "expected a number from 30 to 240"},
        {{"calibrate", "guitar", "--midi-pickup", "loud"}, "loud"},
        {{"calibrate", "guitar", "--guitar", "nobody's"}, "no guitars are described yet"}};
    for (const auto& row : rows) {
        const auto ran = run_compline(row.typed);
        INFO(tests::shown(ran));
        CHECK(ran.status == 2);
        CHECK(contains(ran.err, row.said));
    }
}
