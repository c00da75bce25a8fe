#pragma once

#include "hand.hpp"
#include "rhythm.hpp"

#include <compline/simulate/habits.hpp>

#include <optional>
#include <string>
#include <vector>

namespace compline::simulate {

/// The road as the guitarist sees it before a note is played.
struct Road {
    const roadmap::RoadMap& map;

    [[nodiscard]] time::Seconds time_of(time::Ticks at) const { return map.time_of(at); }
    [[nodiscard]] time::Meter meter_of(const Area& area) const {
        return map.form().bar(area.bar).meter;
    }
    [[nodiscard]] time::Seconds beat_at(time::Ticks at) const { return map.tempo_at(at).beat(); }
    /// What anybody would call in time there: a tenth of the beat, 25 to 60 ms, and never over a
    /// third of the short note.
    [[nodiscard]] time::Seconds tolerance_at(time::Ticks at) const;
    /// What the player's own plan of voicings has there, if he has one.
    [[nodiscard]] std::optional<guitar::Shape> planned(const Habits& habits, time::Ticks at) const;
};

/// A chord, and how it is meant to be played.
struct Intent {
    Area area;
    std::optional<guitar::Shape> grip;  ///< none: not known, and so left out
    std::optional<time::Ticks> entry;   ///< after its start; none: laid out
    bool filled = false;                ///< with single notes
    std::optional<Deed> deed;
    std::string words;
    bool planted = false;       ///< what always goes wrong there
    Slip slip{};                ///< of a spoilt grip
    bool mended = false;        ///< the grip is right when it is struck again
    time::Seconds off{0};       ///< late or early by, from its entry
    bool old_rings_on = false;  ///< until a late one comes
    time::Seconds apart{0};     ///< strings of a broken chord; an up-stroke and the beat

    [[nodiscard]] bool plain() const { return !deed && grip && entry; }
};

/// Some changes in which the player is somewhere else in the form.
struct Stray {
    std::size_t first = 0;  ///< change, from 0
    std::size_t last = 0;
    double bars = 0;             ///< so far on in the form; - is behind
    std::vector<Intent> played;  ///< instead of them
};

struct Intents {
    std::vector<Intent> chords;  ///< one a change of the road
    std::vector<Stray> strays;
};

/// Chooses grips, then what goes wrong, and where the player takes liberties.
[[nodiscard]] Intents intend(const Road& road, const Habits& habits, Chance& chance);

/// The chord before and this one, with the grips meant for them. `i` from 1.
[[nodiscard]] Spot spot_of(const std::vector<Intent>& chords, std::size_t i);

/// Room for a deed: two beats, and simply played before, here and after.
[[nodiscard]] bool has_room(const std::vector<Intent>& chords, std::size_t i);
[[nodiscard]] bool is_wide_move(const std::vector<Intent>& chords, std::size_t i);
[[nodiscard]] bool comes_from_fill(const std::vector<Intent>& chords, std::size_t i,
                                   const Habits& habits);

/// Has what is planted go wrong in its places, wherever it is plain to hear.
void plant(std::vector<Intent>& chords, const Road& road, const Habits& habits, Chance& chance);

/// Makes the intent one with that deed, where it is possible and plain to hear. False: it is not,
/// and nothing has changed.
[[nodiscard]] bool commit(Deed deed, std::vector<Intent>& chords, std::size_t i, const Road& road,
                          const Habits& habits, Chance& chance);

/// Loses the way at change i for some changes, where that is plain to hear.
[[nodiscard]] std::optional<Stray> stray_from(const std::vector<Intent>& chords, std::size_t i,
                                              const Road& road, const Habits& habits,
                                              Chance& chance);

}  // namespace compline::simulate
