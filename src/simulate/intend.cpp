#include "intent.hpp"

#include <algorithm>
#include <cstdlib>
#include <iterator>
#include <numeric>

namespace compline::simulate {

namespace {

using time::Seconds;
using time::Ticks;

constexpr int home_fret = 5;  // around the middle of a comper's neck
constexpr double filled_rate = 0.6;
constexpr double rest_rate = 0.33;
constexpr double slow_rate = 0.75;  // a habit is no law
constexpr int wide_frets = 4;
constexpr int most_attempts = 40;

guitar::Shape home() { return guitar::Shape::of({home_fret, home_fret, home_fret, home_fret}); }

class IntentMaker {
  public:
    IntentMaker(const Road& road, const Habits& habits, Chance& chance)
        : road_(road), habits_(habits), chance_(chance) {}

    Intents intend() {
        choose_grips();
        do_all_once();
        wait_at_one_place();
        slow_hands();
        plant(chords_, road_, habits_, chance_);
        lose_the_way();
        for (std::size_t i = 1; i + 1 < chords_.size(); ++i) try_deeds(i);
        return {std::move(chords_), std::move(strays_)};
    }

  private:
    void choose_grips() {
        guitar::Shape last = home();
        for (const auto& area : areas_of(road_.map)) {
            Intent chord;
            chord.area = area;
            chord.grip = grip_of(area, last);
            chord.entry = entry_of(habits_.comping, road_.meter_of(area), area);
            chord.filled = chance_.uniform() < filled_rate;
            const bool rests = habits_.comping == Comping::sparse && !chords_.empty() &&
                               chance_.uniform() < rest_rate;
            if (!chord.grip || rests) chord.entry.reset();
            if (chord.grip) last = *chord.grip;
            chords_.push_back(chord);
        }
    }

    std::optional<guitar::Shape> grip_of(const Area& area, const guitar::Shape& last) {
        if (const auto planned = road_.planned(habits_, area.start)) return planned;
        const bool far = chance_.uniform() < habits_.wide_moves;
        return next_grip(area.chord, last, far, habits_.comping == Comping::bossa, chance_);
    }

    bool is_free(std::size_t i) const {
        return has_room(chords_, i) && !is_stray(i - 1) && !is_stray(i) && !is_stray(i + 1);
    }

    bool is_stray(std::size_t i) const {
        return std::any_of(strays_.begin(), strays_.end(),
                           [&](const Stray& s) { return s.first <= i && i <= s.last; });
    }

    bool do_it(Deed deed, std::size_t i) {
        return is_free(i) && commit(deed, chords_, i, road_, habits_, chance_);
    }

    /// One deed may take the place that another needs: then all are tried elsewhere. Not every
    /// tune has a place for each; the most that can be done is.
    void do_all_once() {
        const auto untouched = chords_;
        auto best = chords_;
        std::ptrdiff_t most_done = 0;
        for (int attempt = 0; attempt < most_attempts; ++attempt) {
            chords_ = untouched;
            const auto done = std::count_if(habits_.once.begin(), habits_.once.end(),
                                            [&](Deed deed) { return do_once(deed); });
            if (done <= most_done) continue;
            most_done = done;
            best = chords_;
            if (done == std::ssize(habits_.once)) break;
        }
        chords_ = std::move(best);
    }

    bool do_once(Deed deed) {
        if (chords_.size() < 3) return false;
        std::vector<std::size_t> places(chords_.size() - 2);
        std::iota(places.begin(), places.end(), 1);
        for (std::size_t n = places.size(); n > 1; --n) {
            std::swap(places[n - 1], places[chance_.below(n)]);
        }
        for (const auto i : places) {
            if (do_it(deed, i)) return true;
        }
        return false;
    }

    void wait_at_one_place() {
        if (habits_.waits == Waits::on_wide_moves) {
            for (std::size_t i = 1; i + 1 < chords_.size(); ++i) {
                if (is_wide_move(chords_, i)) do_it(Deed::wait, i);
            }
        }
        if (habits_.waits != Waits::at_one_place || chords_.size() < 3) return;
        const auto& place = chords_[1 + chance_.below(chords_.size() - 2)].area;
        for (std::size_t i = 1; i + 1 < chords_.size(); ++i) {
            const auto& area = chords_[i].area;
            if (area.bar == place.bar && area.beat == place.beat) do_it(Deed::wait, i);
        }
    }

    void slow_hands() {
        for (std::size_t i = 1; i + 1 < chords_.size(); ++i) {
            const bool wide = habits_.slow.on_wide_moves && is_wide_move(chords_, i);
            const bool after = habits_.slow.after_fills && comes_from_fill(chords_, i, habits_);
            const bool into = habits_.slow.into_sections && chords_[i].area.opens_section;
            if (!(wide || after || into) || chance_.uniform() >= slow_rate) continue;
            if (!do_it(Deed::late, i)) continue;
            chords_[i].words += wide    ? ", a wide move"
                                : after ? ", after a fill"
                                        : ", a new section";
        }
    }

    void lose_the_way() {
        for (std::size_t i = 2; i + 2 < chords_.size(); ++i) {
            if (chance_.uniform() >= habits_.rate(Deed::lost)) continue;
            if (!is_free(i) || (i >= 2 && is_stray(i - 2))) continue;
            auto stray = stray_from(chords_, i, road_, habits_, chance_);
            if (!stray) continue;
            i = stray->last + 2;
            strays_.push_back(std::move(*stray));
        }
    }

    void try_deeds(std::size_t i) {
        if (!is_free(i)) return;
        const auto first = chance_.below(deed_count);
        for (std::size_t n = 0; n < deed_count; ++n) {
            const auto deed = static_cast<Deed>((first + n) % deed_count);
            if (chance_.uniform() < habits_.rate(deed) && do_it(deed, i)) return;
        }
    }

    const Road& road_;
    const Habits& habits_;
    Chance& chance_;
    std::vector<Intent> chords_;
    std::vector<Stray> strays_;
};

}  // namespace

bool has_room(const std::vector<Intent>& chords, std::size_t i) {
    return i >= 1 && i + 1 < chords.size() && chords[i - 1].plain() && chords[i].plain() &&
           chords[i + 1].plain() && !chords[i].area.after_nothing &&
           chords[i].area.length() >= time::quarter_note * 2;
}

bool is_wide_move(const std::vector<Intent>& chords, std::size_t i) {
    return chords[i - 1].grip && chords[i].grip &&
           std::abs(lowest_fret(*chords[i - 1].grip) - lowest_fret(*chords[i].grip)) > wide_frets;
}

bool comes_from_fill(const std::vector<Intent>& chords, std::size_t i, const Habits& habits) {
    return habits.comping == Comping::fills && chords[i - 1].filled &&
           chords[i - 1].area.length() >= Ticks(2880);
}

Seconds Road::tolerance_at(Ticks at) const {
    const auto tempo = map.tempo_at(at);
    const double tenth = std::min(0.060, tempo.beat().count() / 10);
    const double short_note = map.swing(tempo).short_note(tempo).count();
    return Seconds(std::min(std::max(tenth, 0.025), short_note / 3));
}

std::optional<guitar::Shape> Road::planned(const Habits& habits, Ticks at) const {
    if (habits.voicings == nullptr) return std::nullopt;
    const auto place = map.place_at(at);
    const auto* planned = habits.voicings->at(map.form().bar(place.bar).start + place.in_bar);
    return planned == nullptr ? std::nullopt : std::optional(planned->grip.shape);
}

Spot spot_of(const std::vector<Intent>& chords, std::size_t i) {
    const auto at = [&](std::size_t n) {
        InContext where{chords[n].area.chord, std::nullopt};
        if (n + 1 < chords.size()) where.next = chords[n + 1].area.chord;
        return where;
    };
    const auto shape = [&](std::size_t n) { return chords[n].grip.value_or(guitar::Shape{}); };
    if (i == 0) return {at(0), {}, at(0), shape(0)};
    return {at(i - 1), shape(i - 1), at(i), shape(i)};
}

Intents intend(const Road& road, const Habits& habits, Chance& chance) {
    return IntentMaker(road, habits, chance).intend();
}

}  // namespace compline::simulate
