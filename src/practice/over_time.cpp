#include <compline/chart/transpose.hpp>
#include <compline/harmony/transpose.hpp>
#include <compline/practice/evening_date.hpp>
#include <compline/practice/over_time.hpp>
#include <compline/practice/time_alone.hpp>

#include <algorithm>
#include <array>
#include <cassert>
#include <utility>

namespace compline::practice {

namespace {

constexpr std::array<std::string_view, 4> became_names = {"worse", "better", "same", "once"};

std::optional<TempoBounds> tempi_of(const roadmap::RoadMap& map) {
    std::optional<TempoBounds> tempi;
    for (std::int64_t number = 1; number <= map.bars().value(); ++number) {
        const auto bar = map.bar(number);
        if (bar.waits) continue;
        tempi = around_both(tempi, TempoBounds{bar.tempo, bar.tempo});
    }
    return tempi;
}

/// An evening while its takes come in.
struct EveningInPlaces {
    PlayedEvening evening;
    Places places;

    void add_take(const TakeInPlaces& take) {
        evening.takes.push_back(take.take);
        evening.tempi = around_both(evening.tempi, take.tempi);
        const auto& keys = evening.keys;
        if (std::find(keys.begin(), keys.end(), take.key) == keys.end()) {
            evening.keys.push_back(take.key);
        }
        add(take.places, places);
        for (const auto& [where, place] : take.places) evening.all += place.figures;
    }
};

std::vector<EveningInPlaces> by_evening(const std::vector<TakeInPlaces>& takes) {
    std::vector<EveningInPlaces> evenings;
    for (const auto& take : takes) {
        const auto date = evening_of(take.made);
        if (evenings.empty() || date.empty() || evenings.back().evening.date != date) {
            evenings.push_back({{date, {}, {}, {}, {}}, {}});
        }
        evenings.back().add_take(take);
    }
    return evenings;
}

/// The places of all takes, their changes named in the key of the last.
Places named_in_last_key(const std::vector<TakeInPlaces>& takes) {
    const auto& into = takes.back().key;
    Places all;
    for (const auto& take : takes) {
        auto places = take.places;
        const int fifths =
            harmony::place_in_fifths(into.tonic) - harmony::place_in_fifths(take.key.tonic);
        const auto move = [&](harmony::Chord& chord) {
            chord = harmony::transposed(chord, fifths, chart::sharps_of(into));
        };
        for (auto& [where, place] : places) {
            if (take.key == into) break;
            move(place.to);
            if (place.from) move(*place.from);
        }
        add(places, all);
    }
    return all;
}

PlaceOverTime place_over_time(const std::pair<int, time::BeatOfBar>& where,
                              const PlaceInTakes& named,
                              const std::vector<EveningInPlaces>& evenings) {
    PlaceOverTime place;
    std::vector<PlaceFigures> played;
    for (const auto& evening : evenings) {
        const auto found = evening.places.find(where);
        const bool is_there = found != evening.places.end();
        place.on.push_back(is_there ? std::optional(found->second.figures) : std::nullopt);
        if (is_there) played.push_back(found->second.figures);
    }
    place.evenings = played.size();
    place.between = {where.first, where.second, named.section, named.from, named.to, {}, {}};
    for (std::size_t i = 0; i < third_of(played.size()); ++i) {
        place.between.before += played[i];
        place.between.after += played[played.size() - 1 - i];
    }
    return place;
}

}  // namespace

std::optional<TempoBounds> around_both(const std::optional<TempoBounds>& one,
                                       const std::optional<TempoBounds>& other) {
    if (!one || !other) return one ? one : other;
    return TempoBounds{std::min(one->slowest, other->slowest),
                       std::max(one->fastest, other->fastest)};
}

std::string_view name_of(Became became) { return became_names[static_cast<std::size_t>(became)]; }

TakeInPlaces in_places(const Report& report, bool tones_too) {
    const auto& chart = report.map.form().chart;
    return {chart.title,
            report.program,
            report.take,
            report.made,
            chart.key,
            tempi_of(report.map),
            !judges_tones(report),
            tones_too ? places_of(report) : places_of(by_time_alone(report))};
}

Became PlaceOverTime::became() const {
    if (evenings < 2) return Became::once;
    if (between.is_better()) return Became::better;
    return between.is_worse() ? Became::worse : Became::same;
}

bool PlaceOverTime::always_right() const {
    return std::all_of(on.begin(), on.end(),
                       [](const auto& figures) { return !figures || figures->cost == 0; });
}

int OverTime::count(Became became) const {
    return static_cast<int>(std::count_if(
        places.begin(), places.end(), [&](const auto& place) { return place.became() == became; }));
}

bool OverTime::in_several_keys() const {
    return std::any_of(evenings.begin(), evenings.end(), [&](const PlayedEvening& evening) {
        return evening.keys.size() > 1 || evening.keys.front() != key;
    });
}

std::size_t third_of(std::size_t evenings) { return std::max<std::size_t>(evenings / 3, 1); }

OverTime over_time(std::vector<TakeInPlaces> takes) {
    assert(!takes.empty());
    std::stable_sort(takes.begin(), takes.end(), [](const auto& a, const auto& b) {
        return order_in_time(a.made, a.take) < order_in_time(b.made, b.take);
    });
    const auto& last = takes.back();
    OverTime over;
    over.title = last.title;
    over.program = last.program;
    over.key = last.key;
    over.takes = static_cast<int>(takes.size());
    over.takes_by_sound = static_cast<int>(std::count_if(
        takes.begin(), takes.end(), [](const TakeInPlaces& take) { return take.by_sound; }));
    over.time_alone = over.takes_by_sound > 0;
    const auto evenings = by_evening(takes);
    for (const auto& evening : evenings) over.evenings.push_back(evening.evening);
    for (const auto& [where, named] : named_in_last_key(takes)) {
        auto place = place_over_time(where, named, evenings);
        if (place.became() != Became::once) {
            over.before += place.between.before;
            over.after += place.between.after;
        }
        over.places.push_back(std::move(place));
    }
    return over;
}

}  // namespace compline::practice
