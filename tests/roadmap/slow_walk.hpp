#pragma once

#include "roadmap/scenes.hpp"

#include <compline/roadmap/road_map.hpp>

#include <fmt/format.h>

#include <string>
#include <variant>
#include <vector>

namespace compline::tests {

// The same road map as a list of bars, written down one after the other by somebody with a pencil:
// each is worked out from the one before it, and nothing is looked up.

struct WalkedBar {
    int number = 1;
    int time_through = 1;
    int in_form = 1;
    time::Ticks start;
    double seconds = 0;  ///< from the first beat of bar 1
    double bpm = 120;
    double swing = 1;
    chart::AskedManner manner;
    bool seam = false;
    roadmap::WhoPlays on;
    roadmap::WhoPlays left_out;
};

inline std::string words_of(const roadmap::WhoPlays& who) {
    return fmt::format("{}{}{}{}", who.drums ? "d" : "", who.bass ? "b" : "", who.melody ? "m" : "",
                       who.guitar ? "g" : "");
}

inline std::string words_of(const WalkedBar& bar) {
    return fmt::format("{}: {}/{} at {}, {} bpm, swing {}, ({}){} on: {} without: {}", bar.number,
                       bar.time_through, bar.in_form, bar.start.count(), bar.bpm, bar.swing,
                       chart::in_words(bar.manner), bar.seam ? " seam" : "", words_of(bar.on),
                       words_of(bar.left_out));
}

inline std::string words_of(const roadmap::PlayedBar& bar) {
    return fmt::format("{}: {}/{} at {}, {} bpm, swing {}, ({}){} on: {} without: {}", bar.number,
                       bar.time_through, bar.in_form(), bar.start.count(), bar.tempo.count(),
                       bar.swing.ratio(), chart::in_words(bar.manner), bar.seam ? " seam" : "",
                       words_of(bar.on), words_of(bar.left_out));
}

class SlowWalk {
  public:
    explicit SlowWalk(const Scene& scene) : scene_(scene) {}

    /// The first so many bars, or all there are.
    [[nodiscard]] std::vector<WalkedBar> bars(int most) const {
        std::vector<WalkedBar> walked;
        const auto& way = scene_.asked.way;
        time::Ticks start;
        double seconds = 0;
        for (std::size_t time = 0; time < way.stretches.size() || way.goes_on; ++time) {
            const auto& stretch = way.stretches[std::min(time, way.stretches.size() - 1)];
            for (int in_form = stretch.passage.from; in_form <= stretch.passage.to; ++in_form) {
                WalkedBar bar;
                bar.number = static_cast<int>(walked.size()) + 1;
                bar.time_through = static_cast<int>(time) + 1;
                bar.in_form = in_form;
                bar.start = start;
                bar.seconds = seconds;
                if (bar.number > most || is_stopped(bar.number)) return walked;
                if (!walked.empty() && in_form == stretch.passage.from) {
                    bar.seam = leaps(walked.back().in_form, in_form);
                }
                fill(bar, stretch);
                start += written(in_form).meter.bar();
                seconds += quarters_of(in_form) * 60 / bar.bpm;
                walked.push_back(bar);
            }
        }
        return walked;
    }

    [[nodiscard]] const chart::FormBar& written(int in_form) const {
        return scene_.form.bars.at(static_cast<std::size_t>(in_form - 1));
    }
    [[nodiscard]] double quarters_of(int in_form) const {
        return static_cast<double>(written(in_form).meter.bar().count()) / 960;
    }

  private:
    [[nodiscard]] bool is_stopped(int number) const {
        for (const auto& decision : scene_.decided) {
            if (std::holds_alternative<roadmap::Stopped>(decision.what) &&
                decision.from_bar <= number)
                return true;
        }
        return false;
    }

    /// Neither to the next bar nor from the end of the tune to its beginning.
    [[nodiscard]] bool leaps(int from, int to) const {
        const int last = static_cast<int>(scene_.form.bars.size());
        return to != from + 1 && !(from == last && to == 1);
    }

    void fill(WalkedBar& bar, const chart::Stretch& stretch) const {
        const auto& asked = scene_.asked;
        bar.bpm = asked.tempo.value_or(scene_.form.chart.tempo).count();
        bool alone = stretch.silent;
        bool decided_alone = false;
        for (const auto& decision : scene_.decided) {
            if (decision.from_bar > bar.number) break;
            if (const auto* tempo = std::get_if<roadmap::NewTempo>(&decision.what)) {
                bar.bpm = tempo->tempo.count();
            }
            if (const auto* left = std::get_if<roadmap::LeftAlone>(&decision.what)) {
                decided_alone = left->alone;
            }
        }
        alone = alone || decided_alone;
        bar.manner = written(bar.in_form).manner.with(stretch.manner).with(asked.manner);
        bar.swing = swing_of(bar);
        bar.on = {asked.click || bar.manner.drums != chart::Drums::off,
                  bar.manner.bass != chart::Bass::off,
                  asked.melody && (!has_heads() || stretch.name == "head"), asked.guitar};
        bar.left_out = left_out(bar, alone);
    }

    [[nodiscard]] double swing_of(const WalkedBar& bar) const {
        const auto feel = bar.manner.feel.value_or(chart::Feel::swing);
        if (feel == chart::Feel::straight || feel == chart::Feel::bossa) return 1;
        const auto ratio =
            scene_.asked.swing ? scene_.asked.swing->ratio : scene_.form.chart.swing_ratio;
        if (ratio) return *ratio;
        const bool brushes = !bar.manner.drums || bar.manner.drums == chart::Drums::brushes;
        if (brushes && bar.bpm < 75) return 2;
        return time::Swing::at(time::Bpm(bar.bpm)).ratio();
    }

    [[nodiscard]] bool has_heads() const {
        for (const auto& stretch : scene_.asked.way.stretches) {
            if (stretch.name == "head") return true;
        }
        return false;
    }

    [[nodiscard]] roadmap::WhoPlays left_out(const WalkedBar& bar, bool alone) const {
        if (alone) return {true, true, true, true};
        const auto& silence = scene_.asked.silence;
        if (!silence) return {};
        // Counted off on the fingers: so many play, so many do not.
        int turn = 0;
        const int counted = silence->times_through ? bar.time_through : bar.number;
        for (int n = 1; n < counted; ++n)
            turn = turn + 1 == silence->playing + silence->silent ? 0 : turn + 1;
        if (turn < silence->playing) return {};
        if (silence->drums_alone) return {true, false, false, false};
        return {true, true, true, true};
    }

    Scene scene_;
};

}  // namespace compline::tests
