#pragma once

#include <compline/chart/form.hpp>

#include <array>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace compline::measure {

/// What is wrong with a whole take: it was played to something else.
enum class Misplayed {
    bar_later,    ///< than the file's start, by one bar
    two_bars,     ///< by two
    bar_earlier,  ///< the recording began in the tune, one bar or two
    half_a_beat,  ///< late throughout, in a feel that swings: where it does not, that is a way of
                  ///< comping
    delayed,      ///< 90 to 220 ms late throughout
    /// The same of who strikes off-beats alone: as well he may strike beats at another time.
    off_beats_delayed,
    transposed,  ///< by one to six semitones
    half_tempo,
    twice_tempo,
    few_percent,  ///< 2 to 8 % slower or faster
    other_chart,  ///< of the charts it was another one
    nothing,      ///< pupils as they are
};
inline constexpr int ways_to_misplay = 12;
[[nodiscard]] std::string_view name_of(Misplayed misplayed);

struct OfferFigures {
    int takes = 0;
    int right = 0;  ///< what was wrong is offered; of nothing wrong: nothing is
    int other = 0;  ///< something else is offered
    /// Of those that are not right: nothing is to be offered (enough is right as it is, or not
    /// twice as much by what was planted), or as much is right by what is offered.
    int doubtful = 0;
    std::vector<std::string> slips;

    [[nodiscard]] int none() const { return takes - right - other; }
    /// Of those that can be told.
    [[nodiscard]] double right_rate() const {
        return takes == doubtful ? 1 : static_cast<double>(right) / (takes - doubtful);
    }
};

/// So many takes of each kind, of the simulated guitarist on these charts in their own tempi (as
/// files from elsewhere, whose texts say nothing); of nothing wrong four times as many, on tunes by
/// chance too. Deterministic by seed.
[[nodiscard]] std::array<OfferFigures, ways_to_misplay> offers_made(
    const std::vector<chart::Form>& forms, int takes, std::uint64_t seed);

}  // namespace compline::measure
