#pragma once

#include <compline/practice/places.hpp>
#include <compline/practice/report.hpp>

#include <set>
#include <string>
#include <vector>

namespace compline::report {

// Lengths of a picture, see picture.hpp.
inline constexpr int bars_a_piece = 4;
inline constexpr double piece_width = 400;
inline constexpr double bar_width = piece_width / bars_a_piece;
inline constexpr double head_height = 26;  ///< bar number, rehearsal letter
inline constexpr double half_height = 46;  ///< early; the same for late
inline constexpr double chord_height = 25;
inline constexpr double label_size = 20;

struct ChordLabel {
    double x = 0;
    int row = 0;
    std::string symbol;
};

/// PlaceKey what stands in a strip of changes; see take_page_strip.hpp. Report and places must
/// outlive it.
class StripLayout {
  public:
    using PlaceKey = practice::Places::key_type;

    StripLayout(const practice::Report& report, const practice::Places& places);

    [[nodiscard]] const practice::Report& report() const { return report_; }
    [[nodiscard]] const practice::Places& places() const { return places_; }
    [[nodiscard]] chart::Passage reach() const { return reach_; }

    [[nodiscard]] int count() const;      ///< of pieces
    [[nodiscard]] double height() const;  ///< of each
    /// Of a place so many beats behind a bar line, in the piece that begins with bar `from`.
    [[nodiscard]] double x_of(int from, int bar, double beats) const;
    /// Of what is so far from the beat; what is farther than the strip reaches ends at its edge.
    [[nodiscard]] double height_of(double ms) const;
    /// Few numbers are read: those of the costliest places that lie well out.
    [[nodiscard]] bool has_number(const PlaceKey& where) const {
        return numbered_.count(where) > 0;
    }
    /// Chords that do not fit beside one another stand in two rows; where these are full, one is
    /// left out.
    [[nodiscard]] std::vector<ChordLabel> labels(int from) const;

  private:
    void find_range();
    void find_numbers();

    const practice::Report& report_;
    const practice::Places& places_;
    chart::Passage reach_;
    double range_ms_ = 0;
    std::set<PlaceKey> numbered_;
    int rows_ = 1;  ///< of chords
};

}  // namespace compline::report
