#include "support/random_changes.hpp"

#include <compline/harmony/quality.hpp>
#include <compline/sound/noise.hpp>

#include <optional>

namespace compline::tests {

namespace {

using time::eighth_note;
using time::Ticks;

class Dice {
  public:
    explicit Dice(std::uint64_t seed) : noise_(seed * 977 + 1) {
        for (int i = 0; i < 8; ++i) roll(2);  // neighbouring seeds begin alike
    }
    /// 0 to sides - 1.
    int roll(int sides) {
        const int rolled = static_cast<int>((noise_.next() + 1.0) / 2 * sides);
        return rolled < sides ? rolled : sides - 1;
    }

  private:
    sound::Noise noise_;
};

harmony::Spelling random_note(Dice& dice) {
    return {static_cast<harmony::Letter>(dice.roll(7)), dice.roll(3) - 1};
}

harmony::Chord random_chord(Dice& dice) {
    const auto qualities = harmony::quality_table();
    harmony::Chord chord;
    chord.root = random_note(dice);
    chord.quality =
        qualities[static_cast<std::size_t>(dice.roll(static_cast<int>(qualities.size())))].quality;
    for (int more = dice.roll(6); more > 3; --more) {
        chord.alterations.insert(static_cast<harmony::Alteration>(
            dice.roll(static_cast<int>(harmony::Alterations::kinds))));
    }
    if (dice.roll(6) == 0) chord.bass = random_note(dice);
    return harmony::simplest(chord);
}

/// How many beats the next chord of a bar lasts.
int random_beats(Dice& dice, int left) {
    switch (dice.roll(4)) {
        case 0:
            return 1;
        case 1:
            return left >= 2 ? 2 : 1;
        default:
            return left;
    }
}

band::BassBar random_bar(Dice& dice, time::Meter meter) {
    band::BassBar bar;
    bar.meter = meter;
    for (int beat = 0; beat < meter.beats();) {
        const int beats = random_beats(dice, meter.beats() - beat);
        std::optional<harmony::Chord> chord;
        if (dice.roll(15) != 0) chord = random_chord(dice);
        bar.chords.push_back({meter.beat() * beat, meter.beat() * beats, chord});
        beat += beats;
    }
    return bar;
}

}  // namespace

std::vector<band::BassBar> random_changes(time::Meter meter, std::uint64_t seed) {
    Dice dice(seed);
    std::vector<band::BassBar> bars;
    const int wanted = 4 + dice.roll(20);
    while (static_cast<int>(bars.size()) < wanted) {
        auto bar = random_bar(dice, meter);
        const int kind = dice.roll(12);
        const int times = kind == 0 ? 16 : kind < 4 ? 2 : 1;
        if (times > 1) bar.chords = {{Ticks(0), meter.bar(), bar.chords.front().chord}};
        bars.insert(bars.end(), static_cast<std::size_t>(times), bar);
    }
    // The same few chords again and again, two a bar, are what a line stalls over most easily.
    if (dice.roll(4) == 0) {
        const auto bar = random_bar(dice, meter);
        bars.insert(bars.end(), 6, bar);
    }
    return bars;
}

void add_random_kicks(std::vector<band::BassBar>& bars, time::Meter meter, std::uint64_t seed) {
    Dice dice(seed + 5000);
    for (auto& bar : bars) {
        if (dice.roll(3) != 0) continue;
        for (Ticks at; at < meter.bar(); at += eighth_note) {
            if (dice.roll(4) == 0) bar.kicks.push_back(at);
        }
    }
}

}  // namespace compline::tests
