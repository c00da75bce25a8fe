#include <compline/band/comping.hpp>
#include <compline/time/strong_beat.hpp>

#include <algorithm>
#include <cstddef>
#include <optional>

namespace compline::band {

namespace {

using chart::Feel;
using time::quarter_note;
using time::Ticks;

constexpr Ticks half_beat{quarter_note.count() / 2};
constexpr Ticks quarter_of_a_beat{quarter_note.count() / 4};
constexpr Ticks beat_and_a_half = quarter_note + half_beat;
constexpr Ticks long_chord = quarter_note * 3;

constexpr int on_the_chord = 72;
constexpr int again = 64;
constexpr int marked = 82;

/// A chord of a bar.
struct Chord {
    Ticks at;  ///< from the first bar's beginning
    Ticks length;
    Ticks in_form;
    std::size_t bar = 0;
    int bars_ago = 0;  ///< bars before in which it began
};

/// Chords in order; none for N.C.
std::vector<Chord> chords_of(const std::vector<CompBar>& bars, time::Meter meter) {
    std::vector<Chord> chords;
    const harmony::Chord* before = nullptr;
    for (std::size_t i = 0; i < bars.size(); ++i) {
        const Ticks line = meter.bar() * static_cast<std::int64_t>(i);
        for (const auto& slot : bars[i].slots) {
            const auto* const chord = slot.chord ? &*slot.chord : nullptr;
            if (chord != nullptr) {
                const bool goes_on = before != nullptr && *before == *chord;
                const int bars_ago = goes_on ? chords.back().bars_ago + 1 : 0;
                chords.push_back(
                    {line + slot.start, slot.length, bars[i].start + slot.start, i, bars_ago});
            }
            before = chord;
        }
    }
    return chords;
}

class Comper {
  public:
    Comper(const std::vector<CompBar>& bars, time::Meter meter)
        : bars_(bars), meter_(meter), chords_(chords_of(bars, meter)) {}

    std::vector<CompStrum> play() {
        for (const auto& chord : chords_) keep_time(chord);
        for (std::size_t i = 0; i < bars_.size(); ++i) {
            for (const Ticks kick : bars_[i].kicks) mark(line(i) + kick);
        }
        std::stable_sort(strums_.begin(), strums_.end(),
                         [](const CompStrum& a, const CompStrum& b) { return a.at < b.at; });
        let_go();
        return std::move(strums_);
    }

  private:
    [[nodiscard]] Ticks line(std::size_t bar) const {
        return meter_.bar() * static_cast<std::int64_t>(bar);
    }

    void strike(const Chord& chord, Ticks in_chord, Ticks length, int velocity) {
        strums_.push_back({chord.at + in_chord, length, chord.in_form + in_chord, velocity});
    }

    void keep_time(const Chord& chord) {
        switch (bars_[chord.bar].feel) {
            case Feel::bossa:
                bossa(chord);
                break;
            case Feel::ballad:
                ballad(chord);
                break;
            default:
                swing(chord);
        }
    }

    void swing(const Chord& chord) {
        const bool long_enough = chord.length >= long_chord;
        if (!long_enough || chord.bars_ago % 2 == 0) {
            strike(chord, Ticks(0), quarter_note + quarter_of_a_beat, on_the_chord);
        }
        if (long_enough) strike(chord, beat_and_a_half, half_beat + quarter_of_a_beat, again);
        // Five is three and two, six twice three.
        const Ticks second_half = quarter_note * 3;
        if (chord.length > quarter_note * 4) strike(chord, second_half, quarter_note, again);
    }

    void ballad(const Chord& chord) {
        for (Ticks in; in < chord.length; in += quarter_note) {
            const auto beat = static_cast<int>((chord.at + in - line(chord.bar)) / quarter_note);
            const bool starts = in == Ticks(0);
            if (!starts && !time::is_strong_beat(meter_, beat)) continue;
            strike(chord, in, meter_.bar(), starts ? on_the_chord : again);
        }
    }

    /// Where the guitar strikes with the stick.
    [[nodiscard]] std::vector<Ticks> bossa_pattern(const Chord& chord) const {
        const auto beat = [](int number) { return quarter_note * (number - 1); };
        const bool first = bars_[chord.bar].in_section % 2 == 0;
        if (meter_.beats() != 4) {
            return {beat(1), first ? beat(2) + half_beat : beat(2), beat(4)};
        }
        return first ? std::vector{beat(1), beat(2) + half_beat, beat(4)}
                     : std::vector{beat(2), beat(3) + half_beat};
    }

    void bossa(const Chord& chord) {
        constexpr Ticks length{quarter_note.count() * 7 / 8};
        const Ticks in_bar = chord.at - line(chord.bar);
        const bool starts = chord.bars_ago == 0 || in_bar > Ticks(0);
        if (starts) strike(chord, Ticks(0), length, on_the_chord);
        for (const Ticks at : bossa_pattern(chord)) {
            const Ticks in_chord = at - in_bar;
            // Too near to where a chord starts it would only blur that.
            const bool free = in_chord >= (starts ? quarter_note : Ticks(0)) &&
                              in_chord + (ends_in_bar(chord) ? half_beat : Ticks(0)) < chord.length;
            if (free) strike(chord, in_chord, length, again);
        }
    }

    [[nodiscard]] bool ends_in_bar(const Chord& chord) const {
        return chord.at + chord.length < line(chord.bar + 1);
    }

    /// The chord at a position, or the one that starts within half a beat from there.
    [[nodiscard]] const Chord* chord_for_kick(Ticks at) const {
        const Chord* found = nullptr;
        for (const auto& chord : chords_) {
            const bool sounds = chord.at <= at && at < chord.at + chord.length;
            const bool comes = chord.bars_ago == 0 && chord.at > at && chord.at - at <= half_beat;
            if (sounds || comes) found = &chord;
        }
        return found;
    }

    void mark(Ticks at) {
        const auto* const chord = chord_for_kick(at);
        if (chord == nullptr) return;
        // A push is not struck again on the beat, and nothing blurs a kick.
        const Ticks to = std::max(at + half_beat, chord->at);
        strums_.erase(std::remove_if(strums_.begin(), strums_.end(),
                                     [&](const CompStrum& s) {
                                         return s.at > at - half_beat && s.at <= to &&
                                                s.velocity != marked;
                                     }),
                      strums_.end());
        strums_.push_back(
            {at, half_beat, std::max(chord->in_form, chord->in_form + (at - chord->at)), marked});
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
    time::Meter meter_;
    std::vector<Chord> chords_;
    std::vector<CompStrum> strums_;
};

}  // namespace

std::vector<CompStrum> comp(const std::vector<CompBar>& bars, time::Meter meter) {
    return Comper(bars, meter).play();
}

}  // namespace compline::band
