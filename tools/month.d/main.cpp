// The program of tools/month: weeks of takes of three pupils whose rates are known, and the truth
// beside them. Status 0: done. 1: a file cannot be written. 2: bad usage, or files that are there.
#include "arguments.hpp"
#include "folder.hpp"
#include "sessions.hpp"
#include "truth_json.hpp"

#include <compline/text/bad_input.hpp>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <cstdio>
#include <exception>

using namespace compline;

namespace {

using Json = nlohmann::ordered_json;

const std::filesystem::path charts = COMPLINE_CHARTS;

void say(const std::string& text) { fmt::print(stderr, "month: {}\n", text); }

/// Writes a take, and gives its truth.
Json keep(month::DatedTake take, const std::string& player, month::Folder& folder) {
    folder.find_free_second(take.when);
    folder.add_take(take.when, to_bytes(take.made, player, take.when.made()));
    if (take.asked.what != month::What::drill) folder.copy_chart(charts / take.chart);
    return truth_of(take, take.when.file());
}

Json beginning(const month::Arguments& asked) {
    Json truth;
    truth["schema"] = "compline.month/1";
    truth["seed"] = asked.weeks.seed;
    truth["ends"] = month::to_text(asked.weeks.ends);
    return truth;
}

Json weeks(const month::Arguments& asked, month::Folder& folder) {
    Json all = Json::array();
    int number = 0;
    for (const auto& pupil : month::pupils()) {
        auto truth = truth_of(pupil);
        truth["evenings"] = Json::array();
        int takes = 0;
        play_weeks(pupil, number++, asked.weeks, charts, [&](const auto& evening) {
            auto one = truth_of(evening);
            one["takes"] = Json::array();
            for (const auto& take : evening.takes) {
                one["takes"].push_back(keep(take, pupil.name, folder));
                ++takes;
            }
            truth["evenings"].push_back(std::move(one));
        });
        fmt::print("{}: {} evenings, {} takes: {}\n", pupil.name, truth["evenings"].size(), takes,
                   pupil.words);
        all.push_back(std::move(truth));
    }
    return all;
}

Json sessions(const month::Arguments& asked, month::Folder& folder) {
    Json all = Json::array();
    play_sessions(*asked.sessions, asked.weeks, charts, [&](const auto& session) {
        auto one = keep(session.take, session.player, folder);
        one["player"] = session.player;
        one["true_share"] = session.true_share;
        one["share"] = session.share;
        all.push_back(std::move(one));
    });
    fmt::print("{} takes over three years\n", all.size());
    return all;
}

void work(const month::Arguments& asked) {
    month::Folder folder(asked.folder);
    auto truth = beginning(asked);
    if (asked.sessions) {
        truth["sessions"] = sessions(asked, folder);
    } else {
        truth["pupils"] = weeks(asked, folder);
    }
    folder.add_truth(truth.dump(1) + "\n");
}

}  // namespace

int main(int argc, char** argv) {
    int status = 0;
    const auto asked = month::read_arguments(argc, argv, status);
    if (!asked) return status;
    try {
        work(*asked);
        return 0;
    } catch (const text::BadInput& error) {
        say(error.what());
        return 2;
    } catch (const std::exception& error) {
        say(error.what());
        return 1;
    }
}
