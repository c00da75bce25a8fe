#include "bar_grid.hpp"
#include "drum_figures.hpp"
#include "drum_rhythms.hpp"

#include <compline/band/drums.hpp>

#include <algorithm>
#include <cassert>

namespace compline::band {

namespace {

using chart::Drums;
using chart::Feel;
using time::Ticks;

constexpr int feather = 34;
constexpr int foot = 72;
// A kick of the whole band; the drum lies under the bass there, which is struck harder too.
constexpr int marked = 82;
constexpr int marked_kick = 44;

/// Writes one bar.
class Drummer {
  public:
    Drummer(const DrumBar& bar, time::Meter meter)
        : bar_(bar),
          meter_(meter),
          grid_(meter),
          beats_(meter.beats()),
          cell_(bar.manner.breathing ? cell_of(bar.phrase, bar.number % bars_of_phrase)
                                     : Cell::usual) {}

    std::vector<Stroke> play() {
        if (bar_.manner.drums == Drums::off) return {};
        keep_time();
        if (bar_.manner.breathing) breathe();
        if (bar_.fill) fill();
        if (bar_.light_fill && !bar_.fill && bar_.manner.drums != Drums::hats) light_fill();
        if (bar_.crash) crash();
        for (const Ticks at : bar_.kicks) mark(at);
        std::stable_sort(strokes_.begin(), strokes_.end(), [](const Stroke& a, const Stroke& b) {
            return a.at != b.at ? a.at < b.at : a.drum < b.drum;
        });
        return std::move(strokes_);
    }

  private:
    void add(Drum drum, const DrumRhythm& rhythm) {
        for (const auto& touch : rhythm) strokes_.push_back({touch.at, drum, touch.velocity});
    }

    void keep_time() {
        add_foot();
        if (bar_.manner.drums == Drums::hats) return;
        if (bar_.manner.feel == Feel::bossa) {
            bossa();
            return;
        }
        const bool ballad = bar_.manner.feel == Feel::ballad;
        switch (bar_.manner.drums) {
            case Drums::brushes:
                brushes(ballad);
                break;
            case Drums::quarters:
                add(Drum::ride, every_pulse(meter_, 82));
                break;
            default:
                add(Drum::ride, time_rhythm(meter_, cell_));
                if (!ballad) add_kick();
        }
    }

    [[nodiscard]] Ticks beat(int number) const { return meter_.beat() * (number - 1); }
    /// ... and the off-beat behind it: of three eighths the last.
    [[nodiscard]] Ticks after_beat(int number) const {
        return meter_.is_compound() ? grid_.off(number - 1)
                                    : beat(number) + Ticks(meter_.beat().count() / 2);
    }

    void add_foot() {
        for (const int number : foot_beats()) {
            if (number <= beats_) strokes_.push_back({beat(number), Drum::hihat_foot, foot});
        }
    }

    /// What is asked for, in double-time once more in the bar's second half.
    [[nodiscard]] std::vector<int> foot_beats() const {
        if (bar_.hihat_beats.empty()) return usual_hihat_beats(meter_);
        auto asked = bar_.hihat_beats;
        if (!is_double_time(meter_)) return asked;
        for (const int number : bar_.hihat_beats) asked.push_back(number + beats_ / 2);
        return asked;
    }

    /// On every beat of 4/4, 2/4 and 2/2, in half-time too; in 6/8, 9/8 and 12/8 where the foot
    /// does not close; in others where the groups begin, so in double-time on the quarters: nobody
    /// feathers eighths.
    void add_kick() {
        if (!bar_.manner.feathered) return;
        const bool all =
            !grid_.compound && !is_double_time(meter_) && beats_ % 2 == 0 && beats_ < 5;
        for (int number = 1; number <= beats_; ++number) {
            const bool here = grid_.compound ? !is_back_beat(number, meter_) : begins_group(number);
            if (!all && !here) continue;
            strokes_.push_back({beat(number), Drum::kick, all ? feather : feather + 4});
        }
    }

    /// One hand stirs, a half note to a round; the other taps the ride's rhythm. A ballad has more
    /// air: a round a beat, and taps where the bar leans.
    void brushes(bool ballad) {
        for (int number = 1; number <= beats_; ++number) {
            const bool round = ballad || begins_group(number);
            if (round) strokes_.push_back({beat(number), Drum::brush_sweep, ballad ? 76 : 70});
            // At such tempi a round is over before the beat: the hand comes back on the off-beat.
            const bool comes_back = ballad && cell_ != Cell::quarters;
            if (comes_back) strokes_.push_back({after_beat(number), Drum::brush_sweep, 62});
            if (ballad && is_back_beat(number, meter_)) {
                strokes_.push_back({beat(number), Drum::brush_tap, 72});
            }
        }
        if (!ballad) add(Drum::brush_tap, tap_rhythm(meter_, cell_));
        // With so few taps a lighter bar is one with a tap more, ahead of 3 or of 1.
        const bool has_two = beats_ > 1;
        if (ballad && has_two && cell_ == Cell::leads_in) {
            add(Drum::brush_tap, {{after_beat(2), 56}});
        }
        if (ballad && cell_ == Cell::leads_on) add(Drum::brush_tap, {{after_beat(beats_), 56}});
    }

    [[nodiscard]] bool begins_group(int number) const { return meter_.is_strong(number - 1); }

    void bossa() {
        const bool brushed = bar_.manner.drums == Drums::brushes;
        if (bar_.manner.drums == Drums::quarters) {
            add(Drum::ride, every_pulse(meter_, 74));
        } else {
            add(brushed ? Drum::brush_tap : Drum::ride, every_eighth(meter_, 72, 62, cell_));
        }
        const auto bossa = bossa_bar(meter_, bar_.number % 2 == 0);
        for (const Ticks at : bossa.sticks) strokes_.push_back({at, Drum::cross_stick, 84});
        add(Drum::kick, bossa.kicks);
    }

    /// The hands alone: foot and kick stay as they are.
    void breathe() {
        const Ticks bar = meter_.bar();
        const Ticks line = bar * (bar_.number % bars_of_phrase);
        for (auto& stroke : strokes_) {
            const bool hand = stroke.drum == Drum::ride || stroke.drum == Drum::brush_tap ||
                              stroke.drum == Drum::brush_sweep;
            if (hand) stroke.velocity += swell(line + stroke.at, bar);
        }
    }

    /// Over the last beat or two, in place of what the hands did there.
    void fill() {
        const auto& figure = fill_figure(bar_.figure, bar_.manner.drums == Drums::brushes);
        clear_hands(in_fill(figure.front().eighth));
        for (const auto& stroke : figure) {
            const Ticks at = in_fill(stroke.eighth);
            if (stroke.drum == Drum::kick) {
                set_kick(at, stroke.velocity);
            } else {
                strokes_.push_back({at, stroke.drum, stroke.velocity});
            }
        }
    }

    /// Beside the time; only the hand that has a cross-stick leaves that.
    void light_fill() {
        const auto& figure = light_figure(bar_.figure, bar_.manner.drums == Drums::brushes);
        const Ticks from = in_fill(figure.front().eighth);
        strokes_.erase(std::remove_if(strokes_.begin(), strokes_.end(),
                                      [&](const Stroke& s) {
                                          return s.at >= from && s.drum == Drum::cross_stick;
                                      }),
                       strokes_.end());
        for (const auto& stroke : figure) {
            strike_at_least(in_fill(stroke.eighth), stroke.drum, stroke.velocity);
        }
    }

    /// Figures are of two beats. A bar of a single one, as 2/4 in half-time has, plays them twice
    /// as fast.
    [[nodiscard]] Ticks in_fill(int eighth) const {
        if (grid_.pulses < 2) return Ticks(grid_.bar.count() * eighth / 4);
        const int pulse = grid_.pulses - 2 + eighth / 2;
        return eighth % 2 == 0 ? grid_.on(pulse) : grid_.off(pulse);
    }

    void strike_at_least(Ticks at, Drum drum, int velocity) {
        for (auto& stroke : strokes_) {
            if (stroke.at != at || stroke.drum != drum) continue;
            stroke.velocity = std::max(stroke.velocity, velocity);
            return;
        }
        strokes_.push_back({at, drum, velocity});
    }

    void crash() {
        strokes_.erase(std::remove_if(strokes_.begin(), strokes_.end(),
                                      [](const Stroke& s) {
                                          return s.at == Ticks(0) && s.drum == Drum::ride;
                                      }),
                       strokes_.end());
        strokes_.push_back({Ticks(0), Drum::crash, 72});
        set_kick(Ticks(0), 46);
    }

    /// Snare (or brush) and kick together.
    void mark(Ticks at) {
        const bool brushed = bar_.manner.drums == Drums::brushes;
        const Drum drum = brushed ? Drum::brush_tap : Drum::snare;
        strokes_.erase(
            std::remove_if(strokes_.begin(), strokes_.end(),
                           [&](const Stroke& s) { return s.at == at && s.drum == drum; }),
            strokes_.end());
        strokes_.push_back({at, drum, marked});
        set_kick(at, marked_kick);
    }

    void set_kick(Ticks at, int velocity) {
        for (auto& stroke : strokes_) {
            if (stroke.at != at || stroke.drum != Drum::kick) continue;
            stroke.velocity = velocity;
            return;
        }
        strokes_.push_back({at, Drum::kick, velocity});
    }

    void clear_hands(Ticks from) {
        strokes_.erase(std::remove_if(strokes_.begin(), strokes_.end(),
                                      [&](const Stroke& s) {
                                          const bool foot_plays =
                                              s.drum == Drum::hihat_foot || s.drum == Drum::kick;
                                          return s.at >= from && !foot_plays;
                                      }),
                       strokes_.end());
    }

    const DrumBar& bar_;
    time::Meter meter_;
    BarGrid grid_;
    int beats_;  ///< of the foot
    Cell cell_;
    std::vector<Stroke> strokes_;
};

}  // namespace

std::vector<int> usual_hihat_beats(time::Meter meter) {
    std::vector<int> beats;
    for (int number = 1; number <= meter.beats(); ++number) {
        if (is_back_beat(number, meter)) beats.push_back(number);
    }
    return beats;
}

std::vector<Stroke> drum_bar(const DrumBar& bar, time::Meter meter) {
    return Drummer(bar, meter).play();
}

}  // namespace compline::band
