#include <compline/assess/together.hpp>
#include <compline/practice/time_alone.hpp>
#include <compline/practice/together.hpp>
#include <compline/text/bad_input.hpp>

#include <algorithm>
#include <variant>

namespace compline::practice {

namespace {

using roadmap::Decision;
using roadmap::NewTempo;
using roadmap::RoadMap;

/// All ways behind one another, and the tempi that were decided, in the bars of that.
class JoinedRoad {
  public:
    explicit JoinedRoad(const RoadMap& first)
        : form_(first.form()), asked_(first.asked()), tempo_(first.tempo()) {
        asked_.tempo = tempo_;
        asked_.way = {};
    }

    void add(const RoadMap& map) {
        change_to(map.tempo(), bars_ + 1);
        std::int64_t waits = 0;
        auto decision = map.decided().begin();
        for (std::int64_t number = 1; number <= map.bars().value(); ++number) {
            if (map.bar(number).in_form() == 0) ++waits;  // no bar of the form: a pause
            for (; decision != map.decided().end() && decision->from_bar <= number; ++decision) {
                const auto* const tempo = std::get_if<NewTempo>(&decision->what);
                if (tempo != nullptr) change_to(tempo->tempo, bars_ + number - waits);
            }
        }
        bars_ += map.bars().value() - waits;
        const auto way = map.way();
        asked_.way.stretches.insert(asked_.way.stretches.end(), way.stretches.begin(),
                                    way.stretches.end());
        if (map.asked().silence != asked_.silence) asked_.silence.reset();
    }

    [[nodiscard]] RoadMap map() const { return {form_, asked_, decided_}; }

  private:
    void change_to(time::Bpm tempo, std::int64_t from_bar) {
        if (tempo == tempo_) return;
        tempo_ = tempo;
        decided_.push_back({from_bar, NewTempo{tempo}});
    }

    chart::Form form_;
    roadmap::Asked asked_;
    time::Bpm tempo_;
    std::int64_t bars_ = 0;
    std::vector<Decision> decided_;
};

bool of_one_chart(std::span<const Report> takes) {
    return std::all_of(takes.begin(), takes.end(), [&](const Report& take) {
        return take.chart_hash == takes.front().chart_hash;
    });
}

void add(const listen::Cleaned& more, listen::Cleaned& cleaned) {
    cleaned.ghosts += more.ghosts;
    cleaned.double_triggers += more.double_triggers;
    cleaned.flickers += more.flickers;
    cleaned.lift_offs += more.lift_offs;
    cleaned.frets_passed += more.frets_passed;
    cleaned.unended += more.unended;
    cleaned.impossible += more.impossible;
}

/// In the order of what they belong to.
std::vector<assess::OneOfAll> one_after_the_other(std::span<const Report> takes,
                                                  const RoadMap& map) {
    std::vector<assess::OneOfAll> all;
    int times = 0;
    for (const auto& take : takes) {
        const auto from = map.tempi().time_of(map.start(times + 1));
        all.push_back({&take.assessment, times, map.first_bar(times + 1) - 1, from});
        times += take.map.times_through().value();
    }
    return all;
}

/// Where no road map may be so long.
std::optional<RoadMap> joined_map(std::span<const Report> takes) {
    JoinedRoad road(takes.front().map);
    for (const auto& take : takes) road.add(take.map);
    try {
        return road.map();
    } catch (const text::BadInput&) {
        return std::nullopt;
    }
}

std::optional<Report> together_alike(std::span<const Report> takes) {
    const auto map = joined_map(takes);
    if (!map) return std::nullopt;
    auto whole = takes.front();
    whole.map = *map;
    whole.heard.notes.clear();
    whole.heard.interruptions.clear();
    whole.heard.unheard.clear();
    whole.assessment = assess::together(one_after_the_other(takes, *map),
                                        whole.settings.part.value_or(map->way().reach()));
    whole.machine.reset();
    whole.hints.clear();
    whole.made.clear();
    whole.take.clear();
    for (const auto& take : takes.subspan(1)) {
        add(take.cleaned, whole.cleaned);
        if (take.strings != whole.strings) whole.strings.reset();
        if (take.placement != whole.placement) whole.placement.clear();
    }
    return whole;
}

}  // namespace

std::optional<Report> together(std::span<const Report> takes) {
    if (takes.size() < 2 || !of_one_chart(takes)) return std::nullopt;
    const auto by_midi = std::count_if(takes.begin(), takes.end(), judges_tones);
    if (by_midi == 0 || by_midi == std::ssize(takes)) return together_alike(takes);
    std::vector<Report> alike;
    for (const auto& take : takes) alike.push_back(by_time_alone(take));
    return together_alike(alike);
}

}  // namespace compline::practice
