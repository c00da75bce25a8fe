#pragma once

#include "band_options.hpp"
#include "key_wish.hpp"
#include "voicing_options.hpp"

#include <compline/band/place.hpp>
#include <compline/roadmap/road_map.hpp>

#include <optional>
#include <string>

namespace compline::app {

/// What a player asks of the music that is to be written.
struct MusicOptions {
    std::string chart;  ///< or a take
    std::optional<double> tempo;
    std::string bars;
    KeyWish key;
    std::optional<int> times;
    std::optional<roadmap::AskedLadder> ladder;
    BandOptions band;
    AsGiven voicings;
    VoicingOptions hand;  ///< of the guitarist in the band: where `voicings` say nothing
};

/// A chart as the band was asked to play it, or what was heard in a take.
struct ToRender {
    roadmap::RoadMap map;
    band::Players players;
    band::Stage stage;
    std::optional<time::Seconds> until;  ///< where the band was stopped; none: to the last tail
};

/// Reads chart or take. Throws BadInput, chart::ChartError, files::FileError.
[[nodiscard]] ToRender read_to_render(const MusicOptions& options);

/// By its ending.
[[nodiscard]] bool is_midi_file(const std::string& file);

/// The ending of a file's name in small letters, with its dot.
[[nodiscard]] std::string ending_of(const std::string& file);

}  // namespace compline::app
