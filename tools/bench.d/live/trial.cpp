#include "trial.hpp"

#include "../../live.d/flood.hpp"

#include <fmt/format.h>
#include <unistd.h>

#include <fstream>
#include <iterator>
#include <stdexcept>
#include <utility>

namespace compline::bench {

namespace {

const char* const player_name = "guitarist";

std::string text_of(const std::filesystem::path& path) {
    std::ifstream file(path);
    return {std::istreambuf_iterator<char>(file), {}};
}

}  // namespace

time::Seconds since(Clock::time_point then) {
    return time::Seconds(std::chrono::duration<double>(Clock::now() - then).count());
}

Trial::Trial(const std::string& input, int changes, const std::vector<std::string>& more_arguments,
             time::Seconds flooded, std::optional<int> terminal)
    : player_({player_name, "", time::Seconds(1), 0.001F}),
      evening_{static_cast<int>(player_.period())} {
    auto script = evening_.script(changes);
    for (const auto& bend : outside::flood(time::Seconds(0), flooded)) {
        script.push_back({nearest_frame(bend.at, player_.rate()).count(), bend.message});
    }
    player_.start(std::move(script));
    std::ofstream(folder_.file("gates.yaml")) << outside::FortyChanges::chart;
    std::vector<std::string> words{COMPLINE_PROGRAM,
                                   "practice",
                                   folder_.file("gates.yaml").string(),
                                   "--out",
                                   fmt::format("JACK:{}", player_name),
                                   "--in",
                                   input + player_name,
                                   "--count-in",
                                   "1",
                                   "--take",
                                   take().string(),
                                   "--midi-pickup",
                                   "cycles=0",
                                   "--json"};
    words.insert(words.end(), more_arguments.begin(), more_arguments.end());
    started_ = Clock::now();
    program_ = std::make_unique<outside::BackgroundProgram>(
        words,
        outside::BackgroundProgram::Streams{folder_.file("out"), folder_.file("err"), terminal});
}

time::Seconds Trial::to_first_click() const {
    while (!player_.clicked()) {
        ::usleep(500);
        if (since(started_) > time::Seconds(20)) {
            throw std::runtime_error("no click was heard: " + text_of(folder_.file("err")));
        }
    }
    return since(started_);
}

nlohmann::json Trial::report(time::Seconds longest) {
    const int status = program_->wait(longest.count());
    const auto out = text_of(folder_.file("out"));
    if (out.empty()) {
        throw std::runtime_error(fmt::format("practice gave no report, status {}: {}", status,
                                             text_of(folder_.file("err"))));
    }
    return nlohmann::json::parse(out);
}

}  // namespace compline::bench
