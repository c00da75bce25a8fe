#pragma once

#include "music_options.hpp"

#include <compline/band/place.hpp>
#include <compline/roadmap/road_map.hpp>

#include <optional>
#include <string>

namespace compline::app {

/// A chart as the band was asked to play it, or what was heard in a take.
struct ToRender {
    roadmap::RoadMap map;
    band::Players players;
    band::Stage stage;
    std::optional<time::Seconds> until;  ///< where the band was stopped; none: to the last tail
};

/// Reads what `chart` names, a chart or a take. Throws BadInput, chart::ChartError,
/// files::FileError.
[[nodiscard]] ToRender read_to_render(const MusicOptions& options);

/// By its ending.
[[nodiscard]] bool is_midi_file(const std::string& file);

/// The ending of a file's name in small letters, with its dot.
[[nodiscard]] std::string ending_of(const std::string& file);

}  // namespace compline::app
