#pragma once

#include "band_options.hpp"
#include "calibration.hpp"

#include <compline/listen/listener.hpp>
#include <compline/listen/sound_onsets.hpp>
#include <compline/live/onset_ear.hpp>
#include <compline/live/rig.hpp>

#include <optional>
#include <string>
#include <vector>

namespace compline::app {

/// Single notes on one string after another, as a player is asked for them: a rig with little or
/// nothing to play, and what comes meanwhile.
class NotesBeingPlayed {
  public:
    /// What is played meanwhile.meanwhile.
    enum class Band { silent, click };
    /// How many each string is asked for.
    [[nodiscard]] static int notes_on_each(const CalibrationOptions& options, Band band);

    /// Throws live::DeviceError, BadInput.
    NotesBeingPlayed(const CalibrationOptions& options, Band band);

    /// Until each string has its notes, Enter is pressed, or nothing came for a minute. False: it
    /// was left.
    [[nodiscard]] bool collect();

    [[nodiscard]] const live::Rig& rig() const { return rig_; }
    /// Strings that the guitar has, from 1 on.
    [[nodiscard]] std::vector<int> strings() const;
    /// Nothing is taken off their times, which are those of the tune.
    [[nodiscard]] std::vector<listen::Note> notes() const;
    /// The same at times of the stream.
    [[nodiscard]] std::vector<listen::Note> notes_in_the_stream() const;
    /// What was heard of their sound.
    [[nodiscard]] const std::vector<listen::SoundOnset>& onsets() const { return onsets_; }

  private:
    [[nodiscard]] std::vector<int> counts() const;
    [[nodiscard]] bool are_enough(const std::vector<int>& counts) const;
    [[nodiscard]] std::string how_far(const std::vector<int>& counts) const;
    void look();

    /// What is played meanwhile.
    struct Meanwhile {
        roadmap::RoadMap map;
        AskedBand band;
    };
    [[nodiscard]] static Meanwhile meanwhile(Band band, double tempo);
    [[nodiscard]] static live::Gear open(const CalibrationOptions& options, Band band,
                                         const band::Players& players);

    int notes_asked_;
    listen::PickupSettings pickup_;
    Meanwhile meanwhile_;
    live::Rig rig_;
    std::optional<live::OnsetEar> ear_;
    std::vector<listen::SoundOnset> onsets_;
};

/// What strings take, from string 1 on, by what was found of each.
template <typename StringsFound, typename Difference>
std::vector<time::Seconds> found_by_string(const StringsFound& found, Difference difference) {
    std::vector<time::Seconds> differences;
    for (const auto& string : found) {
        differences.resize(static_cast<std::size_t>(string.string), time::Seconds(0));
        differences.back() = difference(string);
    }
    return differences;
}

}  // namespace compline::app
