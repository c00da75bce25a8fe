#include "intent.hpp"

#include <algorithm>
#include <map>
#include <string>

namespace compline::simulate {

namespace {

using Strikes = Planted::Strikes;
using Chords = std::vector<Intent>;
using CaseList = std::vector<std::size_t>;

constexpr double nearly_all = 0.9;
constexpr double mostly = 0.75;  // of what is not chosen: wide moves, fills, sections
constexpr std::size_t fewest_cases = 3;

bool is_at_the_place(const Area& one, const Area& other) {
    return one.bar == other.bar && one.beat == other.beat;
}

/// The same third, fifth and seventh, and altered in the same way.
bool is_of_the_quality(const harmony::Chord& one, const harmony::Chord& other) {
    const auto a = frame_of(one);
    const auto b = frame_of(other);
    return a.third == b.third && a.fifth == b.fifth && a.seventh == b.seventh &&
           a.needs_seventh == b.needs_seventh && one.alterations == other.alterations;
}

bool is_the_transition(const Chords& chords, std::size_t i, std::size_t other) {
    return chords[i].area.chord.symbol() == chords[other].area.chord.symbol() &&
           chords[i - 1].area.chord.symbol() == chords[other - 1].area.chord.symbol();
}

/// It has with change `model` in common what is planted.
bool belongs(const Chords& chords, std::size_t i, std::size_t model, const Habits& habits) {
    switch (habits.planted.strikes) {
        case Strikes::nowhere:
            return false;
        case Strikes::at_one_place:
            return is_at_the_place(chords[i].area, chords[model].area);
        case Strikes::on_a_transition:
            return is_the_transition(chords, i, model);
        case Strikes::on_wide_moves:
            return is_wide_move(chords, i);
        case Strikes::after_fills:
            return comes_from_fill(chords, i, habits);
        case Strikes::into_sections:
            return chords[i].area.opens_section;
        case Strikes::on_a_quality:
            return is_of_the_quality(chords[i].area.chord, chords[model].area.chord);
        case Strikes::anywhere:
            return true;
    }
    return false;
}

CaseList cases_like(const Chords& chords, std::size_t model, const Habits& habits) {
    CaseList cases;
    for (std::size_t i = 1; i + 1 < chords.size(); ++i) {
        if (belongs(chords, i, model, habits)) cases.push_back(i);
    }
    return cases;
}

bool is_chosen(Strikes strikes) {
    return strikes == Strikes::at_one_place || strikes == Strikes::on_a_transition ||
           strikes == Strikes::on_a_quality;
}

/// At more than one place, and a quality after more than one chord: else it could as well be
/// called that place or that transition.
bool is_general(const Chords& chords, const CaseList& cases, Strikes strikes) {
    if (strikes == Strikes::at_one_place) return true;
    std::map<std::pair<int, time::BeatOfBar>, std::size_t> places;
    std::map<std::string, std::size_t> transitions;
    std::size_t most = 0;
    for (const auto i : cases) {
        const auto& area = chords[i].area;
        most = std::max(most, ++places[{area.bar, area.beat}]);
        if (strikes != Strikes::on_a_quality) continue;
        const auto symbols = chords[i - 1].area.chord.symbol() + area.chord.symbol();
        most = std::max(most, ++transitions[symbols]);
    }
    constexpr double more_than_half = 0.6;
    return static_cast<double>(most) <= more_than_half * static_cast<double>(cases.size());
}

/// Late chords in a row are plain too: fills and wide moves come in rows.
bool has_room_in_row(const Chords& chords, std::size_t i, Deed deed) {
    if (deed != Deed::late) return has_room(chords, i);
    const auto& before = chords[i - 1];
    const bool late_before = before.planted && before.grip && before.entry;
    return (before.plain() || late_before) && chords[i].plain() && chords[i + 1].plain() &&
           !chords[i].area.after_nothing && chords[i].area.length() >= beat * 2;
}

struct Planting {
    double done = 0;
    double could = 0;  ///< cases that there were
};

Planting do_all(Chords& chords, const CaseList& cases, double rate, const Road& road,
                const Habits& habits, Chance& chance) {
    Planting planting;
    for (const auto i : cases) {
        // Who comes late plays no fill then.
        const bool no_fill =
            habits.planted.strikes == Strikes::after_fills && chords[i - 1].planted;
        if (no_fill) continue;
        ++planting.could;
        if (chance.uniform() >= rate || !has_room_in_row(chords, i, habits.planted.deed)) continue;
        if (!commit(habits.planted.deed, chords, i, road, habits, chance)) continue;
        chords[i].planted = true;
        ++planting.done;
    }
    return planting;
}

/// It can go wrong on this part of them or more: else it would strike less often than it should.
bool is_plain(const Chords& chords, const CaseList& cases, double part, const Road& road,
              const Habits& habits, Chance& chance) {
    auto tried = chords;
    const auto planting = do_all(tried, cases, 1, road, habits, chance);
    return planting.done >= part * planting.could;
}

/// What is like some change on which it can go wrong again and again; empty where nothing is.
CaseList choose(const Chords& chords, const Road& road, const Habits& habits, Chance& chance) {
    for (int attempt = 0; attempt < 200; ++attempt) {
        const auto model = 1 + static_cast<std::size_t>(chance.below(chords.size() - 2));
        auto cases = cases_like(chords, model, habits);
        if (cases.size() < fewest_cases) continue;
        if (!is_general(chords, cases, habits.planted.strikes)) continue;
        if (is_plain(chords, cases, nearly_all, road, habits, chance)) return cases;
    }
    return {};
}

}  // namespace

void plant(Chords& chords, const Road& road, const Habits& habits, Chance& chance) {
    if (habits.planted.strikes == Strikes::nowhere || chords.size() < 3) return;
    const auto strikes = habits.planted.strikes;
    const auto cases =
        is_chosen(strikes) ? choose(chords, road, habits, chance) : cases_like(chords, 1, habits);
    const bool weak = !is_chosen(strikes) && strikes != Strikes::anywhere &&
                      !is_plain(chords, cases, mostly, road, habits, chance);
    if (!weak) (void)do_all(chords, cases, habits.planted.rate, road, habits, chance);
}

}  // namespace compline::simulate
