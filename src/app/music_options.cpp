#include "music_options.hpp"

#include "ladder.hpp"

#include <utility>

namespace compline::app {

AskedMusic read_asked(const MusicOptions& options, WantedChart chart, const std::string& bars,
                      std::optional<int> times) {
    const bool asked = !bars.empty() || options.times || options.ladder;
    Stay stay{bars, options.times ? options.times : times, asked};
    if (options.ladder) stay.times.reset();
    std::optional<chart::Passage> passage;
    if (const auto step = options.key.each_time) {
        refuse_road_map(options.band);
        passage = read_bars(chart.form, bars).value_or(chart.form.whole());
        chart = through_keys(chart, *step, bars, options.times);
        stay = {};
    }
    auto band = read_band(options.band, chart.form, stay, options.tempo);
    if (options.ladder) set_ladder(*options.ladder, chart.form, band.asked);
    return {std::move(chart), std::move(band), passage};
}

}  // namespace compline::app
