#pragma once

#include "roadmap/scenes.hpp"

#include <compline/roadmap/road_map.hpp>

#include <fmt/format.h>

#include <algorithm>
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
    time::Ticks length;
    double seconds = 0;  ///< from the first beat of bar 1
    double bpm = 120;
    double swing = 1;
    double swung = 1;  ///< the note it lies in, in quarters
    chart::AskedManner manner;
    bool seam = false;
    bool waits = false;
    roadmap::WhoPlays on;
    roadmap::WhoPlays left_out;
    roadmap::WhoPlays decided_out;
};

inline std::string words_of(const roadmap::WhoPlays& who) {
    return fmt::format("{}{}{}{}", who.drums ? "d" : "", who.bass ? "b" : "", who.melody ? "m" : "",
                       who.guitar ? "g" : "");
}

inline std::string words_of(const WalkedBar& bar) {
    return fmt::format("{}: {}/{} at {}, {} bpm, swing {}, ({}){} on: {} without: {} {}",
                       bar.number, bar.time_through, bar.in_form, bar.start.count(), bar.bpm,
                       bar.swing, chart::in_words(bar.manner),
                       bar.waits  ? " wait"
                       : bar.seam ? " seam"
                                  : "",
                       words_of(bar.on), words_of(bar.left_out), words_of(bar.decided_out));
}

inline std::string words_of(const roadmap::PlayedBar& bar) {
    return fmt::format("{}: {}/{} at {}, {} bpm, swing {}, ({}){} on: {} without: {} {}",
                       bar.number, bar.time_through, bar.in_form(), bar.start.count(),
                       bar.tempo.count(), bar.swing.ratio(), chart::in_words(bar.manner),
                       bar.waits  ? " wait"
                       : bar.seam ? " seam"
                                  : "",
                       words_of(bar.on), words_of(bar.left_out), words_of(bar.decided_out));
}

class SlowWalk {
  public:
    explicit SlowWalk(const Scene& scene) : scene_(scene) {}

    /// The first so many bars, or all there are.
    [[nodiscard]] std::vector<WalkedBar> bars(int most) const {
        std::vector<WalkedBar> walked;
        Pencil pencil(scene_.asked.way);
        while (static_cast<int>(walked.size()) < most && write_next(pencil, walked)) {
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
    /// Where on the way the next bar lies.
    struct Pencil {
        explicit Pencil(const chart::Way& on) : way(&on), in_form(on.stretches[0].passage.from) {}
        const chart::Way* way;
        std::size_t stretch = 0;
        int in_form;
        bool begins = true;  ///< a time through
        bool paused = false;

        [[nodiscard]] bool turn_over() {
            if (in_form <= way->stretches[stretch].passage.to) return true;
            const bool last = stretch + 1 == way->stretches.size();
            if (last && !way->goes_on) return false;
            if (!last) ++stretch;
            in_form = way->stretches[stretch].passage.from;
            return begins = true;
        }
    };

    /// Whether there was another bar.
    [[nodiscard]] bool write_next(Pencil& pencil, std::vector<WalkedBar>& walked) const {
        const auto number = static_cast<std::int64_t>(walked.size()) + 1;
        for (const auto& decision : scene_.decided) {
            if (decision.from_bar != number) continue;
            const auto& what = decision.what;
            if (std::holds_alternative<roadmap::Stopped>(what)) return false;
            if (std::holds_alternative<roadmap::Paused>(what)) pencil.paused = true;
            if (const auto* then = std::get_if<roadmap::NewWay>(&what)) pencil = Pencil(then->way);
            if (const auto* waited = std::get_if<roadmap::Waited>(&what)) {
                walked.push_back(wait_behind(walked.back(), *waited));
                pencil = Pencil(waited->way);
                return true;
            }
        }
        if (pencil.paused || !pencil.turn_over()) return false;
        walked.push_back(next_bar(pencil, walked));
        pencil.begins = false;
        ++pencil.in_form;
        return true;
    }

    [[nodiscard]] static WalkedBar behind(const WalkedBar& before) {
        WalkedBar bar;
        bar.number = before.number + 1;
        bar.time_through = before.time_through;
        bar.start = before.start + before.length;
        bar.seconds = before.seconds + time::Beats(before.length).count() * 60 / before.bpm;
        return bar;
    }

    [[nodiscard]] WalkedBar wait_behind(const WalkedBar& before,
                                        const roadmap::Waited& waited) const {
        auto bar = behind(before);
        bar.waits = true;
        bar.in_form = 0;
        bar.length = time::quarter_note * waited.beats;
        bar.manner = scene_.form.chart.manner.with(scene_.asked.manner);
        decide(bar);
        bar.swing = swing_of(bar);
        bar.decided_out = {};
        return bar;
    }

    [[nodiscard]] WalkedBar next_bar(const Pencil& pencil,
                                     const std::vector<WalkedBar>& walked) const {
        WalkedBar bar;
        if (!walked.empty()) {
            const auto& before = walked.back();
            bar = behind(before);
            if (pencil.begins) ++bar.time_through;
            bar.seam = pencil.begins && !before.waits && leaps(before.in_form, pencil.in_form);
        }
        bar.in_form = pencil.in_form;
        bar.length = written(bar.in_form).meter.bar() + written(bar.in_form).hold;
        fill(bar, pencil.way->stretches[pencil.stretch], *pencil.way);
        return bar;
    }

    /// Neither to the next bar nor from the end of the tune to its beginning.
    [[nodiscard]] bool leaps(int from, int to) const {
        const int last = static_cast<int>(scene_.form.bars.size());
        return to != from + 1 && !(from == last && to == 1);
    }

    void decide(WalkedBar& bar) const {
        const auto& asked = scene_.asked;
        bar.bpm = asked.tempo.value_or(scene_.form.chart.tempo).count();
        for (const auto& decision : scene_.decided) {
            if (decision.from_bar > bar.number) break;
            if (const auto* tempo = std::get_if<roadmap::NewTempo>(&decision.what)) {
                bar.bpm = tempo->tempo.count();
            }
            if (const auto* lays = std::get_if<roadmap::LaysOut>(&decision.what)) {
                lay_out(bar.decided_out, *lays);
            }
        }
    }

    void fill(WalkedBar& bar, const chart::Stretch& stretch, const chart::Way& way) const {
        const auto& asked = scene_.asked;
        decide(bar);
        bar.manner = written(bar.in_form).manner.with(stretch.manner).with(asked.manner);
        if (const auto own = written(bar.in_form).tempo) {
            const double tune = scene_.form.chart.tempo.count();
            bar.bpm = std::clamp(bar.bpm * own->count() / tune, 30.0, 400.0);
        }
        const auto meter = written(bar.in_form).meter;
        bar.swung = meter.is_compound() ? 0 : time::Beats(meter.swung()).count();
        bar.swing = swing_of(bar);
        bar.on = {asked.click || bar.manner.drums != chart::Drums::off,
                  bar.manner.bass != chart::Bass::off,
                  asked.melody && (!has_heads(way) || stretch.name == "head"), asked.guitar};
        bar.left_out = left_out(bar, stretch.silent);
    }

    static void lay_out(roadmap::WhoPlays& out, const roadmap::LaysOut& lays) {
        if (lays.who.drums) out.drums = lays.out;
        if (lays.who.bass) out.bass = lays.out;
        if (lays.who.melody) out.melody = lays.out;
        if (lays.who.guitar) out.guitar = lays.out;
    }

    [[nodiscard]] double swing_of(const WalkedBar& bar) const {
        const auto feel = bar.manner.feel.value_or(chart::Feel::swing);
        if (feel == chart::Feel::straight || feel == chart::Feel::bossa) return 1;
        if (bar.swung == 0) return 1;
        const double felt = bar.bpm / bar.swung;
        const auto ratio =
            scene_.asked.swing ? scene_.asked.swing->ratio : scene_.form.chart.swing_ratio;
        if (ratio) return *ratio;
        const bool brushes = !bar.manner.drums || bar.manner.drums == chart::Drums::brushes;
        if (brushes && felt < 75) return 2;
        return time::Swing::at(time::Bpm(felt)).ratio();
    }

    [[nodiscard]] static bool has_heads(const chart::Way& way) {
        for (const auto& stretch : way.stretches) {
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
