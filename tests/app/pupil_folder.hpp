#pragma once

// A folder of takes as a teacher has it: what a pupil played, on which days.

#include "app/program.hpp"
#include "report/by_sound.hpp"

#include <compline/chart/pins.hpp>
#include <compline/chart/transpose.hpp>
#include <compline/midi/smf.hpp>
#include <compline/practice/take.hpp>

#include <fmt/format.h>

#include <string>
#include <vector>

namespace compline::tests {

/// Bar 2 comes so late that it shows, else all is as the clumsy hand plays it.
inline std::vector<Strum> with_bar_2_late_by(double ms) {
    auto strums = clumsy_hand();
    strums[2].late_ms = ms;
    return strums;
}

class PupilFolder {
  public:
    PupilFolder() { std::filesystem::create_directory(path("anna")); }

    /// A take of the eight bars; `made`: as in "2026-11-03T20:00:00+01:00", or nothing.
    void save(const std::string& name, const std::string& made, const std::vector<Strum>& strums,
              const std::string& chart = eight_bars_text, int times = 1) const {
        const auto map = through(chart::unroll(chart::read_chart(chart, name)), times);
        save(name, made, take_of(strums, map, chart), map);
    }
    void save(const std::string& name, const std::string& made, practice::Take take,
              const roadmap::RoadMap& map) const {
        if (take.info) take.info->made = made;
        bytes_file(folder_, "anna/" + name, midi::write_smf(practice::to_file(take, map)));
    }
    void save_text(const std::string& name, const std::string& text) const {
        text_file(folder_, name, text);
    }
    [[nodiscard]] static practice::Take take_of(const std::vector<Strum>& strums,
                                                const roadmap::RoadMap& map,
                                                const std::string& chart = eight_bars_text) {
        practice::Take take;
        take.messages = play(strums, map);
        take.end = map.time_of(map.end());
        take.info = practice::info_of(map, chart);
        take.info->ended = true;
        return take;
    }
    /// Bar 2 gets better from evening to evening: three in November.
    void save_three_evenings() const {
        save("c.mid", "2026-11-03T20:00:00+01:00", with_bar_2_late_by(120));
        save("b.mid", "2026-11-12T20:00:00+01:00", with_bar_2_late_by(80));
        save("a.mid", "2026-11-29T00:30:00+01:00", with_bar_2_late_by(8));
    }

    [[nodiscard]] std::string path(const std::string& name) const {
        return folder_.file(name).string();
    }
    [[nodiscard]] std::string anna() const { return path("anna"); }
    [[nodiscard]] Ran compline(const std::string& command,
                               std::vector<std::string> more = {}) const {
        more.insert(more.begin(), {command, anna()});
        return run_compline(more);
    }

  private:
    TemporaryFolder folder_;
};

}  // namespace compline::tests
