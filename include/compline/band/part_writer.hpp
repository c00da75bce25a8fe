#pragma once

#include <compline/band/band.hpp>
#include <compline/band/bass.hpp>
#include <compline/band/drums.hpp>

#include <optional>
#include <vector>

namespace compline::band {

/// Writes the band's part a time through at a time, also for a band that plays until it is stopped.
/// The form must outlive it.
class PartWriter {
  public:
    PartWriter(const chart::Form& form, Setup setup, time::Bpm tempo);

    /// The next time through, the count-in before the first and a held ending behind the last.
    /// Nothing after the last.
    [[nodiscard]] std::optional<Part> next();

  private:
    [[nodiscard]] bool is_last(int time) const;
    [[nodiscard]] Manner manner(int time, int bar) const;
    [[nodiscard]] std::vector<BassBar> bass_bars(int time) const;
    [[nodiscard]] DrumBar drum_bar_for(int time, int bar);
    [[nodiscard]] bool ends_section(int time, int bar) const;
    [[nodiscard]] bool stops_after(int time, int bar) const;
    [[nodiscard]] bool fills_lightly(int time, int bar, const DrumBar& drums) const;
    void choose_figure(int time, int bar, DrumBar& drums);
    void write_drums(int time, Part& part);
    void write_bass(int time, Part& part);
    void write_melody(int time, Part& part) const;
    void write_guitar(int time, Part& part) const;
    void write_kicks(int time, Part& part) const;
    void hold_ending(Part& part) const;

    const chart::Form& form_;
    Setup setup_;
    time::Bpm tempo_;
    int written_ = 0;
    BassWriter bass_;
    int last_fill_ = -1;  // figures: none is played twice running
    int last_light_fill_ = -1;
};

}  // namespace compline::band
