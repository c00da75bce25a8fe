#pragma once

// An evening on a ladder: somebody plays to the band as it is asked to play, well or badly.

#include <compline/chart/form.hpp>
#include <compline/practice/evening.hpp>
#include <compline/simulate/guitarist.hpp>

#include <algorithm>
#include <functional>
#include <map>
#include <string>
#include <utility>
#include <vector>

namespace compline::tests {

inline constexpr const char* two_sections_text =
    "title: Ten Steps\nkey: F\ntempo: 120\nform: [A, B]\nsections:\n"
    "  A: F7 | Bb7 | F7 | C7\n  B: Gm7 | C7 | F7 | D7 | Gm7 | C7\n";

inline chart::Form two_sections() {
    return chart::unroll(chart::read_chart(two_sections_text, "ten-steps.yaml"));
}

/// Bars 5 to 8, in a section of six bars, up a ladder; a bar is counted in.
inline roadmap::RoadMap on_a_ladder(int from, int to, chart::Passage bars = {5, 8}) {
    auto asked = roadmap::Asked::of(bars, std::nullopt);
    asked.ladder = roadmap::AskedLadder{time::Bpm(from), time::Bpm(to)};
    asked.tempo = asked.ladder->from;
    asked.count_in_bars = 1;
    return {two_sections(), asked};
}

enum class Playing {
    well,
    badly,     ///< every second change a quarter of a second late
    slipping,  ///< a fret too high on string 3
    silent,
};

/// What a time through is played like; counted from 1.
using Manner = std::function<Playing(int time_through)>;

/// Plays each change of the map as it comes, once, as it is known a moment before.
class Comping {
  public:
    explicit Comping(Manner manner) : manner_(std::move(manner)) {}

    /// What was sent since the last call.
    practice::Played until(time::Seconds now, const roadmap::RoadMap& map) {
        constexpr time::Seconds a_moment{0.2};
        const auto place = map.place_at(now + a_moment);
        if (!place.before) {
            for (const auto& due : map.first(place.time_through).changes()) {
                if (due.at > struck_ && map.time_of(due.at) <= now + a_moment) strike(due, map);
            }
        }
        practice::Played news;
        const auto sent = std::partition_point(waiting_.begin(), waiting_.end(),
                                               [&](const auto& m) { return m.at <= now; });
        news.messages.assign(waiting_.begin(), sent);
        waiting_.erase(waiting_.begin(), sent);
        return news;
    }
    /// In another take from its beginning.
    void start_over() { *this = Comping(manner_); }

  private:
    static guitar::Shape grip(const std::string& chord) {
        static const std::map<std::string, std::string> grips{{"F7", "1x12xx"},  {"Bb7", "x101xx"},
                                                              {"Gm7", "3x33xx"}, {"Cm7", "x313xx"},
                                                              {"C7", "x323xx"},  {"D7", "x545xx"}};
        const auto& frets = grips.at(chord);
        guitar::Shape shape;
        for (std::size_t i = 0; i < 6; ++i) {
            if (frets.at(i) != 'x') shape.frets.at(5 - i) = frets.at(i) - '0';
        }
        return shape;
    }
    void strike(const roadmap::DueChange& due, const roadmap::RoadMap& map) {
        struck_ = due.at;
        const auto playing = manner_(due.time_through);
        if (playing == Playing::silent) return;
        const bool late = playing == Playing::badly && due.bar % 2 == 0;
        simulate::ScriptedStrum strum;
        strum.at = due.at;
        strum.lateness = time::Seconds(late ? 0.25 : 0.005);
        strum.shape = grip(due.to.symbol(harmony::Accidentals::letters));
        if (playing == Playing::slipping) strum.shape.frets.at(2) = *strum.shape.frets.at(2) + 1;
        strum.length = time::Seconds(1);
        for (const auto& sent : simulate::perform({strum}, map, guitar::Fretboard::standard())) {
            waiting_.insert(std::upper_bound(waiting_.begin(), waiting_.end(), sent,
                                             [](auto& a, auto& b) { return a.at < b.at; }),
                            sent);
        }
    }

    Manner manner_;
    time::Ticks struck_{-1};
    std::vector<midi::TimedMessage> waiting_;
};

/// The evening itself, looked in on fifty times a second, or as often as that.
class Climb {
  public:
    Climb(const roadmap::RoadMap& map, Manner manner, time::Seconds step = time::Seconds(0.02))
        : evening_(map, practice::info_of(map, two_sections_text), {},
                   practice::JudgedMeanwhile::times_through),
          comping_(std::move(manner)),
          now_(-map.lead()),
          step_(step) {}

    practice::Orders turn(const std::vector<practice::Command>& commands = {}) {
        auto orders = evening_.advance(now_, comping_.until(now_, state().map), commands);
        if (orders.finished) {
            comping_.start_over();
            now_ = state().now;
        }
        now_ += step_;
        return orders;
    }
    void go_on_until(time::Seconds at) {
        while (!state().over && now_ < at) (void)turn();
    }
    /// To the beginning of a bar as it is played, as it is known by then.
    void go_on_to_bar(std::int64_t number, double beat = 1) {
        const auto reached = [&] {
            if (number > state().map.bars().value_or(number)) return false;
            const auto bar = state().map.bar(number);
            const auto ahead = time::Ticks(static_cast<std::int64_t>((beat - 1) * 960));
            return now_ >= state().map.tempi().time_of(bar.start + ahead);
        };
        while (!state().over && !reached()) (void)turn();
    }
    void go_on() { go_on_until(time::Seconds(3600)); }

    [[nodiscard]] const practice::State& state() const { return evening_.state(); }
    [[nodiscard]] const practice::Evening& evening() const { return evening_; }
    [[nodiscard]] time::Seconds now() const { return now_; }
    /// "96 clean again", a time through each.
    [[nodiscard]] std::vector<std::string> steps() const {
        std::vector<std::string> words;
        for (const auto& step : state().ladder) {
            words.push_back(std::to_string(static_cast<int>(step.tempo.count())) + " " +
                            std::string(name_of(step.judged)) + ", " +
                            std::string(name_of(step.next)));
        }
        return words;
    }

  private:
    practice::Evening evening_;
    Comping comping_;
    time::Seconds now_;
    time::Seconds step_;
};

}  // namespace compline::tests
