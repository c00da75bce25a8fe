#pragma once

#include <compline/listen/note.hpp>
#include <compline/time/units.hpp>

#include <optional>
#include <span>
#include <string>
#include <vector>

namespace compline::practice {

// The third way: by playing to a click, where the guitar's sound comes into no interface. Single
// notes, one on each click, on one string after the other. How far behind the click a note-on comes
// is R + D (see round_trip.hpp) and the player's own place, which nobody can take apart. Between
// strings the player's place is the same, so their differences are known, and only they are set;
// the sum is said.

/// Why differences are not known.
enum class PlayingFault {
    no_notes,       ///< nothing was played, or not near any click
    one_channel,    ///< strings cannot be told apart: there are no differences to find
    too_few_notes,  ///< on the strings that are named
    not_in_time     ///< played too unevenly to say anything
};

/// A string as it came out.
struct StringOnClick {
    int string = 1;
    int notes = 0;  ///< that were used
    /// Behind the click, on average.
    time::Seconds behind{0};
    /// Against the mean of all strings: as played ...
    time::Seconds difference{0};
    /// ... and what of it remains when cycles of its wave are taken off each note.
    time::Seconds remains{0};
    time::Seconds error{0};  ///< standard error of both
    /// Whether what remains is more than 2.5 standard errors.
    [[nodiscard]] bool is_sure() const;
};

struct ClickDelay {
    std::optional<PlayingFault> fault;
    double cycles = 0;                   ///< that were taken for `remains`
    std::vector<StringOnClick> strings;  ///< from string 1 on
    /// Mean of all strings behind the click: R + D and the player's own place. Said, never set.
    time::Seconds sum{0};
    time::Seconds sum_error{0};  ///< standard error
    time::Seconds sd{0};         ///< of single notes around their string's mean
    int used = 0;
    int left_out = 0;          ///< first ones, and those too far off
    int off_click = 0;         ///< no click within half a beat, or another note on that click
    std::vector<int> lacking;  ///< strings with too few notes

    [[nodiscard]] bool is_known() const { return !fault; }
};

/// Notes to play on each string, and of them those needed behind the first two.
inline constexpr int notes_on_clicks = 16;
inline constexpr int fewest_on_clicks = 8;

/// clicks: when the player hears them, as far as is known, in order, two at least (else no_notes);
/// notes: in order of `on`, on the same clock, with nothing taken off; strings: those to be
/// measured; cycles: taken off for `remains`.
/// A note belongs to the nearest click within half a beat (half the way to the click beside it),
/// one note to a click (see pair_up). The first two of each string are left out, and what lies
/// beyond 4 standard deviations of the rest, these by the median deviation.
[[nodiscard]] ClickDelay measure_on_clicks(std::span<const time::Seconds> clicks,
                                           std::span<const listen::Note> notes,
                                           std::span<const int> strings, double cycles);

/// For the player, in lines of 80 columns at most.
[[nodiscard]] std::string in_words(const ClickDelay& found);

}  // namespace compline::practice
