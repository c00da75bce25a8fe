#pragma once

#include "evening.hpp"
#include "terminal.hpp"

#include <compline/live/gear.hpp>
#include <compline/live/rig.hpp>
#include <compline/practice/evening.hpp>
#include <compline/report/now_playing.hpp>
#include <compline/report/place_teller.hpp>

#include <cstddef>
#include <string>

namespace compline::app {

/// What is shown and said while an evening goes on. Knows how it stands, and asks for nothing.
class EveningScreen {
  public:
    explicit EveningScreen(const AskedEvening& asked) : asked_(asked), view_(asked.view) {}

    [[nodiscard]] Screen& screen() { return screen_; }

    /// What is played through what, before it begins.
    void introduce(const live::GearChoice& gear, const practice::Machine& machine,
                   const roadmap::RoadMap& map);

    /// How it stands now: drawn, or told in lines where nothing can be drawn.
    void show(const practice::State& state, const live::Rig& rig);

    /// Once; empty: all is well.
    void warn_of_disk(const std::string& complaint);

    /// Rows of the chart, or the chord large; then the other one.
    void change_view();

    /// Another take begins.
    void start_over();

  private:
    void say_cable(const char* whose, const live::WatchedPort& port, bool& said_out);
    void say_what_is_heard(const practice::State& state);
    void say_how_it_went(const practice::State& state);
    void say_remarks(const practice::State& state);
    void print(const std::string& line);
    void draw(const practice::State& state);

    const AskedEvening& asked_;
    Screen screen_;
    report::View view_;
    report::PlaceTeller teller_;
    report::ChartRows rows_;
    int columns_ = 0;
    int times_said_ = 0;
    std::size_t changes_said_ = 0;
    std::size_t remarks_said_ = 0;
    bool said_strings_ = false;
    bool warned_of_disk_ = false;
    bool said_guitar_out_ = false;
    bool said_pedal_out_ = false;
};

}  // namespace compline::app
