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
    transposed,   ///< by one to six semitones
    half_tempo,
    twice_tempo,
    few_percent,  ///< 2 to 8 % slower or faster
    other_chart,  ///< of the charts it was another one
    nothing,      ///< pupils as they are
};
inline constexpr int ways_to_misplay = 11;
[[nodiscard]] std::string_view name_of(Misplayed misplayed);

struct OfferFigures {
    int takes = 0;
    int right = 0;  ///< what was wrong is offered; of nothing wrong: nothing is
    int other = 0;  ///< something else is offered
    std::vector<std::string> slips;

    [[nodiscard]] int none() const { return takes - right - other; }
};

/// So many takes of each kind, of the simulated guitarist on these charts in their own tempi (as
/// files from elsewhere, whose texts say nothing); of nothing wrong four times as many, on tunes by
/// chance too. Deterministic by seed.
[[nodiscard]] std::array<OfferFigures, ways_to_misplay> offers_made(
    const std::vector<chart::Form>& forms, int takes, std::uint64_t seed);

}  // namespace compline::measure
