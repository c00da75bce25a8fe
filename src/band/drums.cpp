#include "drum_figures.hpp"

#include <compline/band/drums.hpp>

#include <algorithm>
#include <cassert>

namespace compline::band {

namespace {

using chart::Drums;
using chart::Feel;
using time::eighth_note;
using time::quarter_note;
using time::Ticks;

constexpr Ticks beat(int number) { return quarter_note * (number - 1); }
constexpr Ticks after_beat(int number) { return beat(number) + eighth_note; }

constexpr int feather = 34;
constexpr int foot = 72;
constexpr int click = 90;
// A kick of the whole band; the drum lies under the bass there, which is struck harder too.
constexpr int marked = 82;
constexpr int marked_kick = 44;

/// A rhythm of one hand: position and velocity.
struct Touch {
    Ticks at;
    int velocity;
};
using DrumRhythm = std::vector<Touch>;

/// The ride's rhythm. Five is three and two, six twice three.
DrumRhythm time_rhythm(int beats) {
    switch (beats) {
        case 3:
            return {{beat(1), 86}, {beat(2), 82}, {after_beat(2), 70}, {beat(3), 82}};
        case 5:
            return {{beat(1), 84}, {beat(2), 82}, {after_beat(2), 70}, {beat(3), 80},
                    {beat(4), 84}, {beat(5), 88}, {after_beat(5), 70}};
        case 6:
            return {{beat(1), 86}, {beat(2), 82}, {after_beat(2), 70}, {beat(3), 82},
                    {beat(4), 84}, {beat(5), 82}, {after_beat(5), 70}, {beat(6), 82}};
        default:
            return {{beat(1), 80}, {beat(2), 90}, {after_beat(2), 70},
                    {beat(3), 80}, {beat(4), 90}, {after_beat(4), 70}};
    }
}

bool is_off_beat(Ticks at) { return at % quarter_note != Ticks(0); }

void leave_out(DrumRhythm& rhythm, Ticks at) {
    rhythm.erase(std::remove_if(rhythm.begin(), rhythm.end(),
                                [&](const Touch& touch) { return touch.at == at; }),
                 rhythm.end());
}

/// The same with a skip left out. A waltz has one skip alone: it moves ahead of 1, or comes twice.
DrumRhythm time_rhythm(int beats, Cell cell) {
    auto rhythm = time_rhythm(beats);
    if (cell == Cell::usual) return rhythm;
    if (beats == 3 && cell != Cell::quarters) rhythm.push_back({after_beat(3), 70});
    const bool once_more = beats == 3 && cell == Cell::leads_in;
    const auto first = std::find_if(rhythm.begin(), rhythm.end(), [](const Touch& t) {
                           return is_off_beat(t.at);
                       })->at;
    const auto last = std::find_if(rhythm.rbegin(), rhythm.rend(), [](const Touch& t) {
                          return is_off_beat(t.at);
                      })->at;
    if (cell != Cell::leads_in) leave_out(rhythm, first);
    if (cell != Cell::leads_on && !once_more) leave_out(rhythm, last);
    return rhythm;
}

DrumRhythm every_beat(int beats, int velocity) {
    DrumRhythm rhythm;
    for (int number = 1; number <= beats; ++number) rhythm.push_back({beat(number), velocity});
    return rhythm;
}

/// Of a bossa; a lighter bar leaves out the off-beat after its first beat or after its third.
DrumRhythm every_eighth(int beats, int on, int off, Cell cell) {
    DrumRhythm rhythm;
    for (int number = 1; number <= beats; ++number) {
        rhythm.push_back({beat(number), on});
        rhythm.push_back({after_beat(number), off});
    }
    if (cell == Cell::leads_on || cell == Cell::quarters) leave_out(rhythm, after_beat(1));
    if (cell == Cell::leads_in || cell == Cell::quarters) leave_out(rhythm, after_beat(3));
    return rhythm;
}

/// Where a bar leans: 4/4 on 2 and 4, a waltz on 2.
bool is_back_beat(int number, int beats) {
    switch (beats) {
        case 3:
            return number == 2;
        case 4:
            return number == 2 || number == 4;
        default:
            return number == 2 || number == 5;
    }
}

/// Writes one bar.
class Drummer {
  public:
    Drummer(const DrumBar& bar, time::Meter meter)
        : bar_(bar),
          meter_(meter),
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
                add(Drum::ride, every_beat(beats_, 82));
                break;
            default:
                add(Drum::ride, time_rhythm(beats_, cell_));
                if (!ballad) add_kick();
        }
    }

    void add_foot() {
        const auto at = bar_.hihat_beats.empty() ? usual_hihat_beats(meter_) : bar_.hihat_beats;
        for (const int number : at) {
            if (number <= beats_) strokes_.push_back({beat(number), Drum::hihat_foot, foot});
        }
    }

    /// On all four beats; in other meters where the groups begin.
    void add_kick() {
        if (!bar_.manner.feathered) return;
        if (beats_ == 4) {
            add(Drum::kick, every_beat(4, feather));
            return;
        }
        for (int number = 1; number <= beats_; ++number) {
            if (begins_group(number)) strokes_.push_back({beat(number), Drum::kick, feather + 4});
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
            if (ballad && is_back_beat(number, beats_)) {
                strokes_.push_back({beat(number), Drum::brush_tap, 72});
            }
        }
        if (!ballad) add(Drum::brush_tap, time_rhythm(beats_, cell_));
        // With so few taps a lighter bar is one with a tap more, ahead of 3 or of 1.
        if (ballad && cell_ == Cell::leads_in) add(Drum::brush_tap, {{after_beat(2), 56}});
        if (ballad && cell_ == Cell::leads_on) add(Drum::brush_tap, {{after_beat(beats_), 56}});
    }

    [[nodiscard]] bool begins_group(int number) const { return meter_.is_strong(number - 1); }

    void bossa() {
        const bool brushed = bar_.manner.drums == Drums::brushes;
        if (bar_.manner.drums == Drums::quarters) {
            add(Drum::ride, every_beat(beats_, 74));
        } else {
            add(brushed ? Drum::brush_tap : Drum::ride, every_eighth(beats_, 72, 62, cell_));
        }
        const bool first = bar_.number % 2 == 0;
        if (beats_ == 4) {
            const std::vector<Ticks> sticks = first ? std::vector{beat(1), after_beat(2), beat(4)}
                                                    : std::vector{beat(2), after_beat(3)};
            for (const Ticks at : sticks) strokes_.push_back({at, Drum::cross_stick, 84});
            add(Drum::kick,
                {{beat(1), 52}, {after_beat(2), 46}, {beat(3), 54}, {after_beat(4), 46}});
            return;
        }
        for (int number = 1; number <= beats_; ++number) {
            if (!begins_group(number)) continue;
            strokes_.push_back({beat(number), Drum::kick, 52});
            strokes_.push_back(
                {first ? after_beat(number + 1) : beat(number + 1), Drum::cross_stick, 84});
        }
    }

    /// The hands alone: foot and kick stay as they are.
    void breathe() {
        const Ticks bar = quarter_note * beats_;
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

    [[nodiscard]] Ticks in_fill(int eighth) const {
        return beat(beats_ - 1) + eighth_note * eighth;
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
    int beats_;
    Cell cell_;
    std::vector<Stroke> strokes_;
};

}  // namespace

std::vector<int> usual_hihat_beats(time::Meter meter) {
    std::vector<int> beats;
    for (int number = 1; number <= meter.beats(); ++number) {
        if (is_back_beat(number, meter.beats())) beats.push_back(number);
    }
    return beats;
}

std::vector<Stroke> drum_bar(const DrumBar& bar, time::Meter meter) {
    assert(meter.beats() >= 3 && meter.beats() <= 6);
    return Drummer(bar, meter).play();
}

std::vector<Stroke> count_in(time::Meter meter, int bars) {
    assert(bars >= 0 && bars <= 2);
    std::vector<Stroke> clicks;
    for (int bar = -bars; bar < 0; ++bar) {
        for (int number = 1; number <= meter.beats(); ++number) {
            // The first of two bars is in half time.
            if (bar == -2 && !meter.is_strong(number - 1)) continue;
            clicks.push_back(
                {meter.bar() * bar + beat(number), Drum::stick, number == 1 ? click + 10 : click});
        }
    }
    return clicks;
}

}  // namespace compline::band
