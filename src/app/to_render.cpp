#include "to_render.hpp"

#include "ladder.hpp"
#include "take_input.hpp"
#include "voicings_played.hpp"

#include <compline/files/file_io.hpp>
#include <compline/practice/ladder.hpp>

#include <fmt/format.h>

#include <cctype>
#include <filesystem>
#include <utility>

namespace compline::app {

namespace {

ToRender read_chart(const MusicOptions& options) {
    if (options.ladder) refuse_beside_ladder(options);
    auto chart =
        load_chart(options.chart, options.key, read_fretboard(options.hand.guitar).frets());
    if (!options.voicings.empty()) say_left_out(options.chart, chart);
    auto asked = read_asked(options, std::move(chart), options.bars, 1);
    const auto& form = asked.chart.form;
    auto& band = asked.band;
    band.asked.guitar = !options.voicings.empty();
    const auto map =
        options.ladder ? practice::climbed(form, band.asked) : roadmap::RoadMap(form, band.asked);
    ToRender what{map, std::move(band.players), band.stage, {}};
    what.players.voicings = read_voicings_played(options.voicings, what.map, options.hand);
    return what;
}

/// All that a take says itself.
void refuse_wishes(const MusicOptions& options) {
    const MusicOptions none;
    auto band = options.band;
    band.usual = {};  // nobody asked for that here
    const bool plain = !options.tempo && options.bars.empty() && !options.times &&
                       !options.ladder && options.voicings.empty() && options.key == none.key &&
                       band == none.band;
    if (plain) return;
    throw BadInput(fmt::format(
        "{} is a take: it says itself what was played; leave out all that asks for something else",
        files::name_of(options.chart)));
}

ToRender read_take(const MusicOptions& options) {
    refuse_wishes(options);
    const auto take = load_take(options.chart, practice::TakeTexts::read);
    const auto form = form_of(take, options.chart, "render its chart");
    return text::read_at(files::name_of(options.chart), [&] {
        const auto& info = *take.info;
        const auto map =
            practice::as_far_as_played(practice::map_of(info, form), info.ended, take.end);
        return ToRender{map, info.players, info.stage, take.end};
    });
}

}  // namespace

ToRender read_to_render(const MusicOptions& options) {
    return is_midi_file(options.chart) ? read_take(options) : read_chart(options);
}

bool is_midi_file(const std::string& file) {
    const auto ending = ending_of(file);
    return ending == ".mid" || ending == ".midi";
}

std::string ending_of(const std::string& file) {
    std::string ending = std::filesystem::path(file).extension().string();
    for (char& c : ending) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
    return ending;
}

}  // namespace compline::app
