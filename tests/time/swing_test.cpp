#include "support/catch.hpp"
#include "support/outside_data.hpp"

#include <compline/time/swing.hpp>

#include <cmath>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

using namespace compline::time;
namespace tests = compline::tests;

TEST_CASE("swing at 132 bpm is 2.58 to 1, what drummers do there") {
    CHECK(Swing::at(Bpm(132)).ratio() == Approx(2.58).margin(0.005));
}

TEST_CASE("swing moves the off-beat and leaves the beats where they are") {
    const Swing swing(2);
    CHECK(swing.played(Ticks(480)).count() == Approx(2.0 / 3));
    CHECK(swing.played(Ticks(-480)).count() == Approx(-1.0 / 3));
    for (int beat = -8; beat < 8; ++beat) {
        CHECK(swing.played(quarter_note * beat).count() == beat);
    }
    CHECK(swing.played(Ticks(240)).count() == Approx(1.0 / 3));
    CHECK(swing.played(Ticks(720)).count() == Approx(5.0 / 6));
}

TEST_CASE("swing there and back again is where it was, and never goes backwards") {
    for (const double ratio : {1.0, 1.5, 2.58, 3.0}) {
        const Swing swing(ratio);
        double before = -1e9;
        for (int tick = -3000; tick < 3000; tick += 7) {
            const Beats played = swing.played(Ticks(tick));
            CHECK(swing.written(played).count() == Approx(tick / 960.0).margin(1e-12));
            CHECK(played.count() > before);
            before = played.count();
        }
    }
}

TEST_CASE("the swing ratio falls as tempo rises, and stays between 1 and 3") {
    double before = 3;
    for (int tempo = 30; tempo <= 400; ++tempo) {
        const double ratio = Swing::at(Bpm(tempo)).ratio();
        CHECK(ratio >= 1);
        CHECK(ratio <= before);
        before = ratio;
    }
    CHECK(Swing::at(Bpm(200)).ratio() == Approx(2.0).margin(0.01));  // where 2:1 is right
}

TEST_CASE("swing by tempo is as near to annotated drummers as a line can be") {
    // Jazz Trio Database (Cheston et al., TISMIR 2024): medians of 17 recordings.
    const auto path = tests::outside_data("jazz-trio-timing/drummers.csv");
    if (!path) return;
    std::ifstream file(*path);
    std::string line;
    std::getline(file, line);
    double squares = 0;
    int rows = 0;
    while (std::getline(file, line)) {
        std::stringstream cells(line);
        std::vector<double> values;
        for (std::string cell; std::getline(cells, cell, ',');) values.push_back(std::stod(cell));
        const double error = Swing::at(Bpm(values.at(0))).ratio() - values.at(4);
        squares += error * error;
        ++rows;
    }
    REQUIRE(rows == 17);
    CHECK(std::sqrt(squares / rows) <= 0.37);
}
