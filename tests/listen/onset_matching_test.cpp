#include "support/catch.hpp"
#include "support/outside_data.hpp"

#include <compline/listen/onset_matching.hpp>

#include <nlohmann/json.hpp>

#include <fstream>
#include <sstream>

using namespace compline;
using time::Seconds;

namespace {

std::vector<Seconds> read_onsets(const std::string& path) {
    std::ifstream file(path);
    std::vector<Seconds> onsets;
    for (std::string line; std::getline(file, line);) {
        if (line.empty() || line.front() == '#') continue;
        onsets.emplace_back(std::stod(line));
    }
    return onsets;
}

}  // namespace

TEST_CASE("onset matching agrees with mir_eval on its own fixtures") {
    // mir_eval (Raffel et al., ISMIR 2014), tests/data/onset; window 50 ms.
    for (const char* number : {"00", "01", "02", "03", "07"}) {
        const std::string folder = "onset-matching/";
        const auto reference = tests::outside_data(folder + "ref" + number + ".txt");
        const auto estimated = tests::outside_data(folder + "est" + number + ".txt");
        const auto output = tests::outside_data(folder + "output" + number + ".json");
        if (!reference || !estimated || !output) return;
        const auto score = listen::match_onsets(read_onsets(*reference), read_onsets(*estimated));
        std::ifstream file(*output);
        const auto expected = nlohmann::json::parse(file);
        INFO(number);
        CHECK(score.f_measure == Approx(expected["F-measure"].get<double>()).margin(1e-9));
        CHECK(score.precision == Approx(expected["Precision"].get<double>()).margin(1e-9));
        CHECK(score.recall == Approx(expected["Recall"].get<double>()).margin(1e-9));
    }
}

TEST_CASE("an onset is matched once, and the most matches win") {
    const std::vector<Seconds> reference{Seconds(0), Seconds(0.04)};
    const std::vector<Seconds> estimated{Seconds(0.03), Seconds(0.08)};
    CHECK(listen::match_onsets(reference, estimated).f_measure == Approx(1));
    CHECK(listen::match_onsets(reference, {}).f_measure == 0);
}
