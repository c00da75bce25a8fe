#include "figures.hpp"

#include <compline/time/strong_beat.hpp>

#include <fmt/format.h>

#include <array>
#include <cmath>
#include <cstdlib>
#include <utility>

namespace compline::simulate {

namespace {

using guitar::Place;
using guitar::Shape;
using time::Seconds;
using time::Ticks;

constexpr Ticks beat = time::quarter_note;
/// Nearer than that, two strokes are heard as one rake.
constexpr Seconds one_strum{0.060};
constexpr int highest_bass_fret = 12;
constexpr int reach = 4;  // frets from a grip to a single note

class FigureWriter {
  public:
    FigureWriter(const std::vector<PlannedChange>& plan, std::size_t i, const chart::Form& form,
                 const Hand& hand, Chance& chance)
        : change_(plan[i]),
          before_(plan[i - 1]),
          after_(i + 1 < plan.size() ? &plan[i + 1] : nullptr),
          form_(form),
          hand_(hand),
          chance_(chance) {}

    bool write(Deed deed) {
        switch (deed) {
            case Deed::lead_in:
                return lead_in();
            case Deed::approach:
                return approach();
            case Deed::passing_chord:
                return passing_chord();
            case Deed::fill:
                return fill();
            case Deed::dead_strum:
                return dead_strum();
            default:
                return false;
        }
    }
    Figure take() { return std::move(figure_); }

  private:
    void add(Stroke::Kind kind, Ticks in, const Shape& shape) {
        figure_.parts.push_back({kind, in, shape});
    }

    template <class T>
    const T& one_of(const std::vector<T>& all) {
        return all[chance_.below(all.size())];
    }

    bool is_foreign(const PlannedChange& change, const Shape& grip) const {
        return widest_palette(change.chord, form_.chart.key).foreign(sounding(grip)).any();
    }

    bool is_weak(Ticks in) const {
        const Ticks bar = form_.chart.meter.bar();
        const Ticks from_line(std::llround((change_.beat - 1) * 960) + in.count());
        const auto half_beats = (from_line + bar) % bar / half_beat;
        if (half_beats % 2 != 0) return true;
        return !time::is_strong_beat(form_.chart.meter, static_cast<int>(half_beats / 2));
    }

    /// However the player's time scatters at either end, these are two strums.
    bool has_time(Ticks from, Ticks to) const {
        const auto time_of = [&](Ticks in) { return hand_.groove.time_of(change_.at + in); };
        return time_of(to) - time_of(from) > one_strum + hand_.widest() * 2;
    }

    /// The root or bass from two frets above or below, or itself.
    bool lead_in() {
        const auto board = guitar::Fretboard::standard();
        const int target = change_.chord.bass.value_or(change_.chord.root).pitch_class();
        std::vector<Place> places;
        for (const int string : {6, 5}) {
            for (int fret = 1; fret <= highest_bass_fret; ++fret) {
                const int above = board.note({string, fret}).pitch_class() - target;
                const int steps = (above + 12 + 2) % 12 - 2;
                const bool near = std::abs(fret - lowest_fret(change_.grip)) <= reach;
                if (near && steps <= 2) places.push_back({string, fret});
            }
        }
        if (places.empty()) return false;
        const Place place = one_of(places);
        Shape note;
        note.frets[static_cast<std::size_t>(place.string - 1)] = place.fret;
        add(Stroke::Kind::line, chance_.below(2) == 0 ? -half_beat : -beat, note);
        return true;
    }

    /// From below mostly. A grip that the old chord has a use for is no approach.
    bool approach() {
        const auto grip = moved(change_.grip, chance_.below(3) == 0 ? 1 : -1);
        const Ticks in = chance_.below(2) == 0 ? -half_beat : -beat;
        const bool is_one =
            grip && is_weak(in) && is_foreign(change_, *grip) && is_foreign(before_, *grip);
        if (is_one) add(Stroke::Kind::grip, in, *grip);
        return is_one;
    }

    /// This chord's grip, come back to in its last beat, could as well be a push of the next.
    bool resolves_into_either() const {
        return after_ &&
               HandChange{change_.chord, change_.grip, after_->chord, after_->grip, form_.chart.key}
                   .old_grip_will_do();
    }

    /// Not in the last beat of a chord, where it might be a push of the next.
    bool passing_chord() {
        const Ticks end = change_.length - (resolves_into_either() ? beat : Ticks(0));
        std::vector<std::pair<Ticks, Ticks>> places;
        for (Ticks in = half_beat; in < change_.length - beat; in += half_beat) {
            for (const Ticks resolved : {in + half_beat, in + beat}) {
                const bool room = resolved < end && has_time(Ticks(0), in) &&
                                  has_time(in, resolved) && has_time(resolved, change_.length);
                if (room && is_weak(in)) places.emplace_back(in, resolved);
            }
        }
        const auto grip =
            moved(change_.grip, std::array<int, 4>{-1, 1, -2, 2}.at(chance_.below(4)));
        if (places.empty() || !grip || !is_foreign(change_, *grip)) return false;
        const auto& [in, resolved] = one_of(places);
        add(Stroke::Kind::grip, in, *grip);
        add(Stroke::Kind::grip, resolved, change_.grip);
        return true;
    }

    /// Away from the change, and not in the chord's last beat either.
    bool fill() {
        const Ticks last = change_.length - beat;
        const auto places = static_cast<std::uint64_t>((last - beat) / half_beat);
        if (places == 0) return false;
        Ticks in = beat + half_beat * static_cast<std::int64_t>(chance_.below(places));
        const auto notes = 1 + chance_.below(4);
        for (std::uint64_t n = 0; n < notes && in < last; ++n) {
            add(Stroke::Kind::line, in, line_note());
            in += has_time(in, in + half_beat) && chance_.below(3) > 0 ? half_beat : beat;
        }
        return true;
    }

    /// A note, or two on neighbouring strings; mostly of the chord.
    Shape line_note() {
        const auto palette = plainest_palette(change_.chord);
        const bool of_the_chord = chance_.below(4) > 0;
        const bool two = chance_.below(3) == 0;
        const int low = lowest_fret(change_.grip);
        const auto fret = [&] { return low + static_cast<int>(chance_.below(reach + 1)); };
        Shape line;
        for (int tries = 0; tries < 50; ++tries) {
            line = {};
            const auto string = chance_.below(two ? 3 : 6);
            line.frets[string] = fret();
            if (two) line.frets[string + 1] = fret();
            if (!of_the_chord || palette.foreign(sounding(line)).none()) break;
        }
        return line;
    }

    /// Lifted fingers stop the strings wherever they lie.
    bool dead_strum() {
        const auto places = static_cast<std::uint64_t>(change_.length / half_beat - 1);
        const Ticks in = half_beat * static_cast<std::int64_t>(1 + chance_.below(places));
        const auto lifted = moved(change_.grip, static_cast<int>(chance_.below(3)) - 1);
        const bool room = has_time(Ticks(0), in) && has_time(in, change_.length);
        if (room && lifted) add(Stroke::Kind::dead, in, *lifted);
        return room && lifted;
    }

    const PlannedChange& change_;
    const PlannedChange& before_;
    const PlannedChange* after_;  ///< none: the last change
    const chart::Form& form_;
    const Hand& hand_;
    Chance& chance_;
    Figure figure_;
};

}  // namespace

std::string Figure::words() const {
    std::string text;
    for (const Part& part : parts) {
        const double beats = time::Beats(part.in).count();
        text += fmt::format("{}{} {:g} beats {}", text.empty() ? "" : ", ", part.shape.text(),
                            std::fabs(beats), beats < 0 ? "before" : "in");
    }
    return text;
}

std::optional<Figure> figure(Deed deed, const std::vector<PlannedChange>& plan, std::size_t i,
                             const chart::Form& form, const Hand& hand, Chance& chance) {
    FigureWriter writer(plan, i, form, hand, chance);
    if (!writer.write(deed)) return std::nullopt;
    return writer.take();
}

}  // namespace compline::simulate
