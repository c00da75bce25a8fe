#pragma once

#include "app/own_data.hpp"
#include "app/program.hpp"
#include "support/judged_rows.hpp"

#include <compline/history/history.hpp>

#include <fmt/format.h>

#include <filesystem>
#include <string>
#include <vector>

namespace compline::tests {

inline constexpr const char* lantern_bars = "F6 | D7 | Gm7 | C7 | F6 | D7 | Gm7 | C7";

/// A player's own folder with a history, charts beside it.
class OwnHistory {
  public:
    [[nodiscard]] std::filesystem::path file() const {
        return own_.folder().file("compline") / "history.db";
    }
    [[nodiscard]] history::KeptChart lantern() const {
        auto chart = kept_chart("Lantern Street", lantern_bars);
        chart.file = text_file(own_.folder(), "lantern.yaml", chart.text);
        return chart;
    }
    /// Evenings of a player, in October 2020, each as it is said.
    void plays(const std::string& player, const std::vector<std::string>& evenings) const {
        history::History history(file());
        int day = 0;
        for (const auto& how : evenings) {
            PlayedRows played;
            played.made = fmt::format("2020-10-{:02}T20:00:00+01:00", ++day);
            played.player = player;
            played.how = how;
            history.enter(judged_rows(lantern(), played));
        }
    }
    [[nodiscard]] std::string chart() const { return own_.folder().file("lantern.yaml").string(); }
    [[nodiscard]] const OwnData& own() const { return own_; }

  private:
    OwnData own_;
};

}  // namespace compline::tests
