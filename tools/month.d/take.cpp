#include "take.hpp"

#include <compline/chart/road_map_text.hpp>
#include <compline/chart/write_chart.hpp>
#include <compline/files/file_io.hpp>
#include <compline/midi/smf.hpp>
#include <compline/practice/evening.hpp>
#include <compline/yaml/in_quotes.hpp>

#include <fmt/format.h>

#include <array>

namespace compline::month {

namespace {

using time::Seconds;

constexpr Seconds longest_ladder{360};

roadmap::Asked read(const Tune& tune, const AskedTake& asked) {
    const bool whole = asked.bars == tune.form.whole();
    const auto times =
        asked.until_stopped || asked.ladder ? std::nullopt : std::optional(asked.times);
    auto all = roadmap::Asked::of(asked.bars, times);
    all.way = chart::Way::through(tune.form, asked.bars, times);
    const auto own = chart::own_road_map(tune.form);
    if (own && whole && asked.what == What::tune) all.way = *own;
    all.tempo = asked.tempo;
    all.ladder = asked.ladder;
    return all;
}

/// Of no real machine.
practice::Machine machine(simulate::Chance& chance) {
    practice::Machine all;
    all.output = "Headphones";
    all.input = "Guitar";
    all.rate_hz = 48000;
    all.period_frames = 128;
    all.latency_ms = 8;
    all.worst_callback_ms = 0.2 + 0.05 * static_cast<double>(chance.below(9));
    return all;
}

practice::TakeInfo opening(const Tune& tune, const roadmap::RoadMap& map) {
    auto info = practice::info_of(map, tune.text);
    info.program = "compline " COMPLINE_VERSION;
    return info;
}

/// When whoever plays until he stops does so: as the last time through ends, or a little into
/// the next.
Seconds stops_at(const AskedTake& asked, const roadmap::RoadMap& map, simulate::Chance& chance) {
    if (asked.ladder) return longest_ladder;
    if (!asked.until_stopped) return Seconds(1e9);
    const auto end = map.tempi().time_of(map.start(asked.times + 1));
    return end + Seconds(0.2 + 1.3 * chance.uniform());
}

}  // namespace

Tune load_tune(const std::filesystem::path& chart) {
    const auto name = chart.filename().string();
    auto text = files::load_text(chart);
    auto form = chart::unroll(chart::read_chart(text, name));
    return {name, std::move(text), std::move(form)};
}

Tune typed_changes(const std::string& changes, const std::string& key) {
    const auto text = fmt::format("title: {}\nkey: {}\ntempo: 120\nsections:\n  A: {}\n",
                                  yaml::in_quotes(changes), key, yaml::in_quotes(changes));
    auto chart = chart::read_chart(text, "--changes");
    auto written = chart::write_chart(chart);
    return {"", std::move(written), chart::unroll(std::move(chart))};
}

std::string_view name_of(What what) {
    switch (what) {
        case What::tune:
            return "tune";
        case What::loop:
            return "loop";
        case What::ladder:
            return "ladder";
        case What::drill:
            return "drill";
    }
    return "";
}

MadeTake play(const Tune& tune, const AskedTake& asked, const Skill& skill, Luck& luck,
              simulate::Chance& chance) {
    const roadmap::RoadMap map(tune.form, read(tune, asked));
    const auto judged = asked.ladder ? practice::JudgedMeanwhile::times_through
                                     : practice::JudgedMeanwhile::nothing;
    practice::Evening evening(map, opening(tune, map), {}, judged);
    Hands hands(skill, luck, chance);
    const Seconds step(asked.ladder ? 0.05 : 0.1);
    const auto stop = stops_at(asked, map, chance);
    constexpr std::array stops{practice::Command::stop};
    for (auto now = -map.lead(); !evening.state().over; now += step) {
        const auto news = hands.until(now, evening.state().map);
        const std::span<const practice::Command> commands =
            now >= stop ? std::span<const practice::Command>(stops)
                        : std::span<const practice::Command>();
        (void)evening.advance(now, news, commands);
    }
    auto take = evening.take();
    take.info->machine = machine(chance);
    return {std::move(take), map, hands.meant()};
}

std::vector<std::uint8_t> to_bytes(const MadeTake& made_take, const std::string& player,
                                   const std::string& made) {
    auto take = made_take.take;
    take.info->player = player;
    take.info->made = made;
    return midi::write_smf(practice::to_file(take, made_take.map));
}

}  // namespace compline::month
