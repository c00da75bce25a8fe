#include "chorus_plan.hpp"
#include "figures.hpp"
#include "strokes.hpp"

#include <algorithm>
#include <array>
#include <utility>

namespace compline::simulate {

namespace {

using guitar::Shape;
using time::Seconds;
using time::Ticks;

constexpr Ticks beat = time::quarter_note;
constexpr Seconds old_chord_let_go{0.050};  // after the change at the latest

/// Comping rhythms after the first strum: half-beats from there, in each bar.
const std::vector<std::vector<int>> rhythms = {
    {},         // once
    {3},        // the Charleston
    {2, 6},     // and on 2 and 4
    {2, 4, 6},  // four to the bar
    {3, 6},    {5}, {7}, {1, 4}, {3, 7},
};

template <class T>
const T& one_of(const std::vector<T>& all, Chance& chance) {
    return all[chance.below(all.size())];
}

bool is_figure(Deed deed) { return deed >= Deed::lead_in; }

/// Writes a plan down stroke by stroke.
class Writer {
  public:
    Writer(const chart::Form& form, const Hand& hand, std::vector<PlannedChange> plan,
           Chance& chance)
        : form_(form), hand_(hand), plan_(std::move(plan)), chance_(chance) {}

    Chorus write() {
        prepared_by_.resize(plan_.size());
        for (std::size_t i = 1; i < plan_.size(); ++i) embellish(i);
        Chorus chorus{hand_.groove, {}, {}};
        for (std::size_t i = 0; i < plan_.size(); ++i) {
            chorus.changes.push_back(played(i));
            if (plan_[i].deed == Deed::laid_out) continue;
            strike(i);
            comp(i);
        }
        put_in_order(strokes_);
        let_go_in_time();
        chorus.script = let_ring(strokes_, hand_, chance_);
        return chorus;
    }

  private:
    Ticks at(std::size_t i, Ticks in) const { return plan_[i].at + in; }
    Seconds time_of(std::size_t i, Ticks in) const { return hand_.groove.time_of(at(i, in)); }

    Seconds landing(std::size_t i) const { return time_of(i, plan_[i].entry) + plan_[i].off; }

    PlayedChange played(std::size_t i) const {
        const PlannedChange& change = plan_[i];
        PlayedChange played{change.pass,    change.bar,     change.beat,  change.at,
                            change.chord,   change.deed,    change.words, {},
                            change.foreign, change.left_out};
        const bool lands = change.deed != Deed::missed && change.deed != Deed::laid_out;
        if (lands) played.landing = landing(i);
        return played;
    }

    Stroke& add(Stroke::Kind kind, Ticks written, Seconds off, const Shape& shape) {
        Stroke stroke;
        stroke.kind = kind;
        stroke.strum.at = written;
        stroke.strum.lateness = off;
        stroke.strum.shape = shape;
        stroke.strum.velocity = 70 + static_cast<int>(chance_.below(25));
        stroke.strum.per_string = Seconds(0.002) + Seconds(0.002) * chance_.uniform();
        stroke.on = hand_.groove.time_of(written) + off;
        strokes_.push_back(stroke);
        return strokes_.back();
    }

    Seconds scattered() { return hand_.scattered(chance_); }

    void strike(std::size_t i) {
        add(Stroke::Kind::grip, at(i, plan_[i].entry), plan_[i].off, plan_[i].struck);
    }

    /// From where on, in a chord, the next one is being prepared.
    Ticks end_of_comping(std::size_t i) const {
        const Ticks length = plan_[i].length;
        if (plan_[i].deed == Deed::missed) return length - beat;
        if (i + 1 == plan_.size()) return length;
        if (plan_[i + 1].quiet_before) return length - beat;
        if (plan_[i + 1].deed == Deed::push) return length - half_beat;
        return length - prepared_by_[i + 1];
    }

    void comp(std::size_t i) {
        const PlannedChange& change = plan_[i];
        const bool spoilt_throughout =
            change.deed == Deed::missed || change.deed == Deed::missing_seventh;
        const Ticks from = change.deed == Deed::late || change.deed == Deed::push
                               ? beat
                               : std::max(change.entry, Ticks(0)) + half_beat;
        const auto& rhythm = one_of(rhythms, chance_);
        const Ticks bar = form_.chart.meter.bar();
        const auto comp_at = [&](Ticks in) {
            if (in < from || in >= end_of_comping(i)) return;
            add(Stroke::Kind::grip, at(i, in), scattered(),
                spoilt_throughout ? change.struck : change.grip)
                .may_go = true;
        };
        for (Ticks line; line < change.length; line += bar) {
            if (line > Ticks(0)) comp_at(line);
            for (const int half_beats : rhythm) {
                if (half_beat * half_beats < bar) comp_at(line + half_beat * half_beats);
            }
        }
    }

    /// Plays a figure, if the deed is one. One that finds no room is given up.
    void embellish(std::size_t i) {
        PlannedChange& change = plan_[i];
        if (!change.deed || !is_figure(*change.deed)) return;
        const auto figure = simulate::figure(*change.deed, plan_, i, form_, hand_, chance_);
        if (!figure) {
            change.deed.reset();
            return;
        }
        change.words = figure->words();
        for (const auto& part : figure->parts) {
            // A gesture into a chord is as far off as the chord is, nearly.
            const bool into = part.in < Ticks(0);
            const Seconds off = into ? change.off + scattered() * 0.25 : scattered();
            add(part.kind, at(i, part.in), off, part.shape);
            if (into) prepared_by_[i] = -part.in;
        }
    }

    /// The last grip of the chord before change i, where it must ring until a time, or no longer.
    void let_go_in_time() {
        for (std::size_t i = 1; i < plan_.size(); ++i) {
            const bool gone = plan_[i].deed == Deed::laid_out || plan_[i].deed == Deed::later_entry;
            if (!gone && !plan_[i].held_over) continue;
            Stroke* last = nullptr;
            for (Stroke& stroke : strokes_) {
                const bool before = stroke.on < (gone ? time_of(i, Ticks(0)) : landing(i));
                if (before && (!last || stroke.on > last->on)) last = &stroke;
            }
            if (!last) continue;
            last->held = plan_[i].held_over;
            const Seconds earlier = hand_.beat() * 0.3 * chance_.uniform();
            last->until = gone ? time_of(i, Ticks(0)) + old_chord_let_go - earlier : landing(i);
        }
    }

    const chart::Form& form_;
    const Hand& hand_;
    std::vector<PlannedChange> plan_;
    Chance& chance_;
    std::vector<Ticks> prepared_by_;  ///< how long before a change its gesture begins
    std::vector<Stroke> strokes_;
};

constexpr std::array<std::string_view, deed_count> deed_names = {
    "late",          "wrong third", "stuck finger", "missing seventh", "missed",
    "push",          "later entry", "laid out",     "lead-in",         "approach",
    "passing chord", "fill",        "dead strum"};

}  // namespace

std::string_view name_of(Deed deed) { return deed_names[static_cast<std::size_t>(deed)]; }

Chorus play_chorus(const chart::Form& form, const time::Groove& groove,
                   const ChorusRequest& request) {
    Chance chance(request.seed);
    const Hand hand(groove, request.scatter);
    return Writer(form, hand, plan_chorus(form, hand, request.deeds, chance), chance).write();
}

}  // namespace compline::simulate
