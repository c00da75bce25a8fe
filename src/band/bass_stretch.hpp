#pragma once

#include "bass_rhythm.hpp"

#include <compline/band/band.hpp>
#include <compline/band/walk.hpp>

#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

namespace compline::band {

/// A stretch and what is in view behind it, on its way to notes: see BassWriter.
class BassStretch {
  public:
    /// then: the bars that follow; home: pitch class of the very last note, else the last root.
    /// lead: where the line stands; it must outlive the stretch.
    BassStretch(const std::vector<BassBar>& bars, const std::vector<BassBar>& then,
                std::optional<int> home, KeyedChance chance, const LineSoFar& lead);

    [[nodiscard]] std::vector<Choice> line() const;

    /// Other wishes for some bars, in line() the next time; what is before the stretch stays.
    void retry(std::int64_t from, std::int64_t to);
    void stir_all();

    /// joins: the first note comes right after the last one of the stretch before.
    [[nodiscard]] std::vector<LineNote> heard(const std::vector<Choice>& line,
                                              std::int64_t first_bar, bool joins) const;
    /// How many notes in view behind the stretch are given, up to the first that is not.
    [[nodiscard]] std::ptrdiff_t given_next() const;
    /// The last note lasts to the end.
    [[nodiscard]] bool runs_on() const;
    /// A walking note of it is not given.
    [[nodiscard]] bool is_free() const;

    /// The line as it sounds, seasoned.
    [[nodiscard]] std::vector<BassNote> notes(const std::vector<Choice>& line) const;

  private:
    [[nodiscard]] BassNote note(const BassPlace& place, time::Ticks until,
                                harmony::MidiNote pitch) const;
    [[nodiscard]] int last_root() const;

    KeyedChance chance_;
    std::size_t own_bars_;
    std::vector<BassBar> bars_;
    std::vector<time::Ticks> lines_;  // where they begin, and the end
    const LineSoFar& lead_;
    std::vector<ChordToPlay> changes_;
    std::vector<KeyedChance> chances_;  // one a bar
    std::vector<BassPlace> places_;
    std::size_t own_places_ = 0;
    std::vector<int> retries_;
    int home_ = 0;
};

}  // namespace compline::band
