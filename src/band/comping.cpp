#include "comping_rhythms.hpp"

#include <compline/band/comping.hpp>

#include <algorithm>
#include <cstddef>
#include <optional>

namespace compline::band {

namespace {

using chart::Feel;
using time::eighth_note;
using time::quarter_note;
using time::Ticks;

/// A chord of a bar.
struct CompedChord {
    Ticks at;  ///< from the first bar's beginning
    Ticks length;
    Ticks in_form;
    std::size_t bar = 0;
    int bars_ago = 0;  ///< bars before in which it began
    int change = 0;    ///< the same where a chord goes on
};

/// Chords in order; none for N.C.
std::vector<CompedChord> chords_of(const std::vector<CompBar>& bars,
                                   const std::vector<Ticks>& lines) {
    std::vector<CompedChord> chords;
    int change = 0;
    const harmony::Chord* before = nullptr;
    for (std::size_t i = 0; i < bars.size(); ++i) {
        for (const auto& slot : bars[i].slots) {
            const auto* const chord = slot.chord ? &*slot.chord : nullptr;
            if (chord != nullptr) {
                const bool goes_on = before != nullptr && *before == *chord;
                const int bars_ago = goes_on ? chords.back().bars_ago + 1 : 0;
                if (!goes_on) ++change;
                chords.push_back({lines[i] + slot.start, slot.length, bars[i].start + slot.start, i,
                                  bars_ago, change});
            }
            before = chord;
        }
    }
    return chords;
}

/// Where the bars begin, and the end of the last.
std::vector<Ticks> lines_of(const std::vector<CompBar>& bars, const time::Meter& usual) {
    std::vector<Ticks> lines{Ticks(0)};
    for (const auto& bar : bars) lines.push_back(lines.back() + bar.meter.value_or(usual).bar());
    return lines;
}

class Comper {
  public:
    Comper(const std::vector<CompBar>& bars, time::Meter meter, std::uint64_t seed)
        : bars_(bars),
          usual_(meter),
          lines_(lines_of(bars, meter)),
          chords_(chords_of(bars, lines_)),
          comped_(choose_rhythms(bars, meter, seed)) {}

    std::vector<CompStrum> play() {
        for (std::size_t i = 0; i < bars_.size(); ++i) {
            for (const int eighth : comped_[i].struck) strike(i, eighth);
        }
        for (std::size_t i = 0; i < bars_.size(); ++i) {
            for (const Ticks kick : bars_[i].kicks) mark(line(i) + kick);
        }
        std::stable_sort(strums_.begin(), strums_.end(),
                         [](const CompStrum& a, const CompStrum& b) { return a.at < b.at; });
        let_go();
        touch();
        return std::move(strums_);
    }

  private:
    [[nodiscard]] Ticks line(std::size_t bar) const { return lines_[bar]; }

    [[nodiscard]] bool is_off_beat(std::size_t bar, int eighth) const {
        return eighth % (bars_[bar].meter.value_or(usual_).is_compound() ? 3 : 2) != 0;
    }

    void strike(std::size_t bar, int eighth) {
        const Ticks at = eighth_note * eighth;
        const bool off_beat = is_off_beat(bar, eighth);
        const bool last = eighth == comped_[bar].struck.back();
        const bool pushes = last && line(bar) + eighth_note * (eighth + 1) == line(bar + 1) &&
                            bar + 1 < comped_.size() && comped_[bar + 1].pushed;
        strums_.push_back({line(bar) + at, length_of(bar, eighth),
                           pushes ? bars_[bar + 1].start : bars_[bar].start + at,
                           off_beat ? comp_strong : comp_soft});
    }

    /// On the beat a chord that comes in is louder than one that is struck again.
    void touch() {
        int sounding = 0;
        for (auto& strum : strums_) {
            const int change = change_at(strum.in_form);
            if (strum.velocity == comp_soft && change != sounding) strum.velocity = comp_usual;
            sounding = change;
        }
    }

    [[nodiscard]] int change_at(Ticks in_form) const {
        for (const auto& chord : chords_) {
            const bool here = chord.in_form <= in_form && in_form < chord.in_form + chord.length;
            if (here) return chord.change;
        }
        return 0;
    }

    [[nodiscard]] Ticks length_of(std::size_t bar, int eighth) const {
        constexpr Ticks short_chord{quarter_note.count() * 5 / 8};
        constexpr Ticks in_a_bossa{quarter_note.count() * 7 / 8};
        constexpr Ticks on_the_beat{quarter_note.count() * 5 / 4};
        constexpr Ticks held{quarter_note.count() * 9 / 4};
        const auto feel = bars_[bar].feel;
        if (feel == Feel::ballad) return lines_[bar + 1] - lines_[bar];
        if (is_off_beat(bar, eighth)) return short_chord;
        if (feel == Feel::bossa) return in_a_bossa;
        return comped_[bar].struck.size() == 1 ? held : on_the_beat;
    }

    /// The chord at a position, or the one that starts within half a beat from there.
    [[nodiscard]] const CompedChord* chord_for_kick(Ticks at) const {
        const CompedChord* found = nullptr;
        for (const auto& chord : chords_) {
            const bool sounds = chord.at <= at && at < chord.at + chord.length;
            const bool comes = chord.bars_ago == 0 && chord.at > at && chord.at - at <= eighth_note;
            if (sounds || comes) found = &chord;
        }
        return found;
    }

    void mark(Ticks at) {
        const auto* const chord = chord_for_kick(at);
        if (chord == nullptr) return;
        // A push is not struck again on the beat, and nothing blurs a kick.
        const Ticks to = std::max(at + eighth_note, chord->at);
        strums_.erase(std::remove_if(strums_.begin(), strums_.end(),
                                     [&](const CompStrum& s) {
                                         return s.at > at - eighth_note && s.at <= to &&
                                                s.velocity != comp_kick;
                                     }),
                      strums_.end());
        strums_.push_back({at, eighth_note,
                           std::max(chord->in_form, chord->in_form + (at - chord->at)), comp_kick});
    }

    /// Each is let go as the next is struck, and where its chord ends.
    void let_go() {
        for (std::size_t i = 0; i < strums_.size(); ++i) {
            auto& strum = strums_[i];
            if (i + 1 < strums_.size()) {
                strum.length = std::min(strum.length, strums_[i + 1].at - strum.at);
            }
            for (const auto& chord : chords_) {
                const bool its_own =
                    chord.in_form <= strum.in_form && strum.in_form < chord.in_form + chord.length;
                const Ticks end = chord.at + chord.length;
                if (its_own && strum.at < end)
                    strum.length = std::min(strum.length, end - strum.at);
            }
        }
    }

    const std::vector<CompBar>& bars_;
    time::Meter usual_;
    std::vector<Ticks> lines_;
    std::vector<CompedChord> chords_;
    std::vector<CompedBar> comped_;
    std::vector<CompStrum> strums_;
};

}  // namespace

std::vector<CompStrum> comp(const std::vector<CompBar>& bars, time::Meter meter,
                            std::uint64_t seed) {
    return Comper(bars, meter, seed).play();
}

}  // namespace compline::band
