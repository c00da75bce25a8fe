// The report in words and the report as JSON say the same: every number that both have is read
// back from both and compared.

#include "measure.d/habits.hpp"
#include "measure.d/pupils.hpp"
#include "report/rehearsed.hpp"
#include "support/catch.hpp"
#include "support/our_forms.hpp"

#include <nlohmann/json.hpp>

#include <cmath>
#include <map>
#include <regex>
#include <string>

using namespace compline;
using namespace compline::tests;
using nlohmann::json;

namespace {

/// Lines that were broken for the terminal are one again.
std::string unbroken(const std::string& text) {
    static const std::regex broken("\n( {9}| {4})(?! )(?!compline|loop|interrupted|never|each)");
    return std::regex_replace(text, broken, " ");
}

std::smatch find(const std::string& text, const std::string& pattern) {
    std::smatch found;
    std::regex_search(text, found, std::regex(pattern));
    return found;
}

int number(const std::ssub_match& match) { return std::stoi(match.str()); }

int rounded(const json& value) { return static_cast<int>(std::lround(value.get<double>())); }

void check_sentence(const std::string& text, const json& report) {
    int of = 0;
    int landed = 0;
    int right = 0;
    for (const auto& change : report["changes"]) {
        if (change["uncertain"]) continue;
        right += change["tones"] == "right" ? 1 : 0;
        const std::string verdict = change["verdict"];
        if (verdict == "laid_out") continue;
        ++of;
        const bool placed = verdict == "placed" && !change["wait"].get<bool>();
        const bool good = verdict == "on_time" || verdict == "pushed" || verdict == "held";
        landed += good || placed ? 1 : 0;
    }
    const auto said = find(text, "^(?:(\\d+) of|All)(?: the)? (\\d+) changes");
    REQUIRE(said.size() == 3);
    CHECK(number(said[2]) == of);
    CHECK((said[1].matched ? number(said[1]) : of) == landed);
    const auto tones = find(text, "^[^:.]*?(\\d+) with the right tones");
    CHECK((tones.empty() ? of : number(tones[1])) == right);
    CHECK(report["totals"]["right_tones"] == right);
}

void check_totals(const std::string& text, const json& report) {
    const auto line = find(text, "\nChanges  (\\d+): ([^\n]*)").str();
    const auto& totals = report["totals"];
    CHECK(number(find(line, "Changes  (\\d+)")[1]) == totals["changes"]);
    for (const auto& [name, words] : std::map<std::string, std::string>{{"on_time", "on time"},
                                                                        {"pushed", "pushed"},
                                                                        {"placed", "placed"},
                                                                        {"held", "held"},
                                                                        {"laid_out", "laid out"},
                                                                        {"early", "early"},
                                                                        {"late", "late"},
                                                                        {"missed", "missed"},
                                                                        {"astray", "astray"}}) {
        const auto said = find(line, "(\\d+) " + words);
        INFO(words);
        CHECK((said.empty() ? 0 : number(said[1])) == totals[name]);
    }
    CHECK(number(find(line, "tones right in (\\d+)")[1]) == totals["right_tones"]);
}

/// "6 ms behind, SD 14 ms".
void check_spread(const std::string& line, const std::string& where, const json& spread) {
    const auto said = find(line, where + " (\\d+) ms (behind|ahead|off)(?:, SD (\\d+) ms)?");
    if (spread["mean_ms"].is_null()) {
        CHECK(said.empty());
        return;
    }
    REQUIRE(said.size() == 4);
    CHECK(number(said[1]) * (said[2] == "ahead" ? -1 : 1) == rounded(spread["mean_ms"]));
    if (said[3].matched) CHECK(std::fabs(number(said[3]) - spread["sd_ms"].get<double>()) <= 0.5);
}

void check_time(const std::string& text, const json& report) {
    const auto line = find(text, "\nTime     [^\n]*").str();
    CHECK(number(find(line, "Time     (\\d+) strums?")[1]) == report["time"]["strums"]);
    check_spread(line, "on the beat", report["time"]["on_beats"]);
    check_spread(line, "off-beats", report["time"]["off_beats"]);
    const auto place =
        find(text, "\nPlace    you, or your MIDI pickup, sit (\\d+) ms (behind|ahead)");
    if (place.empty()) return;
    CHECK(number(place[1]) * (place[2] == "ahead" ? -1 : 1) ==
          rounded(report["own_place_ms"]["on_beats"]));
}

void check_settings(const std::string& text, const json& report) {
    const auto line = find(text, "in time within (\\d+) ms");
    CHECK(number(line[1]) == rounded(report["settings"]["tolerance_ms"]));
    const auto swing = find(text, "swing (\\d+\\.\\d+):1");
    if (swing.empty()) return;
    CHECK(std::fabs(std::stod(swing[1]) - report["chart"]["swing_ratio"].get<double>()) <= 0.0051);
}

/// How many of the habits were found in words.
std::size_t check_habits(const std::string& text, const json& report) {
    std::size_t found = 0;
    for (const auto& habit : report["habits"]) {
        const auto count = std::to_string(habit["cases"].get<int>()) + " of " +
                           std::to_string(habit["of"].get<int>()) + " (?:times|strums)";
        const auto mean = habit["mean_ms"].is_null()
                              ? std::string()
                              : std::to_string(std::abs(rounded(habit["mean_ms"]))) + " ms";
        for (const auto& line : {find(text, "\n  [^\n]*" + count + "[^\n]*").str()}) {
            if (line.empty()) continue;
            ++found;
            INFO(line);
            if (line.find("on average") != std::string::npos) {
                CHECK(line.find(mean) != std::string::npos);
            }
            if (habit["what"] == "place") {
                CHECK(line.find("bar " + std::to_string(habit["bar"].get<int>())) !=
                      std::string::npos);
            }
        }
    }
    return found;
}

void check_weakest(const std::string& text, const json& report) {
    const auto said =
        find(text, "\nWeakest  bars? (\\d+)(?:-(\\d+))?[^:]*(?::\\d+-\\d+\\))?: (\\d+) fault");
    if (report["weakest"].is_null()) {
        CHECK(said.empty());
        return;
    }
    REQUIRE(said.size() == 4);
    CHECK(number(said[1]) == report["weakest"]["from_bar"]);
    CHECK((said[2].matched ? number(said[2]) : number(said[1])) == report["weakest"]["to_bar"]);
}

/// Lateness of single faults: every "late 62 ms" is one of the changes of that bar.
int check_lateness(const std::string& text, const json& report) {
    int checked = 0;
    static const std::regex line(
        "\n  (?:(\\d+)[a-z]{2} time  )?bar (\\d+)(?: beat [0-9.]+)?  [^\n]*?(late|early) (\\d+) "
        "ms");
    for (std::sregex_iterator it(text.begin(), text.end(), line), end; it != end; ++it, ++checked) {
        const auto& found = *it;
        bool known = false;
        for (const auto& change : report["changes"]) {
            const bool here = change["bar"] == number(found[2]) &&
                              (!found[1].matched || change["time_through"] == number(found[1]));
            if (!here || change["lateness_ms"].is_null()) continue;
            known = known || (change["verdict"] == found[3].str() &&
                              std::abs(rounded(change["lateness_ms"])) == number(found[4]));
        }
        INFO(found.str());
        CHECK(known);
    }
    return checked;
}

struct Checked {
    std::size_t habits = 0;
    int late = 0;
};

Checked check_all(const practice::Report& report) {
    const auto text = unbroken(report::to_text(report, report::Listing::all));
    const auto as_json = json::parse(report::to_json(report));
    INFO(text);
    check_sentence(text, as_json);
    check_totals(text, as_json);
    check_time(text, as_json);
    check_settings(text, as_json);
    check_weakest(text, as_json);
    return {check_habits(text, as_json), check_lateness(text, as_json)};
}

}  // namespace

TEST_CASE("words and JSON have the same numbers", "[report]") {
    Checked all;
    const auto check = [&](const measure::Pupil& pupil) {
        const auto played = simulate::play(pupil.map, pupil.habits, pupil.seed);
        const auto messages = simulate::sent_on(
            pupil.channels,
            simulate::perform(played.script, pupil.map, guitar::Fretboard::standard()));
        const auto checked = check_all(judged(pupil.map, messages));
        all.habits += checked.habits;
        all.late += checked.late;
    };
    check_all(clumsy_report());
    const auto forms = our_forms();
    for (int n = 0; n < 16; ++n) check(measure::pupil(forms, 5, n));
    for (const auto& planted : measure::planted_habits()) {
        const auto& form = forms.front();
        measure::Pupil pupil{through(form, 6), {}};
        pupil.habits.planted.strikes = planted.strikes;
        pupil.habits.planted.deed = planted.deed;
        pupil.habits.planted.rate = 1;
        check(pupil);
    }
    CHECK(all.habits >= 8);
    CHECK(all.late > 20);
}
