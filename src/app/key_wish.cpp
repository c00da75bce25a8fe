#include "key_wish.hpp"

#include <compline/chart/through_keys.hpp>
#include <compline/chart/write_chart.hpp>
#include <compline/text/printable.hpp>

#include <fmt/format.h>

#include <utility>

namespace compline::app {

namespace {

constexpr int furthest = 11;  // semitones: an octave is no other key

chart::Key wanted_key(const chart::Key& written, const KeyWish& wish) {
    if (wish.semitones) return chart::key_apart(written, *wish.semitones);
    return read_option("--key", wish.key, Echo::name,
                       [&](const auto& text) { return chart::read_key_for(written, text); });
}

}  // namespace

std::vector<Option> options_of(KeyWish& wish) {
    return {{"--key", "KEY", "The key that it is to be in, such as G, Eb or F#m.", "the chart's",
             as_typed(&wish.key)},
            {"--transpose", "N", "The same by semitones, -11 to 11: -2 is a tone lower.", "0",
             whole_number(-furthest, furthest, &wish.semitones)}};
}

chart::Transposed in_key(chart::Chart chart, const KeyWish& wish, int last_fret) {
    if (!wish.key.empty() && wish.semitones) {
        throw BadInput("--key and --transpose both say the key: leave out one of them");
    }
    if (!wish.asked() || wish.semitones == 0) return {std::move(chart), {}};
    const auto key = wanted_key(chart.key, wish);
    return chart::transposed(std::move(chart), key, last_fret);
}

WantedChart load_chart(const std::string& path, const KeyWish& wish, int last_fret) {
    auto file = load_chart_file(path);
    auto wanted = in_key(std::move(file.form.chart), wish, last_fret);
    return {chart::unroll(std::move(wanted.chart)), std::move(file.text),
            std::move(wanted.left_out)};
}

Option each_time_option(KeyWish& wish) {
    return {"--each-time", "STEP",
            "The bars through the keys, one a time through: \"up a fourth\", \"down a semitone\";\n"
            "--times says how many keys, else until the first would come again.",
            "one key",
            read_by([&wish](const auto& text) { wish.each_time = chart::read_key_step(text); })};
}

WantedChart through_keys(const WantedChart& chart, int step, const std::string& bars,
                         std::optional<int> times) {
    const auto passage = read_bars(chart.form, bars).value_or(chart.form.whole());
    auto all = text::read_at("--each-time",
                             [&] { return chart::through_keys(chart.form, passage, step, times); });
    auto text = chart::write_chart(all);
    return {chart::unroll(std::move(all)), std::move(text), {}};
}

void say_left_out(const std::string& path, const WantedChart& chart) {
    for (const auto& words : chart.left_out) {
        say(fmt::format("{}: {}", spoken_name(path), words));
    }
}

}  // namespace compline::app
