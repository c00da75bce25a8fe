#pragma once

#include <compline/practice/evening.hpp>

#include <cstdint>
#include <string>
#include <vector>

namespace compline::tests {

/// An evening, a command at a time.
class Night {
  public:
    explicit Night(const roadmap::RoadMap& map)
        : evening_(map, {}, {}, practice::JudgedMeanwhile::nothing) {}

    /// At a bar as it is played (from 1) and a beat of it, when every bar still lasts two seconds.
    practice::Orders at(int bar, double beat, const std::vector<practice::Command>& commands = {}) {
        return at(time::Seconds(2.0 * (bar - 1) + (beat - 1) / 2), commands);
    }
    practice::Orders at(time::Seconds now, const std::vector<practice::Command>& commands = {}) {
        return evening_.advance(now, {}, commands);
    }
    [[nodiscard]] const practice::State& state() const { return evening_.state(); }
    [[nodiscard]] const practice::Evening& evening() const { return evening_; }
    [[nodiscard]] const roadmap::RoadMap& map() const { return state().map; }

    /// Numbers in the form of bars as they are played, from one on: "5 6 7 8 5".
    [[nodiscard]] std::string bars(std::int64_t from, int count) const {
        std::string text;
        for (auto bar = from; bar < from + count; ++bar) {
            const bool there = bar <= map().bars().value_or(bar);
            text += (text.empty() ? "" : " ") +
                    (there ? std::to_string(map().bar(bar).in_form()) : std::string("-"));
        }
        return text;
    }

  private:
    practice::Evening evening_;
};

}  // namespace compline::tests
