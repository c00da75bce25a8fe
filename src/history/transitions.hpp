#pragma once

#include "place_rows.hpp"

#include <compline/chart/chart.hpp>

#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace compline::history {

/// How a tune's chords sounded in the key in which they were played.
class Sounding {
  public:
    explicit Sounding(const KnownTune& tune) : tune_(tune) {}

    struct SoundingChord {
        std::string name;   ///< in plain letters
        std::string sound;  ///< the same for F#m7 and Gbm7
    };
    /// None for what is no chord symbol, and where the chart, without which nobody knows how far it
    /// was moved, cannot be read. Points to what lives as long as this does.
    [[nodiscard]] const SoundingChord* of(const std::string& chord, const std::string& key);

  private:
    [[nodiscard]] std::optional<SoundingChord> hear(const std::string& symbol,
                                                    const std::string& key);
    [[nodiscard]] const std::optional<chart::Key>& own_key();

    const KnownTune& tune_;
    bool chart_was_read_ = false;
    std::optional<chart::Key> own_key_;
    std::map<std::pair<std::string, std::string>, std::optional<SoundingChord>> heard_;
};

/// The rows of two chords, wherever they come: of one tune or several.
struct TransitionRows {
    std::string from;
    std::string to;
    PlaceEvenings rows;
};

/// By how they sound, in order of that.
using Transitions = std::map<std::pair<std::string, std::string>, TransitionRows>;

/// Adds those of a tune: its rows on `since` and later, not sorted by date.
void add_transitions(Transitions& transitions, const TuneHistory& tune, const std::string& since);

/// `rows` by date; `lately`: where that begins.
[[nodiscard]] TransitionStory transition_story(const TransitionRows& transition,
                                               const std::string& lately);

/// That are weak, the costliest first.
[[nodiscard]] std::vector<TransitionStory> weak_transitions(const TuneHistory& tune,
                                                            const std::string& since,
                                                            const std::string& lately);

}  // namespace compline::history
