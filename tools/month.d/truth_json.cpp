#include "truth_json.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>

namespace compline::month {

namespace {

using Json = nlohmann::ordered_json;

double rounded(double number) { return std::round(number * 10000) / 10000; }

auto count(const std::vector<MeantChange>& changes, Fate fate) {
    return std::count_if(changes.begin(), changes.end(),
                         [&](const auto& change) { return change.fate == fate; });
}

double expected(const std::vector<MeantChange>& changes) {
    double sum = 0;
    for (const auto& change : changes) sum += change.chance;
    return changes.empty() ? 0 : sum / static_cast<double>(changes.size());
}

Json to_json(const StaysBad& bad) {
    Json json;
    if (bad.bar != 0) json["bar"] = bad.bar;
    if (!bad.to.empty()) {
        json["from"] = bad.from;
        json["to"] = bad.to;
    }
    json["in_time"] = bad.in_time;
    return json;
}

Json to_json(const Work& work) {
    return {{"chart", work.chart},           {"in_time", work.in_time},
            {"an_evening", work.an_evening}, {"tempo", work.tempo},
            {"faster", work.faster},         {"left_for_weeks", work.left_for_weeks}};
}

}  // namespace

Json truth_of(const Pupil& pupil) {
    Json json;
    json["player"] = pupil.name;
    json["words"] = pupil.words;
    json["noise"] = pupil.noise;
    json["wrong"] = pupil.wrong;
    json["tunes"] = Json::array();
    for (const auto& work : pupil.works) json["tunes"].push_back(to_json(work));
    json["stays_bad"] = Json::array();
    for (const auto& bad : pupil.stays_bad) json["stays_bad"].push_back(to_json(bad));
    return json;
}

Json truth_of(const PupilsEvening& evening) {
    Json json;
    json["day"] = to_text(evening.date.day);
    json["tunes"] = Json::array();
    for (const auto& tune : evening.tunes) {
        json["tunes"].push_back({{"chart", tune.chart},
                                 {"true_share", rounded(tune.true_share)},
                                 {"share", rounded(tune.share)},
                                 {"tempo", tune.tempo}});
    }
    return json;
}

Json truth_of(const DatedTake& take, const std::string& file) {
    const auto& changes = take.made.meant;
    Json json;
    json["take"] = file;
    json["made"] = take.when.made();
    json["chart"] = take.chart;
    json["what"] = name_of(take.asked.what);
    json["from_bar"] = take.asked.bars.from;
    json["to_bar"] = take.asked.bars.to;
    json["tempo"] = take.asked.tempo.count();
    if (take.asked.ladder) json["ladder_to"] = take.asked.ladder->to.count();
    if (take.hardly_played) json["hardly_played"] = true;
    json["changes"] = changes.size();
    json["expected"] = rounded(expected(changes));
    json["in_time"] = count(changes, Fate::in_time);
    json["late"] = count(changes, Fate::late);
    json["missed"] = count(changes, Fate::missed);
    json["not_struck"] = count(changes, Fate::not_struck);
    json["wrong"] = std::count_if(changes.begin(), changes.end(),
                                  [](const auto& change) { return change.wrong; });
    return json;
}

}  // namespace compline::month
